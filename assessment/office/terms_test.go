package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A recheck ends what was shown on an older revision, and the terms are those of
// the revision that was shown.
func TestRechecksAndPoliciesAcrossRevisions(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	ola := w.Nurse("Ola Reed")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-10")
	newRevision(t, w, "humidifier", policy("count: 2", "days: 2", "months: 1", "renewal_days: 5"), "2026-02-20")
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); !s.Word.Holds() || s.Through != civil.MustParse("2026-02-20") {
		t.Errorf("announced: %s through %s", s.Word, s.Through)
	}
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-02-21")); s.Word != assessment.Lapsed {
		t.Errorf("after the day: %s", s.Word)
	}
	w.Pass(time.Hour)
	if v := w.Demonstrate(ola, "humidifier", mira); v.Certificate != nil {
		t.Error("one is not enough by the new revision")
	}
	// Shown before the change and written down after it: judged and awarded by the old one.
	if v := shownAt(t, w, w.Nurse("Pia Lund"), "humidifier", mira, "2026-02-09T10:00", assessment.Independent); v.Revision != 2 || v.Certificate == nil || v.Certificate.ThroughOn != civil.MustParse("2026-02-20") {
		t.Errorf("revision %d, %+v", v.Revision, v.Certificate)
	}
	w.Day("2026-02-19")
	w.Demonstrate(nan, "humidifier", mira)
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-02-21")); !s.Word.Holds() || s.Through.After(civil.MustParse("2027-02-01")) {
		t.Errorf("shown again on the new one: %s through %s", s.Word, s.Through)
	}
	indexIsRight(t, w)
}

// Work done after the absence has run out revives nobody.
func TestAbsence(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	newRevision(t, w, "humidifier", policy("count: 1", "days: 1", "absence_days: 20", "notice_days: 3"), "")
	w.Day("2026-02-01")
	w.Demonstrate(nan, "humidifier", mira)
	log := func(on string) {
		wantNone(t, w.Office.Log(t.Context(), w.Coordinator, office.LogForm{Person: nan.Person, Skill: "humidifier", Client: mira, Kind: assessment.PracticeEntry, On: on}))
	}
	w.Day("2026-03-20")
	log("2026-02-22") // a day too late
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-02-22")); s.Word != assessment.Lapsed {
		t.Errorf("practised a day too late: %s", s.Word)
	}
	log("2026-02-21")
	if s := w.Standing(nan, "humidifier", mira, civil.MustParse("2026-03-14")); !s.Word.Holds() || s.Through != civil.MustParse("2026-03-14") {
		t.Errorf("practised on the last day: %s through %s", s.Word, s.Through)
	}
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Lapsed {
		t.Errorf("20 days on: %s", s)
	}
	indexIsRight(t, w)
}

// Resuscitation is held only while the card is; a card that is taken back takes
// it along.
func TestACompetencyEndsWithTheCard(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "cpr-trach", "bagging")
	w.Demonstrate(nan, "bagging", mira)
	if v := w.Demonstrate(nan, "cpr-trach", mira); v.Outcome != assessment.Competent || v.Certificate != nil {
		t.Errorf("without a card: %s, %+v", v.Outcome, v.Certificate)
	}
	expect := func(what string, want bool) {
		t.Helper()
		if s := word(t, w, nan, "cpr-trach", mira); s.Holds() != want {
			t.Errorf("%s: %s", what, s)
		}
		indexIsRight(t, w)
	}
	expect("without a card", false)
	card := must(w.Office.RecordCard(t.Context(), w.Admin, nan.Person, office.CardForm{Issuer: "Lifeline Courses", PrintedEnd: "2026-03-15"}))(t)
	expect("with one", true)
	if v := w.Demonstrate(nan, "cpr-trach", mira); v.Certificate == nil || v.Certificate.ThroughOn != civil.MustParse("2026-03-15") {
		t.Errorf("the certificate ends with the card: %+v", v.Certificate)
	}
	w.Day("2026-03-16")
	expect("over", false)
	must(w.Office.RecordCard(t.Context(), w.Admin, nan.Person, office.CardForm{Issuer: "Lifeline Courses", PrintedEnd: "2026-06-15"}))(t)
	expect("a new one", true)
	w.Day("2026-03-17")
	owner := asOwner(t, w)
	_, err := owner.Exec(t.Context(), `
		insert into correction select agency_id, '01963f7a-0000-7000-8000-0000000000aa', 'card', id, $1, 'Another person''s card.', recorded_by, 'Ada Minton'
		from resuscitation_card where id <> $2`, w.Now(), card.ID)
	wantNone(t, err)
	if s := word(t, w, nan, "cpr-trach", mira); s.Holds() {
		t.Errorf("the card was taken back: %s", s)
	}
}

// What comes first is asked on the day of the performance.
func TestPrerequisitesAreAskedOnTheDayShown(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging", "suction")
	w.Demonstrate(nan, "bagging", mira)
	w.Day("2026-03-01")
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "bagging", ""), assessment.Reinstated, false))
	form := office.OpenForm{Learner: nan.Person, Skill: "suction", Client: mira, Place: "at home", Real: true, Formal: true}
	_, err := w.Office.Open(t.Context(), w.Educators[0], form)
	wantRefusal(t, err, fault.Refused, "comes first")
	form.When = "2026-01-31T10:00"
	_, err = w.Office.Open(t.Context(), w.Educators[0], form)
	wantRefusal(t, err, fault.Refused, "comes first")
	form.When = "2026-02-20T10:00" // current in bagging then
	must(w.Office.Open(t.Context(), w.Educators[0], form))(t)
}
