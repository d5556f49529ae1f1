package demo_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// lists: somebody of the demo has old papers, which count for nothing.
func lists(t *testing.T, m *made) {
	var coordinator assessment.Actor
	for _, s := range m.SignIns {
		if s.Role == "coordinator" {
			coordinator = m.actor(t, s.Email)
		}
	}
	people, _, err := m.office.People(t.Context(), coordinator, office.PeopleQuery{Kind: "nurse"})
	if err != nil {
		t.Fatal(err)
	}
	lines := 0
	for _, p := range people {
		v, err := m.office.CarriedIn(t.Context(), coordinator, p.ID)
		if err != nil {
			t.Fatal(err)
		}
		lines += len(v.Lines)
	}
	if lines != 2 {
		t.Errorf("%d lines are carried in", lines)
	}
}
