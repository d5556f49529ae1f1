package knowledge

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
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

// Takes refuses what cannot be an answer to this item, whatever is right. Nothing at all
// can be one: it was not answered.
func (i Item) Takes(a Answer) error {
	n := i.Options()
	switch {
	case a.Item != i.ID:
		return fault.Of(fault.Invalid, "This is an answer to another question.")
	case !a.Given():
		return nil
	case i.Kind == Numeric && len(a.Chosen) > 0, i.Kind != Numeric && (a.Value != "" || a.Unit != ""):
		return fault.Of(fault.Invalid, "This is an answer to another kind of question.")
	case i.Kind == Single && (len(a.Chosen) != 1 || !distinct(a.Chosen, n)):
		return faultIn("choose", "Choose one answer.")
	case i.Kind == Multiple && !distinct(a.Chosen, n):
		return faultIn("choose", "Choose from the answers that are there.")
	case i.Kind == Order && (len(a.Chosen) != n || !distinct(a.Chosen, n)):
		return faultIn("order", "Give each step a place of its own.")
	case i.Kind == Match && !within(a.Chosen, n):
		return faultIn("match", "Choose one for each.")
	case i.Kind == Numeric:
		return i.takesNumber(a)
	}
	return nil
}

func (i Item) takesNumber(a Answer) error {
	var f fault.Fields
	if _, err := assessment.ParseNumber(decimal(a.Value)); err != nil {
		f.Add("value", "Write a number, such as 12 or 2.5.")
	}
	if !slices.Contains(i.Units, a.Unit) {
		f.Add("unit", "Choose the unit.")
	}
	return f.Err()
}

func faultIn(field, says string) error {
	var f fault.Fields
	f.Add(field, "%s", says)
	return f.Err()
}

// within reports whether there are n, each of 1 to n.
func within(all []int, n int) bool {
	return len(all) == n && !slices.ContainsFunc(all, func(one int) bool { return one < 1 || one > n })
}

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
