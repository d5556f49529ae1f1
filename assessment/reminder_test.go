package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Thirty, fourteen and seven days before the last day, and once when it is over: common
// practice, no source. A stage that was missed because nothing worked that day is told on
// the next, and what has come further is told once, as what it is now.
func TestWhatIsToldOnADay(t *testing.T) {
	on := civil.MustParse("2026-03-10")
	days := func(n int) civil.Date { return on.AddDays(n) }
	own, plan, lead := assessment.PersonID("her"), assessment.PersonID("coordinator"), assessment.PersonID("lead")
	both := assessment.Planners{Coordinators: []assessment.PersonID{plan}, Administrators: []assessment.PersonID{lead}}
	for name, c := range map[string]struct {
		h    assessment.Holding
		p    assessment.Planners
		want string
	}{
		"long current":                       {assessment.Holding{Word: assessment.Current, Through: days(200)}, both, ""},
		"due":                                {assessment.Holding{Word: assessment.Due, Through: days(60)}, both, "her due"},
		"31 days, not due yet":               {assessment.Holding{Word: assessment.Current, Through: days(31)}, both, ""},
		"30 days":                            {assessment.Holding{Word: assessment.Current, Through: days(30)}, both, "her within 30"},
		"15 days":                            {assessment.Holding{Word: assessment.Due, Through: days(15)}, both, "her within 30"},
		"14 days":                            {assessment.Holding{Word: assessment.Due, Through: days(14)}, both, "her within 14"},
		"7 days, nothing planned":            {assessment.Holding{Word: assessment.Due, Through: days(7)}, both, "coordinator nothing planned, her within 7"},
		"7 days, planned":                    {assessment.Holding{Word: assessment.Due, Through: days(7), Planned: true}, both, "her within 7"},
		"the last day":                       {assessment.Holding{Word: assessment.Due, Through: on, Planned: true}, both, "her within 7"},
		"no coordinator":                     {assessment.Holding{Word: assessment.Due, Through: on}, assessment.Planners{Administrators: both.Administrators}, "her within 7, lead nothing planned"},
		"lapsed":                             {assessment.Holding{Word: assessment.Lapsed, Through: days(-1)}, both, "her lapsed"},
		"lapsed and on the roster":           {assessment.Holding{Word: assessment.Lapsed, Through: days(-90), Rostered: true}, both, "coordinator on the roster, her lapsed, lead on the roster"},
		"a coordinator who is administrator": {assessment.Holding{Word: assessment.Lapsed, Through: days(-1), Rostered: true}, assessment.Planners{Coordinators: []assessment.PersonID{plan}, Administrators: []assessment.PersonID{plan}}, "coordinator on the roster, her lapsed"},
		"waived":                             {assessment.Holding{Word: assessment.Waived, Through: days(3), Rostered: true}, both, ""},
		"withdrawn":                          {assessment.Holding{Word: assessment.Withdrawn, Through: days(3)}, both, ""},
		"never held":                         {assessment.Holding{Word: assessment.Learning}, both, ""},
	} {
		c.h.Person = own
		if got := toldWords(assessment.UsualReminders.Notices(on, []assessment.Holding{c.h}, c.p)); got != c.want {
			t.Errorf("%s: %q; want %q", name, got, c.want)
		}
	}
	off := assessment.UsualReminders
	off.Off = true
	if got := off.Notices(on, []assessment.Holding{{Word: assessment.Lapsed, Through: on}}, both); got != nil {
		t.Errorf("reminders that are off: %v", got)
	}
}

func toldWords(all []assessment.Notice) string {
	words := ""
	for i, n := range all {
		if i > 0 {
			words += ", "
		}
		words += fmt.Sprint(n.To, " ", n.Stage)
	}
	return words
}

// Day by day over a holding's life each stage is told once and in order, whichever days
// nothing worked on (no published source: it is the sense of "once").
func TestEachStageIsToldOnceOverTheLifeOfAHolding(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	through := civil.MustParse("2026-06-30")
	order := map[assessment.ReminderStage]int{assessment.OpensStage: 0, assessment.DaysStage(30): 1, assessment.DaysStage(14): 2, assessment.DaysStage(7): 3, assessment.LapsedStage: 4}
	for range 500 {
		told, last := map[assessment.Notice]bool{}, -1
		for on := through.AddDays(-100); on.Before(through.AddDays(30)); on = on.AddDays(1 + random.IntN(20)) {
			h := assessment.Holding{Word: assessment.Current, Through: through, Planned: true}
			switch left := through.Sub(on); {
			case left < 0:
				h.Word = assessment.Lapsed
			case left <= 60:
				h.Word = assessment.Due
			}
			for _, n := range assessment.UsualReminders.Notices(on, []assessment.Holding{h}, assessment.Planners{}) {
				if told[n] {
					continue
				}
				if told[n] = true; order[n.Stage] <= last {
					t.Fatalf("%s told after a later stage", n.Stage)
				}
				last = order[n.Stage]
			}
		}
		if last != 4 {
			t.Fatalf("the last that was told is stage %d", last)
		}
	}
}

// Each notice is counted once, as what it is about.
func TestCountsOfNotices(t *testing.T) {
	got := assessment.CountNotices([]assessment.Notice{{Stage: assessment.OpensStage}, {Stage: assessment.DaysStage(7)}, {Stage: assessment.LapsedStage}, {Stage: assessment.UnplannedStage}, {Stage: assessment.RosteredStage}})
	if want := (assessment.NoticeCounts{Due: 2, Lapsed: 1, Unplanned: 1, Rostered: 1}); got != want {
		t.Errorf("%+v; want %+v", got, want)
	}
}
