package demo_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// visits: the demo shows visits that are planned and that meet something, and educators
// whose weeks are known.
func visits(t *testing.T, m *made) {
	var coordinator assessment.Actor
	for _, s := range m.SignIns {
		if s.Role == "coordinator" {
			coordinator = m.actor(t, s.Email)
		}
	}
	v, err := m.office.Visits(t.Context(), coordinator, office.VisitQuery{})
	if err != nil {
		t.Fatal(err)
	}
	met, set := 0, 0
	for _, e := range v.Educators { // in whatever order they come
		if e.Set {
			set++
		}
	}
	for _, k := range v.Kept {
		met += len(k.Sees)
		if len(k.Faults) > 0 {
			t.Errorf("a planned visit cannot be made: %+v", k)
		}
	}
	t.Logf("visits: %d planned, %d proposed besides, %d cannot be met", len(v.Kept), len(v.Proposed), len(v.Unmet))
	if len(v.Kept) < 2 || met < 2 || len(v.Ways) == 0 || set < 2 {
		t.Errorf("the visits of the demo: %+v", v)
	}
}
