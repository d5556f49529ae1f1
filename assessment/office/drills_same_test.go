package office_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// Whatever the marks are, a drill comes to the same outcome, score and reasons as the same
// marks in an ordinary simulation, and to the same standing on every day (checked against what
// the house itself makes of the other).
func TestADrillComesToTheSameAsAnySimulation(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	ben := w.Nurse("Ben Arkwright")
	w.Join(ben, mira)
	edda := w.Educators[0]
	w.Award(ben, "bagging", mira)
	random := rand.New(rand.NewPCG(42, 42))
	all := []assessment.Mark{assessment.Independent, assessment.Independent, assessment.Independent, assessment.Independent, assessment.Independent, assessment.Independent, assessment.Cued, assessment.Assisted, assessment.NotMet, assessment.Unsafe}
	seen := map[assessment.Outcome]int{}
	for n := range 10 {
		w.Pass(48 * time.Hour)
		marks := map[int]assessment.Mark{}
		for step := 1; step <= 40 && n%3 > 0; step++ {
			marks[step] = all[random.IntN(len(all))]
		}
		d := drillOf(t, w, nan, mira, "decannulation", "")
		must(w.Office.TimeDrill(t.Context(), edda, d.ID, office.DrillTimesForm{Recognised: fmt.Sprint(random.IntN(3601))}))(t)
		s := must(w.Office.Open(t.Context(), edda, office.OpenForm{Learner: ben.Person, Skill: "decannulation", Client: mira, Place: "skills room", Formal: true}))(t)
		with, without := finish(t, w, nan, d.ID, marks), finish(t, w, ben, s.ID, marks)
		seen[with.Outcome]++
		if with.Outcome != without.Outcome || fmt.Sprint(with.Result) != fmt.Sprint(without.Result) || *with.Score != *without.Score {
			t.Errorf("%v: %s %s with a drill, %s %s without", marks, with.Outcome, *with.Score, without.Outcome, *without.Score)
		}
	}
	if seen[assessment.Competent] == 0 || seen[assessment.NotYetCompetent] == 0 {
		t.Fatalf("only %v were tried", seen)
	}
	for on := civil.MustParse("2026-02-01"); on.Before(civil.MustParse("2028-06-01")); on = on.AddDays(7) {
		a, b := w.Standing(nan, "decannulation", mira, on).Standing, w.Standing(ben, "decannulation", mira, on).Standing
		if a.Because, b.Because = nil, nil; fmt.Sprint(a) != fmt.Sprint(b) {
			t.Fatalf("on %s %v with drills, %v without", on, a, b)
		}
	}
	indexIsRight(t, w)
}
