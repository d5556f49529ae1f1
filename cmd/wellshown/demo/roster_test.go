package demo_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// roster: the demo shows shifts that are covered, that break and that are open, and the
// first that breaks can be looked at.
func roster(t *testing.T, m *made) {
	var coordinator assessment.Actor
	for _, s := range m.SignIns {
		if s.Role == "coordinator" {
			coordinator = m.actor(t, s.Email)
		}
	}
	v, err := m.office.Coverage(t.Context(), coordinator, office.CoverageQuery{})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("coverage: %+v", v.Counts)
	if c := v.Counts; c.Covered < 5 || c.Breaks < 1 || c.Open < 1 || c.Breaks > c.Covered || len(v.First) < 1 {
		t.Fatalf("the roster of the demo: %+v", c)
	}
	if d, err := m.office.ShiftDesk(t.Context(), coordinator, v.First[0].ID); err != nil || len(d.Lacks) == 0 || len(d.Not) == 0 {
		t.Errorf("the first that breaks: %+v, %v", d, err)
	}
}
