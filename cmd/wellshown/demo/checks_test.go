package demo_test

import (
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/cmd/wellshown/demo"
)

// checksWereTaken: one passed, one at the second try, one failed and one goes on, so that
// every sort of line is seen; and the mother's way home is in her language.
func checksWereTaken(t *testing.T, m *made) {
	const mother = "Inés Ocampo"
	stands := func(code, who string) office.OwnCheck {
		by := assessment.Actor{Agency: m.Agency, Person: m.person(t, who), Name: who, Roles: []assessment.Role{assessment.Caregiver}}
		v, err := m.office.Checks(t.Context(), by)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(v.Own, func(c office.OwnCheck) bool { return c.Skill.Code == code })
		if i < 0 {
			t.Fatalf("%s has no check of %s", who, code)
		}
		return v.Own[i]
	}
	if p := stands("suction", mother); !p.Holds() || len(p.Tries) != 1 {
		t.Errorf("suctioning: %+v", p)
	}
	if p := stands("decannulation", mother); !p.Holds() || len(p.Tries) != 2 || p.Tries[1].Passed {
		t.Errorf("decannulation at the second try: %+v", p)
	}
	if p := stands("suction", "Consuelo Peña"); p.Holds() || len(p.Tries) != 1 {
		t.Errorf("failed: %+v", p)
	}
	if p := stands("bagging", "Tomasz Rybak"); p.Open == "" || len(p.Tries) != 0 {
		t.Errorf("goes on: %+v", p)
	}
	i := slices.IndexFunc(m.SignIns, func(s demo.SignIn) bool { return s.Name == mother })
	if i < 0 || !strings.HasPrefix(m.SignIns[i].Email, "ines.ocampo") {
		t.Errorf("the mother cannot sign in: %+v", m.SignIns)
	}
}
