package knowledge

import (
	"slices"
	"strings"

	"wellshown/assessment"
)

// Answer is what somebody answered to one item. The zero one is no answer.
type Answer struct {
	Item   string
	Chosen []int  // Single, Multiple: options; Order: options as they were put; Match: for each of the left the place of the right. Counted from 1 as the item counts
	Value  string // Numeric: as typed; a comma may stand for the decimal point
	Unit   string
}

// Given reports whether anything was answered.
func (a Answer) Given() bool { return len(a.Chosen) > 0 || strings.TrimSpace(a.Value) != "" }

// Correct judges an answer. What was not answered, or cannot be read, is not right; no
// part of an answer counts by itself.
func (i Item) Correct(a Answer) bool {
	if a.Item != i.ID || !a.Given() {
		return false
	}
	switch i.Kind {
	case Single, Multiple:
		return distinct(a.Chosen, i.Options()) && len(a.Chosen) == len(i.Right) && !slices.ContainsFunc(a.Chosen, func(c int) bool { return !slices.Contains(i.Right, c) })
	case Order, Match:
		return slices.Equal(a.Chosen, inOrder(i.Options()))
	case Numeric:
		return i.accepts(a)
	}
	return false
}

// accepts judges a number in the unit in which it was asked for; nothing is converted.
func (i Item) accepts(a Answer) bool {
	if a.Unit != i.Unit || i.Low == nil || i.High == nil {
		return false
	}
	n, err := assessment.ParseNumber(decimal(a.Value))
	return err == nil && n.Cmp(*i.Low) >= 0 && n.Cmp(*i.High) <= 0
}

// decimal reads a comma as the point, where there is one and no point: 2,5.
func decimal(typed string) string {
	typed = strings.TrimSpace(typed)
	if strings.Count(typed, ",") == 1 && !strings.Contains(typed, ".") {
		return strings.Replace(typed, ",", ".", 1)
	}
	return typed
}

func inOrder(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i + 1
	}
	return all
}
