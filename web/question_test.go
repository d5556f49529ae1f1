package web

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Each unit that a starter question offers is said in the reader's language, in the
// question and in what is right; units of measurement are the same in both (SI Brochure,
// 9th edition, 5.2), what is counted is not. What is sent is the same in each language.
func TestUnitsOfQuestionsAreInTheReadersLanguage(t *testing.T) {
	t.Parallel()
	es := wording.In(wording.Spanish)
	counted := 0
	for _, code := range catalog.Codes() {
		bank, err := catalog.Items(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range bank.Items {
			if i.Kind != knowledge.Numeric {
				continue
			}
			q := office.Question{Item: i}
			_, fields := askedIn(es, Faults{}, q)
			unit := fields[1]
			for n, u := range i.Units {
				if _, whole := es.Whole(assessment.UnitPhrase(u)); !whole {
					t.Errorf("%s: %q has no Spanish", i.ID, u)
				}
				if o := unit.Options[n]; o.Value != u || o.Text != es.Of(assessment.UnitPhrase(u)) {
					t.Errorf("%s offers %+v for %s", i.ID, o, u)
				}
			}
			if i.Unit == "finger" {
				counted++
				if got := q.RightAnswer("es"); got[0] != "1 dedo" {
					t.Errorf("%s: %q is right", i.ID, got)
				}
				if got := q.Said("en", knowledge.Answer{Value: "1", Unit: i.Unit}); got[0] != "1 finger" {
					t.Errorf("%s: %q was said", i.ID, got)
				}
			}
		}
	}
	if counted == 0 {
		t.Error("no question counts fingers")
	}
}

// Whoever reads Spanish finds the paper in Spanish first, and the other beside it (common
// practice, no source).
func TestPapersInTheReadersLanguageComeFirst(t *testing.T) {
	t.Parallel()
	for _, own := range wording.Languages {
		all := ownFirst(own)
		if all[0] != own || len(all) != len(wording.Languages) {
			t.Errorf("in %s: %v", own, all)
		}
	}
}
