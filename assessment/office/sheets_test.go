package office_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/ward"
)

func TestOpenRefusesWhatCouldNotCount(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, tam := w.Client("7K", "Mira"), w.Client("8K", "Tam")
	bare := must(w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "9K", FirstName: "Uma"}))(t).ID
	nan := w.Nurse("Nan Orme")
	w.Award(nan, "bagging", mira)
	good := office.OpenForm{Learner: nan.Person, Skill: "suction", Client: mira, Place: "at home", Real: true, Formal: true}
	open := func(by assessment.Actor, change func(*office.OpenForm)) error {
		f := good
		change(&f)
		_, err := w.Office.Open(t.Context(), by, f)
		return err
	}
	edda := w.Educators[0]
	wantNone(t, open(edda, func(*office.OpenForm) {}))
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Learner = "" }), "learner", "")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Skill = "juggling" }), "skill", "")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Client = "" }), "client", "")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Place = " \n" }), "place", "")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Place = "at\x00home" }), "place", "")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.Place = strings.Repeat("é", 201) }), "place", "longer")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.PerformedAt = w.Now().Add(time.Microsecond) }), "performed_at", "future")
	wantAtField(t, open(edda, func(f *office.OpenForm) { f.When = "2026-03-08T02:30" }), "performed_at", "skip")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Learner = edda.Person }), fault.Refused, "yourself")
	wantRefusal(t, open(w.Educator("Ines Park"), func(*office.OpenForm) {}), fault.Refused, "not appointed")
	wantRefusal(t, open(nan, func(*office.OpenForm) {}), fault.Forbidden, "observe")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Client = bare }), fault.Refused, "record lacks")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Skill = "blocked-tube" }), fault.Refused, "never on a child")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Skill = "tube-change" }), fault.Refused, "what comes first")
	wantNone(t, open(edda, func(f *office.OpenForm) { f.Skill, f.Formal = "tube-change", false }))
	// Before any checklist was in force, and before the observers were appointed.
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.When = "2025-12-01T10:00" }), fault.Refused, "No checklist")
	// What is no id, or nobody's, is answered like what is not there.
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Learner = "not an id" }), fault.NotFound, "")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Client = "'; drop table sheet" }), fault.NotFound, "")
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Client = "00000000-0000-7000-8000-000000000000" }), fault.NotFound, "")

	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, nan.Person, w.Today()))
	wantRefusal(t, open(edda, func(*office.OpenForm) {}), fault.Refused, "left")
	ola := w.Nurse("Ola Reed")
	w.Award(ola, "bagging", mira)
	must(w.Office.ClientLeaves(t.Context(), w.Coordinator, tam, w.Today()))(t)
	wantRefusal(t, open(edda, func(f *office.OpenForm) { f.Learner, f.Client = ola.Person, tam }), fault.Refused, "looks after")
}

// A skill shown on the last instant of a revision is judged by that one, and from
// the instant of the change by the next.
func TestTheRevisionIsTheOneInForceWhenShown(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	w.Day("2026-02-01")
	before := opened(t, w, nan, "bagging", mira)
	w.Pass(time.Hour)
	change := w.Now()
	second := newRevision(t, w, "bagging", func(s string) string { return s }, "")
	w.Pass(time.Hour)
	at := func(when time.Time) office.SheetView {
		return must(w.Office.Open(t.Context(), w.Educators[0], office.OpenForm{Learner: nan.Person, Skill: "bagging", Client: mira, Place: "here", PerformedAt: when}))(t)
	}
	if v := at(change.Add(-time.Microsecond)); v.Revision != 1 {
		t.Errorf("a microsecond before: revision %d", v.Revision)
	}
	if v := at(change); v.Revision != 2 {
		t.Errorf("at the instant of the change: revision %d", v.Revision)
	}
	markAll(t, w, before)
	if v := must(w.Office.Record(t.Context(), w.Educators[0], before.ID))(t); v.Revision != 1 || v.Outcome != assessment.Competent {
		t.Errorf("opened before, recorded after: revision %d, %s", v.Revision, v.Outcome)
	}
	wantNone(t, w.Office.Retire(t.Context(), w.Educators[0], second, ward.Proof))
	w.Pass(time.Minute)
	_, err := w.Office.Open(t.Context(), w.Educators[0], office.OpenForm{Learner: nan.Person, Skill: "bagging", Client: mira, Place: "here"})
	wantRefusal(t, err, fault.Refused, "No checklist")
}

// Values ordered after the skill was shown do not judge it.
func TestOrderedValuesAreThoseOfTheInstantShown(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	w.Award(nan, "bagging", mira)
	v := opened(t, w, nan, "suction", mira)
	markAll(t, w, v)
	w.Pass(time.Minute)
	must(w.Office.SetParameters(t.Context(), w.Educators[0], mira, []office.ParameterForm{{Name: "suction_time_max", Value: "1", Unit: "s"}}))(t)
	r := must(w.Office.Record(t.Context(), w.Educators[0], v.ID))(t)
	if r.Outcome != assessment.Competent || r.Parameters["suction_time_max"].Value.Cmp(assessment.Whole(10)) != 0 {
		t.Errorf("%s by a longest time of %s: %v", r.Outcome, r.Parameters["suction_time_max"], r.Result.Reasons)
	}
	w.Pass(time.Minute)
	after := opened(t, w, nan, "suction", mira)
	if got := after.Parameters["suction_time_max"]; got.Value.Cmp(assessment.Whole(1)) != 0 {
		t.Errorf("shown after the change: judged by %s", got)
	}
}

// Sending twice is harmless, one after the other and at once; another form under
// the same id is refused.
func TestOpeningAndRecordingTwiceIsHarmless(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, tam := w.Client("7K", "Mira"), w.Client("8K", "Tam")
	nan := w.Nurse("Nan Orme")
	edda := w.Educators[0]
	form := office.OpenForm{ID: "01963f7a-0000-7000-8000-000000000001", Learner: nan.Person, Skill: "humidifier", Client: mira, Place: "at home", Real: true, Formal: true}
	errs := make([]error, 12)
	atOnce(len(errs), func(i int) { _, errs[i] = w.Office.Open(t.Context(), edda, form) })
	for _, err := range errs {
		wantNone(t, err)
	}
	if all := must(w.Office.Sheets(t.Context(), edda))(t); len(all) != 1 {
		t.Errorf("%d sheets", len(all))
	}
	for _, change := range []func(*office.OpenForm){
		func(f *office.OpenForm) { f.Client = tam },
		func(f *office.OpenForm) { f.Formal = false },
		func(f *office.OpenForm) { f.Real = false },
		func(f *office.OpenForm) { f.Skill = "go-bag" },
		func(f *office.OpenForm) { f.Learner = w.Educators[1].Person },
	} {
		other := form
		change(&other)
		_, err := w.Office.Open(t.Context(), edda, other)
		wantRefusal(t, err, fault.Conflict, "another")
	}
	v := must(w.Office.Sheet(t.Context(), edda, assessment.DemonstrationID(form.ID)))(t)
	markAll(t, w, v)
	atOnce(len(errs), func(i int) { _, errs[i] = w.Office.Record(t.Context(), edda, v.ID) })
	for _, err := range errs {
		wantNone(t, err)
	}
	if all := must(w.Office.Demonstrations(t.Context(), w.Coordinator, postgres.DemonstrationFilter{}))(t).Items; len(all) != 1 {
		t.Errorf("%d records", len(all))
	}
	_, err := w.Office.Open(t.Context(), edda, form)
	wantRefusal(t, err, fault.Conflict, "recorded")
	_, err = w.Office.Mark(t.Context(), edda, v.ID, office.MarkForm{Step: 1, Mark: "unsafe"})
	wantRefusal(t, err, fault.Conflict, "recorded")
	bad := form
	bad.ID = "01963F7A-0000-7000-8000-000000000001"
	_, err = w.Office.Open(t.Context(), edda, bad)
	wantRefusal(t, err, fault.Invalid, "UUID")
}

// The equipment of a record is what the child had when the skill was shown. A
// change written down after that, for the same day, came later.
func TestEquipmentChangedLaterThatDayIsNotWhatItWasShownWith(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	newRevision(t, w, "humidifier", oneIsEnough, "")
	w.Day("2026-02-01")
	v := opened(t, w, nan, "humidifier", mira)
	markAll(t, w, v)
	w.Pass(time.Hour)
	w.Equip(mira, "humidifier", "cold bubbles")
	w.Pass(time.Minute)
	r := must(w.Office.Record(t.Context(), w.Educators[0], v.ID))(t)
	w.Sign(w.Educators[0], r.ID, office.PartObserver)
	w.Sign(nan, r.ID, office.PartLearner)
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); s.Word.Holds() {
		t.Errorf("%s with a humidifier that nobody was seen with", s.Word)
	}
	w.Pass(time.Minute)
	w.Demonstrate(nan, "humidifier", mira)
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); !s.Word.Holds() {
		t.Errorf("%s after it was shown with the new one", s.Word)
	}
	indexIsRight(t, w)
}
