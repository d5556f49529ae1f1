package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestPlanShift(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	plan := func(starts, ends string) (office.ShiftView, error) {
		return w.Office.PlanShift(t.Context(), w.Coordinator, child, office.ShiftForm{Person: nurse.Person, Starts: starts, Ends: ends})
	}
	s := must(plan("2026-02-01T19:00", "2026-02-02T07:00"))(t)
	if s.Name != "Nan Orme" || s.Starts.Format(time.RFC3339) != "2026-02-01T19:00:00-07:00" || s.Ends.Sub(s.Starts) != 12*time.Hour {
		t.Errorf("planned: %+v", s)
	}
	_, err := plan("2026-02-02T06:59", "2026-02-02T12:00")
	wantRefusal(t, err, fault.Conflict, "at that time already")
	must(plan("2026-02-02T07:00", "2026-02-02T12:00"))(t)
	for _, c := range []struct{ field, starts, ends string }{
		{"starts", "", "2026-02-05T07:00"},
		{"ends", "2026-02-04T19:00", ""},
		{"ends", "2026-02-04T19:00", "2026-02-04T19:00"},
		{"ends", "2026-02-04T19:00", "2026-02-05T19:01"},
		{"starts", "2026-03-08T02:30", "2026-03-08T07:00"}, // the clocks skip it: IANA, America/Denver
	} {
		_, err := plan(c.starts, c.ends)
		wantAtField(t, err, c.field, "")
	}
	_, err = w.Office.PlanShift(t.Context(), w.Coordinator, child, office.ShiftForm{Starts: "2026-02-04T19:00", Ends: "2026-02-05T07:00"})
	wantAtField(t, err, "person", "Choose")
	if v := readiness(t, w, child); len(v.Shifts) != 2 || v.Shifts[0].ID != s.ID {
		t.Errorf("planned: %+v", v.Shifts)
	}
	wantNone(t, w.Office.RemoveShift(t.Context(), w.Coordinator, s.ID))
	wantRefusal(t, w.Office.RemoveShift(t.Context(), w.Coordinator, s.ID), fault.NotFound, "no such record")
}

// ATS 2016, table 5, section 4: professionals as able as the family, trained on the
// type of ventilator in that home, from the first day on.
func TestEarlyShiftsNeedCompetence(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	w.Join(nurse, child)
	w.Require("suction", assessment.Nurse)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "early shifts", Title: "Shifts", Skills: []string{"circuit-test"}}))(t)
	only := func() assessment.Line { return readiness(t, w, child).Lines[0] }
	if l := only(); l.State != assessment.StateNotMet || !says(l.Left, "No early shift is planned") {
		t.Errorf("none planned: %+v", l)
	}
	night := func(day string) {
		next := civil.MustParse(day).AddDays(1)
		must(w.Office.PlanShift(t.Context(), w.Coordinator, child, office.ShiftForm{Person: nurse.Person, Starts: day + "T19:00", Ends: next.String() + "T07:00"}))(t)
	}
	night("2026-03-01")
	if l := only(); l.State != assessment.StateNotMet || !says(l.Left, "circuit self-test") || !says(l.Left, "suctioning") {
		t.Errorf("nothing shown yet, two skills needed: %+v", l)
	}
	w.Award(nurse, "circuit-test", child)
	w.Award(nurse, "suction", child)
	if l := only(); l.State != assessment.StateMet {
		t.Errorf("both shown: %+v", l)
	}
	// A night that begins on the last day of a competency ends without it.
	last := w.Standing(nurse, "suction", child, w.Today()).Through
	night(last.String())
	if l := only(); l.State != assessment.StateNotMet || !says(l.Left, "suctioning") || !says(l.Evidence, "1 March 2026, 19:00–07:00, Nan Orme: current in all") {
		t.Errorf("a night across the end: %+v", l)
	}
	w.Equip(child, "ventilator", "model two")
	if l := only(); len(l.Left) < 3 {
		t.Errorf("with another ventilator: %+v", l)
	}
}
