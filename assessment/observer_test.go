package assessment_test

import (
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// observed is an observation that nothing speaks against on 1 June 2026.
func observed() assessment.Observation {
	day := civil.MustParse
	return assessment.Observation{
		Observer: "o", Learner: "l", Skill: "suctioning", Title: "Suctioning", Standing: assessment.Current,
		Licences: []assessment.Licence{{Kind: "RN", Number: "1", Through: day("2026-12-31")}},
		Appointments: []assessment.Appointment{{Person: "o", Skills: []string{"suctioning"}, From: day("2026-01-01"), Through: day("2026-12-31"),
			Proposed: "a", Agreed: "b", AgreedOn: day("2026-01-02")}},
	}
}

// Who may observe: somebody else, licensed, appointed for the skill by two people,
// current in it. (Common practice, no source, beyond the like discipline of ACHC
// HC4-6A.)
func TestWhoMayObserve(t *testing.T) {
	day := civil.MustParse
	for _, c := range []struct {
		why    string
		change func(*assessment.Observation)
		on     string
		says   string // empty: may
	}{
		{"all in order", func(*assessment.Observation) {}, "2026-06-01", ""},
		{"due is current", func(o *assessment.Observation) { o.Standing = assessment.Due }, "2026-06-01", ""},
		{"oneself", func(o *assessment.Observation) { o.Learner = "o" }, "2026-06-01", "observe yourself"},
		{"no licence", func(o *assessment.Observation) { o.Licences = nil }, "2026-06-01", "no licence"},
		{"a licence of no kind", func(o *assessment.Observation) { o.Licences[0].Kind = "" }, "2026-06-01", "no licence"},
		{"the last day of the licence", func(*assessment.Observation) {}, "2026-12-31", ""},
		{"the licence has ended", func(o *assessment.Observation) { o.Licences[0].Through = day("2026-05-31") }, "2026-06-01", "no licence"},
		{"a licence without end", func(o *assessment.Observation) { o.Licences[0].Through = civil.Date{} }, "2026-06-01", ""},
		{"one of two licences covers", func(o *assessment.Observation) {
			o.Licences = append([]assessment.Licence{{Kind: "RN", Through: day("2020-01-01")}}, o.Licences...)
		}, "2026-06-01", ""},
		{"not appointed for this skill", func(o *assessment.Observation) { o.Skill = "circuit-change" }, "2026-06-01", "not appointed"},
		{"somebody else's appointment", func(o *assessment.Observation) { o.Appointments[0].Person = "x" }, "2026-06-01", "not appointed"},
		{"not agreed", func(o *assessment.Observation) { o.Appointments[0].Agreed = "" }, "2026-06-01", "not appointed"},
		{"before it was agreed", func(*assessment.Observation) {}, "2026-01-01", "not appointed"},
		{"on the day it was agreed", func(*assessment.Observation) {}, "2026-01-02", ""},
		{"before its first day", func(o *assessment.Observation) { o.Appointments[0].From = day("2026-06-02") }, "2026-06-01", "not appointed"},
		{"after its last day", func(o *assessment.Observation) { o.Licences[0].Through = civil.Date{} }, "2027-01-01", "not appointed"},
		{"ended on the day", func(o *assessment.Observation) { o.Appointments[0].EndedOn = day("2026-06-01") }, "2026-06-01", "not appointed"},
		{"ends tomorrow", func(o *assessment.Observation) { o.Appointments[0].EndedOn = day("2026-06-02") }, "2026-06-01", ""},
		{"lapsed", func(o *assessment.Observation) { o.Standing = assessment.Lapsed }, "2026-06-01", "is lapsed in Suctioning"},
		{"waived is not current", func(o *assessment.Observation) { o.Standing = assessment.Waived }, "2026-06-01", "is waived"},
		{"not started", func(o *assessment.Observation) { o.Standing = assessment.NotStarted }, "2026-06-01", "is not started"},
		{"a founding appointment stands in", func(o *assessment.Observation) {
			o.Standing, o.Appointments[0].Founding = assessment.NotStarted, true
		}, "2026-06-01", ""},
		{"but never for somebody withdrawn", func(o *assessment.Observation) {
			o.Standing, o.Appointments[0].Founding = assessment.Withdrawn, true
		}, "2026-06-01", "is withdrawn"},
		{"nor for another skill", func(o *assessment.Observation) {
			founding := o.Appointments[0]
			founding.Founding, founding.Skills = true, []string{"circuit-change"}
			o.Standing, o.Appointments = assessment.Learning, append(o.Appointments, founding)
		}, "2026-06-01", "is learning"},
	} {
		o := observed()
		c.change(&o)
		err := o.MayObserve(day(c.on))
		switch {
		case c.says == "" && err != nil:
			t.Errorf("%s: refused: %v", c.why, err)
		case c.says != "" && (fault.KindOf(err) != fault.Refused || !strings.Contains(err.Error(), c.says)):
			t.Errorf("%s: %v does not say %q", c.why, err, c.says)
		}
	}
}

func TestAppointmentsAreAgreedByASecondPerson(t *testing.T) {
	a := assessment.Appointment{Person: "o", Proposed: "a"}
	for by, kind := range map[assessment.PersonID]fault.Kind{"o": fault.Refused, "a": fault.Refused, "b": 0} {
		if err := a.Agree(by); fault.KindOf(err) != kind {
			t.Errorf("agreed by %s: %v", by, err)
		}
	}
	a.Agreed = "b"
	if err := a.Agree("c"); fault.KindOf(err) != fault.Conflict {
		t.Errorf("agreed twice: %v", err)
	}
}

func TestAppointmentsThatMustNotBeMade(t *testing.T) {
	day := civil.MustParse
	good := assessment.Appointment{Skills: []string{"suctioning"}, Evidence: "seen at the teaching hospital", From: day("2026-01-31"), Through: day("2027-01-31"), Founding: true}
	if err := good.Check(); err != nil {
		t.Errorf("a founding appointment of twelve months: %v", err)
	}
	for field, change := range map[string]func(*assessment.Appointment){
		"skills":   func(a *assessment.Appointment) { a.Skills = nil },
		"evidence": func(a *assessment.Appointment) { a.Evidence = "" },
		"from":     func(a *assessment.Appointment) { a.From = civil.Date{} },
		"through":  func(a *assessment.Appointment) { a.Through = day("2027-02-01") },
		"through ": func(a *assessment.Appointment) { a.Through = day("2026-01-30") },
	} {
		a := good
		change(&a)
		f, ok := fault.As(a.Check())
		if !ok || f.Fields[strings.TrimSpace(field)] == "" || len(f.Fields) != 1 {
			t.Errorf("%s: %+v", field, f)
		}
	}
	good.Founding, good.Through = false, day("2030-01-01")
	if err := good.Check(); err != nil {
		t.Errorf("one that is not founding may run longer: %v", err)
	}
}
