package assessment_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// The words of what is left, in English as before and in Spanish (drafts of ours until
// a qualified translator has reviewed them).
func TestWhatIsNeededInSpanish(t *testing.T) {
	es := wording.In(wording.Spanish)
	for _, c := range []struct {
		next             assessment.Next
		english, spanish string
	}{
		{assessment.Next{}, "", ""},
		{assessment.Next{Demonstrations: 1}, "one competent demonstration", "una demostración bien hecha"},
		{assessment.Next{Demonstrations: 3, OnOtherDays: 2, ByOthers: 1, WithClient: 3, LaterDay: true},
			"3 competent demonstrations, 2 of them on 2 other days, one of them seen by another observer, with the child, not before tomorrow",
			"3 demostraciones bien hechas, 2 de ellas en otros 2 días, una de ellas vista por otra persona que observa, con el niño o la niña, no antes de mañana"},
		{assessment.Next{Demonstrations: 1, Card: true, Reinstatement: true}, "reinstatement by someone entitled and a current resuscitation card and one competent demonstration",
			"que la restablezca alguien con autoridad para hacerlo y una tarjeta de reanimación vigente y una demostración bien hecha"},
	} {
		if got := c.next.InWords(); got != c.english {
			t.Errorf("%q, not %q", got, c.english)
		}
		if got := es.Of(c.next.Phrase()); got != c.spanish {
			t.Errorf("%q, not %q", got, c.spanish)
		}
	}
}

// What an agency wrote in one language only is said to be in that language.
func TestItemsInTheReadersLanguage(t *testing.T) {
	es, now := wording.In(wording.Spanish), at(t, "2026-05-01T12:00")
	c := assessment.Criterion{Kind: assessment.EquipmentHome, Title: "The equipment is at home", Items: []string{"ventilator", "batteries"}, ItemsSpanish: []string{"ventilador"},
		By: civil.MustParse("2026-04-30")}
	l := assess(c, assessment.Facts{At: now, Going: civil.MustParse("2026-05-20"), Evidence: []assessment.Evidence{
		{Word: assessment.EvidenceNotMet, Item: "ventilator", At: at(t, "2026-04-20T10:00"), By: "Ida Holm", Note: "no suena"}}})
	if got := es.Of(l.Left[0].Phrase); got != "ventilador: no cumplido, no suena" {
		t.Errorf("%q", got)
	}
	if got := es.Of(l.Left[1].Phrase); got != "batteries (en inglés): aún no ha llegado" {
		t.Errorf("%q", got)
	}
	if got := es.Own(c.Name()); got != "The equipment is at home (en inglés)" {
		t.Errorf("%q", got)
	}
	if got := es.Of(phrase.Of("%s", c.Item("ventilator"))); got != "ventilador" {
		t.Errorf("%q", got)
	}
}

// Each thing that is left tells who sees to it and by when (common practice, no
// source): the day of the line, else that of the plan.
func TestWhoAndByWhen(t *testing.T) {
	now, day := at(t, "2026-05-01T12:00"), civil.MustParse("2026-05-20")
	for _, c := range []struct {
		of    assessment.Criterion
		whose string
		by    string
	}{
		{assessment.Criterion{Kind: assessment.FamilyCurrent, Count: 1, Skills: []string{"suction"}}, "the family", "2026-05-20"},
		{assessment.Criterion{Kind: assessment.CardsOnFile, Count: 1, By: civil.MustParse("2026-04-30")}, "the family", "2026-04-30"},
		{assessment.Criterion{Kind: assessment.EquipmentHome, Items: []string{"ventilator"}}, "the agency", "2026-05-20"},
		{assessment.Criterion{Kind: assessment.EarlyShifts, Responsible: "Ada Marsh"}, "Ada Marsh", "2026-05-20"},
		{assessment.Criterion{Kind: assessment.Attested, Says: assessment.SaidByClinician}, "the child’s clinician", "2026-05-20"},
		{assessment.Criterion{Kind: assessment.Attested}, "the agency", "2026-05-20"},
	} {
		l := assess(c.of, assessment.Facts{At: now, Going: day})
		if got := l.Left[0]; got.Whose().String() != c.whose || got.By.String() != c.by || got.Late(civil.MustParse("2026-05-01")) != (c.by < "2026-05-01") {
			t.Errorf("%s: %s by %s", c.of.Kind, got.Whose(), got.By)
		}
	}
	l := assess(assessment.Criterion{Kind: assessment.FamilyCurrent, Count: 2, Skills: []string{"suction"}, Responsible: "Ada Marsh"},
		assessment.Facts{At: now, Family: []assessment.Relative{{Name: "Mai"}}})
	if l.Left[0].Whose().String() != "Ada Marsh" || l.Left[1].Whose().String() != "Mai" || !l.Left[1].By.IsZero() {
		t.Errorf("of a caregiver: %+v", l.Left)
	}
}

// Who may say what is so: common practice, no source.
func TestWhoMaySayWhatIsSo(t *testing.T) {
	rt, rn := []assessment.Licence{{Kind: "RRT"}}, []assessment.Licence{{Kind: "RN"}}
	educator, coordinator := []assessment.Role{assessment.Educator}, []assessment.Role{assessment.Coordinator}
	for _, c := range []struct {
		says    assessment.Sayer
		licence string
		roles   []assessment.Role
		has     []assessment.Licence
		may     bool
	}{
		{assessment.SaidByKeeper, "", coordinator, nil, true},
		{assessment.SaidByKeeper, "RRT", coordinator, nil, false},
		{assessment.SaidByKeeper, "RRT", coordinator, rn, false},
		{assessment.SaidByKeeper, "rrt", coordinator, rt, true},
		{assessment.SaidByClinician, "", educator, nil, false},
		{assessment.SaidByClinician, "", educator, rn, true},
		{assessment.SaidByClinician, "RRT", educator, rn, false},
		{assessment.SaidByEducator, "", coordinator, rn, false},
		{assessment.SaidByEducator, "", educator, nil, true},
		{assessment.SaidByCoordinator, "", educator, rn, false},
		{assessment.SaidByCoordinator, "", coordinator, nil, true},
		{"somebody", "", educator, rn, false},
	} {
		if got := (assessment.Criterion{Says: c.says, Licence: c.licence}).MaySay(c.roles, c.has); got != c.may {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
