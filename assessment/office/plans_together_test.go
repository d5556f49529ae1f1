package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Each child's plan is judged by what was said of it and by its own shifts,
// however many plans are read at once.
func TestPlansReadTogetherStayApart(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, theo, noa := w.Client("7K", "Mira"), w.Client("4B", "Theo"), w.Client("9C", "Noa")
	w.Require("bagging", assessment.Nurse)
	nan, ola := w.Nurse("Nan Orme"), w.Nurse("Ola Reed")
	w.Award(nan, "bagging", mira)
	for child, nurse := range map[assessment.ClientID]assessment.Actor{mira: nan, theo: ola} {
		must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: string(assessment.EarlyShifts), Title: "Early shifts", Skills: []string{"bagging"}}))(t)
		home := must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: string(assessment.Attested), Title: "The home is safe"}))(t)
		must(w.Office.PlanShift(t.Context(), w.Coordinator, child, office.ShiftForm{Person: nurse.Person, Starts: "2027-01-05T07:00", Ends: "2027-01-05T15:00"}))(t)
		if child == mira {
			wantNone(t, w.Office.AddEvidence(t.Context(), w.Coordinator, office.EvidenceForm{Criterion: home, Word: string(assessment.EvidenceMet)}))
		}
	}
	desk := must(w.Office.ClientsDesk(t.Context(), w.Coordinator, ""))(t)
	if len(desk) != 3 {
		t.Fatalf("%+v", desk)
	}
	for _, s := range desk {
		alone := readiness(t, w, s.Client.ID)
		if s.Ready != alone.Ready || s.Left != alone.Left() || s.All != len(alone.Lines) {
			t.Errorf("%s: together %+v, alone %d of %d left", s.Client.FirstName, s.WayHome, alone.Left(), len(alone.Lines))
		}
		if want := map[assessment.ClientID]int{mira: 0, theo: 2, noa: 0}[s.Client.ID]; s.Left != want {
			t.Errorf("%s: %d left, want %d", s.Client.FirstName, s.Left, want)
		}
	}
}
