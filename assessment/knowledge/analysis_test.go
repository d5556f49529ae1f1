package knowledge_test

import (
	"math"
	"testing"

	"wellshown/assessment/knowledge"
)

// The worked example that the reference guide of SciPy 0.10.1 prints for
// scipy.stats.mstats.pointbiserialr: 0, 0, 0, 1, 1, 1, 1 with 0 to 6 gives 0.8660254037844386.
// The others follow from what a correlation is: turned about it changes its sign, and scores
// counted from elsewhere or in other units change nothing.
func TestPointBiserialOfAPublishedExample(t *testing.T) {
	is := []bool{false, false, false, true, true, true, true}
	score := []float64{0, 1, 2, 3, 4, 5, 6}
	turned, moved := make([]bool, len(is)), make([]float64, len(is))
	for i := range is {
		turned[i], moved[i] = !is[i], 100+2.5*score[i]
	}
	for name, one := range map[string]struct {
		is    []bool
		score []float64
		want  float64
	}{"as printed": {is, score, 0.8660254037844386}, "turned about": {turned, score, -0.8660254037844386}, "moved": {is, moved, 0.8660254037844386}} {
		if r, ok := knowledge.PointBiserial(one.is, one.score); !ok || math.Abs(r-one.want) > 1e-12 {
			t.Errorf("%s: %v, %v, not %v", name, r, ok, one.want)
		}
	}
	all := []bool{true, true, true, true, true, true, true}
	if _, ok := knowledge.PointBiserial(all, score); ok {
		t.Error("an item that everybody answers right tells nobody apart")
	}
	if _, ok := knowledge.PointBiserial(is, make([]float64, 7)); ok {
		t.Error("nobody differs from anybody, and still it tells them apart")
	}
}

// Computed by hand: 30 sittings of ten items. 15 have the item right, and all nine others;
// 15 have it wrong, of whom five have nine others right and ten have none. Means of the
// share of the others: 1 and 1/3; of all 2/3; variance (20·(1/3)² + 10·(2/3)²)/30 = 2/9; so
// r = (2/3)/√(2/9)·½ = √2/2.
func TestDiscriminationByHand(t *testing.T) {
	var all []knowledge.Outcome
	for i := range 30 {
		var missed []int16
		if i >= 15 {
			missed = append(missed, 4)
		}
		for place := int16(1); place <= 10 && i >= 20; place++ {
			if place != 4 {
				missed = append(missed, place)
			}
		}
		all = append(all, knowledge.OutcomeOf(4, 10, missed))
	}
	if r, ok := knowledge.Discrimination(all); !ok || math.Abs(r-math.Sqrt2/2) > 1e-12 {
		t.Errorf("%v, %v, not half the root of two", r, ok)
	}
	if r, ok := knowledge.Discrimination(all[:29]); ok {
		t.Errorf("29 sittings are too few, and it says %v", r)
	}
	alone := make([]knowledge.Outcome, 40)
	for i := range alone {
		alone[i] = knowledge.OutcomeOf(1, 1, nil)
	}
	if r, ok := knowledge.Discrimination(alone); ok {
		t.Errorf("forms of one item have no others, and it says %v", r)
	}
}
