package catalog_test

import (
	"strings"
	"testing"

	"wellshown/assessment/catalog"
	"wellshown/assessment/reading"
)

// Each emergency skill has at least two scenarios in both languages, each with its source,
// as plain as what families read: grade 8 at most (Kincaid et al. 1975), and an ease of 60
// at least in Spanish (Fernández Huerta 1959). They name no number that a child's card has.
func TestStarterScenarios(t *testing.T) {
	known := map[string]bool{}
	for _, code := range catalog.Emergencies {
		all, err := catalog.Scenarios(code)
		if err != nil || len(all) < 2 {
			t.Fatalf("%s has %d scenarios, %v", code, len(all), err)
		}
		for _, s := range all {
			if s.Skill != code || !strings.HasPrefix(s.ID, code+"-") || known[s.ID] {
				t.Errorf("%s of %s stands in the file of %s, or twice", s.ID, s.Skill, code)
			}
			known[s.ID] = true
			if !strings.Contains(s.Source, "ATS 2016") && !strings.Contains(s.Source, "no source") {
				t.Errorf("%s names no source: %s", s.ID, s.Source)
			}
			for tag, text := range s.Texts {
				words := strings.Join([]string{text.Read, text.Then, text.Recognise, text.Act, text.Call}, "\n")
				if strings.ContainsAny(words, "0123456789") {
					t.Errorf("%s in %s gives a number that stands on the child's card", s.ID, tag)
				}
				if tag == "en" && !strings.Contains(words, "manikin") || tag == "es" && !strings.Contains(words, "maniquí") {
					t.Errorf("%s in %s does not say that it is a manikin", s.ID, tag)
				}
				if l := reading.Measure(tag, text.Read, text.Then, text.Recognise, text.Act, text.Call); l.Grade > 8 {
					t.Errorf("%s in %s reads at grade %v", s.ID, tag, l.Grade)
				}
			}
		}
	}
	if _, err := catalog.Scenarios("go-bag"); err == nil {
		t.Error("a skill that is no emergency has scenarios")
	}
}
