package assessment_test

import (
	"fmt"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

func TestWhoMustHoldWhat(t *testing.T) {
	day := civil.MustParse
	scope := func(skill string) assessment.Scope {
		if skill == "circuit-change" {
			return assessment.ClientSpecific
		}
		return assessment.General
	}
	clients := []assessment.Cared{{ID: "c1", Equipment: []string{"ventilator", "humidifier"}}, {ID: "c2", Equipment: []string{"ventilator"}}}
	for _, c := range []struct {
		why  string
		r    assessment.Requirement
		kind assessment.CaregiverKind
		want string
	}{
		{"everybody, general: once", assessment.Requirement{Skill: "suctioning"}, assessment.Nurse, "[{suctioning }]"},
		{"everybody, per client", assessment.Requirement{Skill: "circuit-change"}, assessment.Family, "[{circuit-change c1} {circuit-change c2}]"},
		{"of one client", assessment.Requirement{Skill: "circuit-change", Client: "c2"}, assessment.Family, "[{circuit-change c2}]"},
		{"of clients with equipment", assessment.Requirement{Skill: "circuit-change", EquipmentKind: "humidifier"}, assessment.Family, "[{circuit-change c1}]"},
		{"nobody has the equipment", assessment.Requirement{Skill: "suctioning", EquipmentKind: "cough assist"}, assessment.Family, "[]"},
		{"of nurses", assessment.Requirement{Skill: "suctioning", Kind: assessment.Nurse}, assessment.Nurse, "[{suctioning }]"},
		{"of nurses, asked of an aide", assessment.Requirement{Skill: "suctioning", Kind: assessment.Nurse}, assessment.Aide, "[]"},
		{"from that day", assessment.Requirement{Skill: "suctioning", From: day("2026-06-01")}, assessment.Nurse, "[{suctioning }]"},
		{"from the next day", assessment.Requirement{Skill: "suctioning", From: day("2026-06-02")}, assessment.Nurse, "[]"},
		{"through that day", assessment.Requirement{Skill: "suctioning", Through: day("2026-06-01")}, assessment.Nurse, "[{suctioning }]"},
		{"through the day before", assessment.Requirement{Skill: "suctioning", Through: day("2026-05-31")}, assessment.Nurse, "[]"},
	} {
		got := assessment.Needed(day("2026-06-01"), c.kind, clients, []assessment.Requirement{c.r, c.r}, scope)
		if fmt.Sprint(got) != c.want {
			t.Errorf("%s: %v, not %s", c.why, got, c.want)
		}
	}
	if got := assessment.Needed(day("2026-06-01"), assessment.Nurse, nil, []assessment.Requirement{{Skill: "suctioning"}}, scope); len(got) != 0 {
		t.Errorf("who looks after nobody must hold %v", got)
	}
}

func TestOnTheTeam(t *testing.T) {
	day := civil.MustParse
	m := assessment.OnTeam{From: day("2026-01-10"), Through: day("2026-02-10")}
	for d, want := range map[string]bool{"2026-01-09": false, "2026-01-10": true, "2026-02-10": true, "2026-02-11": false} {
		if m.CoversOn(day(d)) != want {
			t.Errorf("on %s: %v", d, !want)
		}
	}
	if m.Through = (civil.Date{}); !m.CoversOn(day("2099-01-01")) {
		t.Error("until further notice has an end")
	}
}
