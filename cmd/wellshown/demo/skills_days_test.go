package demo_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/cmd/wellshown/demo"
)

// skillsDays: one is over and was ended, and something was shown on it; one is coming, at
// whose stations something is due and each observer may observe.
func skillsDays(t *testing.T, m *made) {
	var coordinator assessment.Actor
	for _, s := range m.SignIns {
		if s.Role == "coordinator" {
			coordinator = m.actor(t, s.Email)
		}
	}
	all, err := m.office.SkillsDays(t.Context(), coordinator)
	if err != nil {
		t.Fatal(err)
	}
	if len(all.Days) != 2 || all.Days[0].Name != demo.SkillsDayComing || !all.Days[0].HeldOn.After(m.Today) || all.Days[1].Name != demo.SkillsDayOver || all.Days[1].EndedAt == nil {
		t.Fatalf("there are %+v", all.Days)
	}
	due, shown := 0, 0
	for _, d := range all.Days {
		v, err := m.office.SkillsDay(t.Context(), coordinator, d.ID)
		if err != nil {
			t.Fatal(err)
		}
		if len(v.Stations) < 3 || len(v.Learners) < 6 {
			t.Errorf("%s has %d stations and %d learners", v.Name, len(v.Stations), len(v.Learners))
		}
		for _, s := range v.Stations {
			if s.Closed != "" {
				t.Errorf("%s, station %d: %s", v.Name, s.No, s.Closed)
			}
		}
		for _, l := range v.Learners {
			for _, r := range l.Round {
				shown += len(r.Shown)
			}
			if l.Onward.Station != 0 && v.HeldOn.After(m.Today) {
				due++
			}
		}
	}
	if due < 3 || shown < 1 {
		t.Errorf("%d learners of the coming day have somewhere to go, and %d things were shown on the other", due, shown)
	}
}
