package assessment_test

import (
	"fmt"
	"slices"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// The published rule is 42 CFR 484.80(b)(3) and (c); the State Operations Manual,
// appendix B (rev. 200, 2020), on 484.80(c)(1) names the areas to be watched.

// judgedAll is every area judged once and satisfactory, each in the way it asks.
func judgedAll() []assessment.AideJudgement {
	var all []assessment.AideJudgement
	for _, a := range assessment.AideAreas {
		j := assessment.AideJudgement{Area: a, Task: fmt.Sprint("task of ", a), Method: assessment.WrittenTest, Satisfactory: true, On: civil.MustParse("2026-01-10")}
		if a.OnPerson() {
			j.Method = assessment.Watched
		}
		all = append(all, j)
	}
	return all
}

func TestAideAreasToBeWatched(t *testing.T) {
	var watched []string
	for a := assessment.AideArea(1); a <= 15; a++ {
		if a.OnPerson() {
			watched = append(watched, a.String())
		}
	}
	if got := fmt.Sprint(watched); got != "[(i) (iii) (ix) (x) (xi)]" {
		t.Errorf("areas to be watched are %s", got)
	}
	if assessment.AideArea(0).String() != "(?)" || assessment.AideArea(16).String() != "(?)" {
		t.Error("an area that is none has a name")
	}
}

// Every area satisfactory, (iii) by a written test: incomplete, naming (iii).
// Area (iv) by a written test is accepted, and so is any by watching.
func TestAideTestIsNotEnoughWhereItMustBeWatched(t *testing.T) {
	if e := assessment.EvaluateAide(assessment.AideAreas, judgedAll()); !e.Passed || len(e.Incomplete)+len(e.Barred) > 0 {
		t.Errorf("all satisfactory, (iv) by a written test: %+v", e)
	}
	for _, method := range []assessment.AideMethod{assessment.WrittenTest, assessment.OralTest} {
		all := judgedAll()
		all[2].Method = method
		e := assessment.EvaluateAide(assessment.AideAreas, all)
		if e.Passed || !slices.Equal(e.Incomplete, []assessment.AideArea{3}) {
			t.Errorf("(iii) by %s: %+v", method, e)
		}
	}
	all := judgedAll()
	all[3].Method = assessment.Watched
	if e := assessment.EvaluateAide(assessment.AideAreas, all); !e.Passed {
		t.Errorf("(iv) watched: %+v", e)
	}
}

func TestAideAreaNotJudgedIsIncomplete(t *testing.T) {
	e := assessment.EvaluateAide(assessment.AideAreas, judgedAll()[1:])
	if e.Passed || !slices.Equal(e.Incomplete, []assessment.AideArea{1}) {
		t.Errorf("without (i): %+v", e)
	}
	extra := append(slices.Clone(assessment.AideAreas), 14)
	if e := assessment.EvaluateAide(extra, judgedAll()); e.Passed || !slices.Equal(e.Incomplete, []assessment.AideArea{14}) {
		t.Errorf("with tasks of (xiv) asked for and not judged: %+v", e)
	}
}

// More than one unsatisfactory area fails the whole; one passes it and bars the
// task; two tasks of one area are one area.
func TestAideUnsatisfactoryAreas(t *testing.T) {
	unsatisfactory := func(areas ...assessment.AideArea) []assessment.AideJudgement {
		all := judgedAll()
		for i := range all {
			all[i].Satisfactory = !slices.Contains(areas, all[i].Area)
		}
		return all
	}
	for _, c := range []struct {
		why    string
		judged []assessment.AideJudgement
		passed bool
		barred []string
	}{
		{"none: passed, no task barred", unsatisfactory(), true, nil},
		{"(x): passed, its task barred", unsatisfactory(10), true, []string{"task of (x)"}},
		{"(x) and (xi): more than one, not passed", unsatisfactory(10, 11), false, []string{"task of (x)", "task of (xi)"}},
		{"two tasks of (ix): one area, passed, both barred", append(unsatisfactory(9), assessment.AideJudgement{
			Area: 9, Task: "hair washing", Method: assessment.Watched, On: civil.MustParse("2026-01-10")}),
			true, []string{"hair washing", "task of (ix)"}},
	} {
		e := assessment.EvaluateAide(assessment.AideAreas, c.judged)
		if e.Passed != c.passed || !slices.Equal(e.Barred, c.barred) {
			t.Errorf("%s: passed %v, barred %v", c.why, e.Passed, e.Barred)
		}
	}
}

// A barred task needs training and then a satisfactory judgement, in that order.
func TestAideBarIsLiftedByTrainingAndJudgement(t *testing.T) {
	day := civil.MustParse
	failed := assessment.AideJudgement{Area: 10, Task: "transfer", Method: assessment.Watched, On: day("2026-01-12")}
	again := assessment.AideJudgement{Area: 10, Task: "transfer", Method: assessment.Watched, Satisfactory: true, On: day("2026-01-20")}
	for _, c := range []struct {
		why       string
		retrained string
		method    assessment.AideMethod
		barred    bool
	}{
		{"judged again without training", "", assessment.Watched, true},
		{"trained, then judged", "2026-01-15", assessment.Watched, false},
		{"trained on the day of the failure", "2026-01-12", assessment.Watched, false},
		{"trained before the failure", "2026-01-11", assessment.Watched, true},
		{"trained after the second judgement", "2026-01-21", assessment.Watched, true},
		{"trained, then a written test where it must be watched", "2026-01-15", assessment.WrittenTest, true},
	} {
		j := again
		j.Method = c.method
		if c.retrained != "" {
			j.RetrainedOn = day(c.retrained)
		}
		all := append(judgedAll(), j, failed) // given out of order
		if e := assessment.EvaluateAide(assessment.AideAreas, all); len(e.Barred) == 1 != c.barred || !e.Passed {
			t.Errorf("%s: %+v", c.why, e)
		}
	}
	same := again
	same.On, same.RetrainedOn = failed.On, failed.On
	if e := assessment.EvaluateAide(assessment.AideAreas, append(judgedAll(), failed, same)); len(e.Barred) != 1 {
		t.Errorf("both on one day: the unsatisfactory one stands, not %+v", e)
	}
}

// 42 CFR 418.76(a)(2), 484.4 before 2018: 24 consecutive months without paid aide
// services. Both readings of how months are counted.
func TestAideLapse(t *testing.T) {
	day := civil.MustParse
	for _, c := range []struct {
		why       string
		completed string
		paid      []string
		months    assessment.AideMonths
		lapses    string
	}{
		{"last paid 10 May 2023", "2022-11-01", []string{"2023-05-10", "2022-12-01"}, assessment.DayToDay, "2025-05-10"},
		{"by calendar months: May 2023 is the last with service", "2022-11-01", []string{"2023-05-10"}, assessment.CalendarMonths, "2025-06-01"},
		{"clamped at the end of February", "2023-01-01", []string{"2024-02-29"}, assessment.DayToDay, "2026-02-28"},
		{"one service on the last day restarts the clock", "2022-11-01", []string{"2023-05-10", "2025-05-09"}, assessment.DayToDay, "2027-05-09"},
		{"a service on the day of the lapse comes too late", "2022-11-01", []string{"2023-05-10", "2025-05-10", "2026-01-01"}, assessment.DayToDay, "2025-05-10"},
		{"never paid: from the completion", "2022-11-01", nil, assessment.DayToDay, "2024-11-01"},
		{"paid before the completion does not count", "2022-11-01", []string{"2022-10-31"}, assessment.DayToDay, "2024-11-01"},
	} {
		var paid []civil.Date
		for _, p := range c.paid {
			paid = append(paid, day(p))
		}
		if got := assessment.AideLapsesOn(day(c.completed), paid, c.months); got != day(c.lapses) {
			t.Errorf("%s: lapses on %s, not %s", c.why, got, c.lapses)
		}
	}
}
