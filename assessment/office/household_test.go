package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Two family caregivers at least, each able to do all (American Thoracic Society 2016,
// recommendation 3b). A family sees itself: no nurse, no other family.
func TestAHouseholdSeesItself(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child, other := w.Client("7K", "Tam"), w.Client("9B", "Theo")
	for _, skill := range []string{"suction", "bagging"} {
		w.Require(skill, assessment.Family)
	}
	w.Require("circuit-change", assessment.Nurse)
	lan, minh, nurse, stranger := w.Family("Lan Tran", child), w.Family("Minh Tran", child), w.Nurse("Sam Whitlock"), w.Family("Oona Marsh", other)
	w.Join(nurse, child)
	see := func(by assessment.Actor) office.HouseholdView {
		t.Helper()
		return must(w.Office.Household(t.Context(), by, child))(t)
	}
	v := see(lan)
	if len(v.Members) != 2 || len(v.Skills) != 2 || v.Able() != 0 || v.Me != lan.Person || v.Client.Code != "7K" {
		t.Fatalf("%+v", v)
	}
	for _, m := range v.Members {
		if m.Person != lan.Person && m.Person != minh.Person {
			t.Errorf("the family has %s in it", m.Name)
		}
	}
	w.Award(lan, "bagging", child)
	w.Award(lan, "suction", child)
	if v := see(minh); v.Able() != 1 || v.Skills[0].Hold != 1 {
		t.Errorf("after Lan has shown all: %d able, %+v", v.Able(), v.Skills)
	}
	_, err := w.Office.Household(t.Context(), stranger, child)
	wantRefusal(t, err, fault.NotFound, "no such record")
	if v := see(w.Coordinator); v.Able() != 1 {
		t.Errorf("the coordinator sees %d able", v.Able())
	}
}
