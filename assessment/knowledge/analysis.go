package knowledge

import "math"

// FewSittings is below how many sittings it is not told how well an item tells apart
// (common practice, no source).
const FewSittings = 30

// Outcome is what one sitting says of one of its items: whether it was right, and how
// many of the other items of the same form were.
type Outcome struct {
	Right       bool
	Others      int
	OthersRight int
}

// Tally is how one question was answered, in sittings that were handed in.
type Tally struct {
	Asked    int
	Answered int
	Right    int
	Tells    *float64 // how well it tells apart those who know the rest; nil: too few sittings, or nobody differs
}

// TallyOf counts the outcomes of one question. What was asked in other words was another
// question: its outcomes are counted apart.
func TallyOf(answered int, outcomes []Outcome) Tally {
	t := Tally{Asked: len(outcomes), Answered: answered}
	for _, o := range outcomes {
		if o.Right {
			t.Right++
		}
	}
	if tells, known := Discrimination(outcomes); known {
		t.Tells = &tells
	}
	return t
}

// OutcomeOf is the outcome of the item at a place of a form, counted from 1, by the places
// that were not right.
func OutcomeOf(place, length int, missed []int16) Outcome {
	o := Outcome{Right: true, Others: length - 1, OthersRight: length - 1 - len(missed)}
	for _, m := range missed {
		if int(m) == place {
			o.Right = false
			o.OthersRight++
		}
	}
	return o
}

// Discrimination is how well an item tells those who know the rest from those who do
// not: the point-biserial correlation of the item with the share of the other items that
// were right, so that an item never speaks for itself. It is false where there are fewer
// than FewSittings, or where all were alike in one of the two.
func Discrimination(outcomes []Outcome) (float64, bool) {
	var right []bool
	var share []float64
	for _, o := range outcomes {
		if o.Others < 1 {
			continue // a form of one item says nothing of others
		}
		right, share = append(right, o.Right), append(share, float64(o.OthersRight)/float64(o.Others))
	}
	if len(right) < FewSittings {
		return 0, false
	}
	return PointBiserial(right, share)
}

// PointBiserial is the correlation of Pearson between what is so or not and a score. It is
// false where either never changes.
func PointBiserial(is []bool, score []float64) (float64, bool) {
	n := float64(len(is))
	var with, all, squares, of float64 // of is how often it is so
	for i, s := range score {
		all += s
		if is[i] {
			with += s
			of++
		}
	}
	if of == 0 || of == n {
		return 0, false
	}
	mean := all / n
	for _, s := range score {
		squares += (s - mean) * (s - mean)
	}
	spread := math.Sqrt(squares / n)
	if spread < 1e-12 {
		return 0, false
	}
	apart := with/of - (all-with)/(n-of)
	return apart / spread * math.Sqrt(of*(n-of)) / n, true
}
