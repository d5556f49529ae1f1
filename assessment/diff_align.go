package assessment

import (
	"slices"
	"strings"
)

// pair is a step of the old list and one of the new, by index; -1 is none.
type pair struct {
	old, new int
	moved    bool
}

// Costs of an alignment. One step in place of another costs a little less than
// taking one out and putting one in, and less the more words they share, so that
// a reworded step is one change.
const (
	costGap     = 10
	costReplace = 18
	// mostCells bounds the work on lists far longer than any checklist.
	mostCells = 1 << 20
)

// align pairs the steps of two lists, keeping their order, at the least cost.
func align(old, new []placedStep) []pair {
	if len(old)*len(new) > mostCells {
		return byNumber(len(old), len(new))
	}
	was, is := wordsOf(old), wordsOf(new)
	cost := make([][]int, len(old)+1)
	for i := range cost {
		cost[i] = make([]int, len(new)+1)
	}
	for i := len(old); i >= 0; i-- {
		for j := len(new); j >= 0; j-- {
			cost[i][j] = cheapest(cost, was, is, i, j)
		}
	}
	return walk(cost, was, is)
}

func cheapest(cost [][]int, was, is [][]string, i, j int) int {
	switch {
	case i == len(was):
		return costGap * (len(is) - j)
	case j == len(is):
		return costGap * (len(was) - i)
	}
	return min(replace(was[i], is[j])+cost[i+1][j+1], costGap+cost[i+1][j], costGap+cost[i][j+1])
}

// walk reads the cheapest way off the table.
func walk(cost [][]int, was, is [][]string) []pair {
	var pairs []pair
	i, j := 0, 0
	for i < len(was) || j < len(is) {
		switch {
		case i < len(was) && j < len(is) && cost[i][j] == replace(was[i], is[j])+cost[i+1][j+1]:
			pairs = append(pairs, pair{old: i, new: j})
			i, j = i+1, j+1
		case j == len(is) || i < len(was) && cost[i][j] == costGap+cost[i+1][j]:
			pairs = append(pairs, pair{old: i, new: -1})
			i++
		default:
			pairs = append(pairs, pair{old: -1, new: j})
			j++
		}
	}
	return pairs
}

func byNumber(old, new int) []pair {
	var pairs []pair
	for i := range max(old, new) {
		p := pair{old: i, new: i}
		if i >= old {
			p.old = -1
		}
		if i >= new {
			p.new = -1
		}
		pairs = append(pairs, p)
	}
	return pairs
}

// wordsOf is each step's text as sorted words.
func wordsOf(steps []placedStep) [][]string {
	all := make([][]string, len(steps))
	for i, s := range steps {
		all[i] = strings.Fields(strings.ToLower(s.Text))
		slices.Sort(all[i])
	}
	return all
}

// replace is the cost of one text in place of another: 0 where they are the
// same words.
func replace(a, b []string) int {
	shared, i, j := 0, 0, 0
	for i < len(a) && j < len(b) {
		switch strings.Compare(a[i], b[j]) {
		case 0:
			shared, i, j = shared+1, i+1, j+1
		case -1:
			i++
		default:
			j++
		}
	}
	total := len(a) + len(b)
	if total == 0 {
		return 0
	}
	return costReplace * (total - 2*shared) / total
}

// moves joins a step that went with one of the same text that came elsewhere.
func moves(pairs []pair, old, new []placedStep) []pair {
	gone := map[string][]int{} // text → indexes into pairs
	for i, p := range pairs {
		if p.new < 0 {
			gone[old[p.old].Text] = append(gone[old[p.old].Text], i)
		}
	}
	drop := map[int]bool{}
	for i, p := range pairs {
		if p.old >= 0 {
			continue
		}
		if from := gone[new[p.new].Text]; len(from) > 0 {
			pairs[i] = pair{old: pairs[from[0]].old, new: p.new, moved: true}
			drop[from[0]], gone[new[p.new].Text] = true, from[1:]
		}
	}
	var left []pair
	for i, p := range pairs {
		if !drop[i] {
			left = append(left, p)
		}
	}
	return left
}
