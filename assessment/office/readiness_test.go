package office_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// ATS 2016 below is the American Thoracic Society's guideline on pediatric chronic
// home invasive ventilation (Am J Respir Crit Care Med 2016;193:e16).

// line finds the answer on the only line of a kind.
func line(t *testing.T, v office.ReadinessView, kind assessment.CriterionKind) assessment.Line {
	t.Helper()
	i := slices.IndexFunc(v.Lines, func(l assessment.Line) bool { return l.Criterion.Kind == kind })
	if i < 0 {
		t.Fatalf("no line is %s", kind)
	}
	return v.Lines[i]
}

func says[S fmt.Stringer](words []S, what string) bool {
	return slices.ContainsFunc(words, func(s S) bool { return strings.Contains(s.String(), what) })
}

func readiness(t *testing.T, w *ward.Ward, child assessment.ClientID) office.ReadinessView {
	t.Helper()
	return must(w.Office.Readiness(t.Context(), w.Coordinator, child, time.Time{}))(t)
}

// The nine items and the hours are those of ATS 2016: recommendation 4c, and table
// 5, which gives 24 to 48 hours for the equipment and none for the stay.
func TestStandardPlan(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	for _, skill := range []string{"suction", "decannulation", "bagging"} {
		w.Require(skill, assessment.Family)
	}
	w.Require("circuit-change", assessment.Nurse)
	if v := readiness(t, w, child); v.Ready || len(v.Lines) != 0 {
		t.Errorf("without a plan: %+v", v)
	}
	wantRefusal(t, w.Office.StartPlan(t.Context(), w.Admin, child), fault.Forbidden, "readiness plan")
	wantNone(t, w.Office.StartPlan(t.Context(), w.Coordinator, child))
	wantRefusal(t, w.Office.StartPlan(t.Context(), w.Coordinator, child), fault.Conflict, "has a plan already")
	v := readiness(t, w, child)
	if v.Ready || v.Left() != len(v.Lines) || len(v.Lines) != 14 || v.Client.Code != "7K" || v.Agency.Code != ward.Code || v.On != w.Today() {
		t.Errorf("a new plan: ready %v, %d of %d left, %+v", v.Ready, v.Left(), len(v.Lines), v.Client)
	}
	family := line(t, v, assessment.FamilyCurrent).Criterion
	if family.Count != 2 || len(family.Skills) != 3 || slices.Contains(family.Skills, "circuit-change") {
		t.Errorf("family: %+v", family)
	}
	if drills := line(t, v, assessment.EmergencyDrills).Criterion; len(drills.Skills) != 2 || slices.Contains(drills.Skills, "suction") {
		t.Errorf("drills: %+v", drills)
	}
	if home := line(t, v, assessment.EquipmentHome); len(home.Criterion.Items) != 9 || !says(home.Left, "back-up ventilator: not delivered yet") {
		t.Errorf("equipment: %+v", home)
	}
	if trial := line(t, v, assessment.EquipmentTrial); trial.Criterion.Hours != 24 {
		t.Errorf("trial: %+v", trial)
	}
	if stay := line(t, v, assessment.IndependentStay); stay.Criterion.Hours != 0 || !says(stay.Left, "not set") {
		t.Errorf("stay: %+v", stay)
	}
}

func TestCriteria(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	add := func(f office.CriterionForm) (assessment.CriterionID, error) {
		return w.Office.AddCriterion(t.Context(), w.Coordinator, child, f)
	}
	form := office.CriterionForm{ID: "01950000-0000-7000-8000-0000000000aa", Kind: "independent stay", Title: "A weekend alone"}
	id := must(add(form))(t)
	if again := must(add(form))(t); again != id || len(readiness(t, w, child).Lines) != 1 {
		t.Error("a form sent twice made two lines")
	}
	for _, c := range []struct {
		field string
		form  office.CriterionForm
	}{
		{"title", office.CriterionForm{Kind: "attested"}},
		{"kind", office.CriterionForm{Kind: "hoped", Title: "A"}},
		{"count", office.CriterionForm{Kind: "family current", Title: "A", Count: 21}},
		{"count", office.CriterionForm{Kind: "family current", Title: "A", Count: -1}},
		{"hours", office.CriterionForm{Kind: "independent stay", Title: "A", Hours: 2001}},
		{"skills", office.CriterionForm{Kind: "family current", Title: "A", Skills: []string{"juggling"}}},
		{"items", office.CriterionForm{Kind: "equipment home", Title: "A", Items: []string{"a\x00"}}},
	} {
		_, err := add(c.form)
		wantAtField(t, err, c.field, "")
	}
	edit := func(f office.CriterionForm) error { return w.Office.EditCriterion(t.Context(), w.Educators[0], id, f) }
	wantAtField(t, edit(office.CriterionForm{Kind: "attested", Title: "A"}), "kind", "cannot be changed")
	wantNone(t, edit(office.CriterionForm{Title: "A weekend alone", Hours: 36}))
	if l := readiness(t, w, child).Lines[0]; l.Criterion.Hours != 36 || !says(l.Left, "0 h of 36 hours") {
		t.Errorf("after the edit: %+v", l)
	}
	wantNone(t, w.Office.RemoveCriterion(t.Context(), w.Coordinator, id))
	wantRefusal(t, w.Office.RemoveCriterion(t.Context(), w.Coordinator, id), fault.NotFound, "no such record")
	wantRefusal(t, edit(office.CriterionForm{Title: "A"}), fault.NotFound, "no such record")
	if v := readiness(t, w, child); len(v.Lines) != 0 || v.Ready {
		t.Errorf("after the removal: %+v", v)
	}
}

func TestEvidence(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	add := func(kind string, items ...string) assessment.CriterionID {
		return must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: kind, Title: kind, Items: items, Hours: 24}))(t)
	}
	attested, home, stay, family := add("attested"), add("equipment home", "ventilator", "back-up ventilator"), add("independent stay"), add("family current")
	say := func(c assessment.CriterionID, word, item, at, note string) error {
		return w.Office.AddEvidence(t.Context(), w.Coordinator, office.EvidenceForm{Criterion: c, Word: word, Item: item, At: at, Note: note})
	}
	for _, c := range []struct {
		field          string
		of             assessment.CriterionID
		word, item, at string
	}{
		{"word", attested, "started", "", ""},
		{"word", attested, "waived", "", ""},
		{"word", family, "met", "", ""},
		{"word", stay, "met", "", ""},
		{"item", attested, "met", "ventilator", ""},
		{"item", home, "met", "", ""},
		{"item", home, "met", "kite", ""},
		{"at", attested, "met", "", "2026-01-05T10:01"}, // in a minute
		{"at", attested, "met", "", "yesterday"},
	} {
		wantAtField(t, say(c.of, c.word, c.item, c.at, ""), c.field, "")
	}
	lineOf := func(kind assessment.CriterionKind) assessment.Line { return line(t, readiness(t, w, child), kind) }

	wantNone(t, say(attested, "met", "", "2026-01-04T09:00", "seen on the ward round"))
	if l := lineOf(assessment.Attested); l.State != assessment.StateMet || l.On.String() != "2026-01-04" || !says(l.Evidence, "by Cory Vance: seen on the ward round") {
		t.Errorf("attested: %+v", l)
	}
	// A second tap is the same word; a word taken back and said again is three.
	for _, word := range []string{"not met", "not met", "met", "not met"} {
		wantNone(t, say(attested, word, "", "", ""))
		w.Pass(time.Second)
	}
	if l := lineOf(assessment.Attested); l.State != assessment.StateNotMet {
		t.Errorf("the last word was not met: %+v", l)
	}
	wantNone(t, say(home, "met", "ventilator", "", ""))
	wantNone(t, say(home, "delivered", "back-up ventilator", "", ""))
	if l := lineOf(assessment.EquipmentHome); l.State != assessment.StateNotMet || !says(l.Left, "back-up ventilator: delivered, not checked yet") {
		t.Errorf("equipment: %+v", l)
	}
	wantNone(t, say(stay, "started", "", "2026-01-03T10:00", ""))
	if l := lineOf(assessment.IndependentStay); l.State != assessment.StateMet {
		t.Errorf("the stay, after two days: %+v", l)
	}
	form := office.EvidenceForm{ID: "01950000-0000-7000-8000-0000000000bb", Criterion: stay, Word: "ended"}
	wantNone(t, w.Office.AddEvidence(t.Context(), w.Coordinator, form))
	w.Pass(time.Hour)
	wantNone(t, w.Office.AddEvidence(t.Context(), w.Coordinator, form))
	if l := lineOf(assessment.IndependentStay); len(l.Evidence) != 2 {
		t.Errorf("the end, sent twice: %+v", l.Evidence)
	}
	wantRefusal(t, w.Office.AddEvidence(t.Context(), w.Surveyor("Sue Vey"), form), fault.Forbidden, "readiness plan")
}

// ATS 2016, recommendation 4c, with the waiver that is ours: by name, with the
// reason, and still shown.
func TestWaivers(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	id := must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "equipment home", Title: "At home", Items: []string{"nebuliser"}}))(t)
	state := func() assessment.Line { return readiness(t, w, child).Lines[0] }
	waive := func(by assessment.Actor, item, reason string) error {
		return w.Office.WaiveCriterion(t.Context(), by, id, item, reason)
	}
	wantRefusal(t, waive(w.Coordinator, "nebuliser", "No inhaled drugs."), fault.Forbidden, "waive")
	wantAtField(t, waive(w.Educators[0], "nebuliser", " "), "reason", "Say why")
	wantAtField(t, waive(w.Educators[0], "kite", "Why not."), "item", "Choose one")
	wantNone(t, waive(w.Educators[0], "nebuliser", "No inhaled drugs."))
	if l := state(); l.State != assessment.StateWaived || !says(l.Evidence, "nebuliser: waived on 5 January 2026 by Edda Lorne: No inhaled drugs.") {
		t.Errorf("waived: %+v", l)
	}
	if v := readiness(t, w, child); !v.Ready {
		t.Errorf("all that is left is waived: %+v", v)
	}
	w.Pass(time.Second)
	wantNone(t, w.Office.EndWaiver(t.Context(), w.Educators[1], id, "nebuliser", "Drugs were ordered."))
	if l := state(); l.State != assessment.StateNotMet {
		t.Errorf("the waiver has ended: %+v", l)
	}
	wantRefusal(t, w.Office.EndWaiver(t.Context(), w.Educators[1], id, "nebuliser", "Again."), fault.Refused, "not waived")
	w.Pass(time.Second)
	wantNone(t, waive(w.Educators[0], "", "The child goes to a sister's home that has all."))
	if l := state(); l.State != assessment.StateWaived {
		t.Errorf("the whole line is waived: %+v", l)
	}
}

// What is required of the family since the plan was made is asked as well: two caregivers hold
// all required skills, not those alone that were required once (ATS 2016, recommendation 3b).
func TestWhatIsRequiredSinceThePlanWasMade(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	mother, aunt := w.Family("Mai Lind", child), w.Family("Ola Lind", child)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "family current", Title: "Two", Skills: []string{"bagging"}, Count: 2}))(t)
	w.Award(mother, "bagging", child)
	w.Award(aunt, "bagging", child)
	before := readiness(t, w, child)
	w.Require("humidifier", assessment.Nurse)
	if v := readiness(t, w, child); !before.Ready || !v.Ready || v.Version != before.Version {
		t.Fatalf("nothing more is asked of the family: %+v", v)
	}
	w.Require("humidifier", assessment.Family)
	v := readiness(t, w, child)
	if l := line(t, v, assessment.FamilyCurrent); v.Ready || v.Version == before.Version || l.State != assessment.StateNotMet || !says(l.Left, "Mai Lind") {
		t.Errorf("one skill more is required, and nobody has shown it: ready %v, %+v", v.Ready, l)
	}
	w.Award(mother, "humidifier", child)
	w.Award(aunt, "humidifier", child)
	if v := readiness(t, w, child); !v.Ready {
		t.Errorf("shown by both: %+v", v.Lines)
	}
}

// ATS 2016, recommendation 3b, over real demonstrations: two family caregivers
// current, a nurse in place of one not enough, and the last day flagged.
func TestFamilyReadiness(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	mother, aunt, nurse := w.Family("Mai Lind", child), w.Family("Ola Lind", child), w.Nurse("Nan Orme")
	w.Join(nurse, child)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "family current", Title: "Two", Skills: []string{"bagging"}, Count: 2}))(t)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "cards on file", Title: "Cards", Count: 1}))(t)
	w.Award(mother, "bagging", child)
	w.Award(nurse, "bagging", child)
	w.Card(nurse)
	v := readiness(t, w, child)
	if l := line(t, v, assessment.FamilyCurrent); l.State != assessment.StateNotMet || !says(l.Left, "One more family caregiver") || !says(l.Left, "Ola Lind") {
		t.Errorf("one of the family and a nurse: %+v", l)
	}
	if l := line(t, v, assessment.CardsOnFile); l.State != assessment.StateNotMet {
		t.Errorf("a nurse's card: %+v", l)
	}
	w.Award(aunt, "bagging", child)
	w.Card(aunt)
	v = readiness(t, w, child)
	if !v.Ready || !slices.Equal(v.Family, []string{"Mai Lind", "Ola Lind"}) {
		t.Errorf("two of the family: %+v", v)
	}
	through := w.Standing(mother, "bagging", child, w.Today()).Through
	on := func(d civil.Date) office.ReadinessView {
		return must(w.Office.Readiness(t.Context(), w.Coordinator, child, d.In(w.Zone).Add(10*time.Hour)))(t)
	}
	if v := on(through); !v.Ready || !says(line(t, v, assessment.FamilyCurrent).Flags, "Mai Lind") || v.On != through {
		t.Errorf("on the last day of one: %+v", v)
	}
	if v := on(through.AddDays(1)); v.Ready {
		t.Errorf("the day after: %+v", v)
	}
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, aunt.Person, w.Today()))
	if v := readiness(t, w, child); v.Ready || len(v.Family) != 1 {
		t.Errorf("one has left: %+v", v)
	}
}

// A family may ask about its own child; any other was never there.
func TestWhoReadsReadiness(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child, other := w.Client("7K", "Tam"), w.Client("8M", "Ai")
	mother := w.Family("Mai Lind", child)
	must(w.Office.Readiness(t.Context(), mother, child, time.Time{}))(t)
	must(w.Office.Readiness(t.Context(), w.Surveyor("Sue Vey"), other, time.Time{}))(t)
	_, foreign := w.Office.Readiness(t.Context(), mother, other, time.Time{})
	_, unknown := w.Office.Readiness(t.Context(), mother, "01950000-0000-7000-8000-0000000000aa", time.Time{})
	wantRefusal(t, foreign, fault.NotFound, "no such record")
	if foreign.Error() != unknown.Error() {
		t.Errorf("another child: %v; no child: %v", foreign, unknown)
	}
}

// An open stretch of hours is not known to last until a day that has not come.
func TestReadinessOnAComingDay(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	id := must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "equipment trial", Title: "Trial", Hours: 24}))(t)
	wantNone(t, w.Office.AddEvidence(t.Context(), w.Coordinator, office.EvidenceForm{Criterion: id, Word: "started", At: "2026-01-05T08:00"}))
	v := must(w.Office.Readiness(t.Context(), w.Coordinator, child, w.Now().Add(30*24*time.Hour)))(t)
	if l := v.Lines[0]; v.Ready || !says(l.Left, "2 h of 24 hours") {
		t.Errorf("in thirty days: %+v", l)
	}
}
