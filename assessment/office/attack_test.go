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

// shownAt has a skill shown on an earlier day and time, recorded and signed now.
func shownAt(t *testing.T, w *ward.Ward, who assessment.Actor, skill string, child assessment.ClientID, when string, m assessment.Mark) office.DemonstrationView {
	t.Helper()
	edda := w.Educators[0]
	v := must(w.Office.Open(t.Context(), edda, office.OpenForm{Learner: who.Person, Skill: skill, Client: child, Place: "at home", Real: true, Formal: true, When: when}))(t)
	markAll(t, w, v)
	must(w.Office.MarkAll(t.Context(), edda, v.ID, []office.MarkForm{{Step: 1, Mark: string(m)}}))(t)
	must(w.Office.Record(t.Context(), edda, v.ID))(t)
	w.Sign(edda, v.ID, office.PartObserver)
	return w.Sign(who, v.ID, office.PartLearner)
}

// A pass that is said to have been before a failure, or at the same instant, does
// not lift it; nor does one before a withdrawal, or on its day.
func TestABackDatedPassLiftsNothing(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-02-10")
	shownAt(t, w, nan, "humidifier", mira, "2026-02-10T09:00", assessment.Unsafe)
	shownAt(t, w, nan, "humidifier", mira, "2026-02-10T08:59", assessment.Independent)
	shownAt(t, w, nan, "humidifier", mira, "2026-02-10T09:00", assessment.Independent)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("passes before and at the instant of the failure: %s", s)
	}
	v := shownAt(t, w, nan, "humidifier", mira, "2026-02-10T09:01", assessment.Independent)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current || v.Certificate == nil {
		t.Errorf("a pass a minute later: %s", s)
	}
	w.Day("2026-02-20")
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Redemonstrated, false))
	w.Day("2026-02-22")
	for _, when := range []string{"2026-02-19T10:00", "2026-02-20T23:59"} {
		if v := shownAt(t, w, nan, "humidifier", mira, when, assessment.Independent); v.Certificate != nil {
			t.Errorf("a certificate for what was shown at %s", when)
		}
	}
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("passes up to the day of the withdrawal: %s", s)
	}
	shownAt(t, w, nan, "humidifier", mira, "2026-02-21T00:00", assessment.Independent)
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Current {
		t.Errorf("a pass at the first instant of the next day: %s", s)
	}
	indexIsRight(t, w)
}

// A failure that comes to light late, of a day before the pass, takes nothing away
// that was shown after it; one after the pass does, from its own day.
func TestALateFailureActsFromItsDay(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-03-01")
	shownAt(t, w, nan, "humidifier", mira, "2026-02-14T10:00", assessment.Unsafe)
	for day, want := range map[string]assessment.StandingWord{"2026-02-13": assessment.Current, "2026-02-14": assessment.Withdrawn, "2026-03-01": assessment.Withdrawn} {
		if s := w.Standing(nan, "humidifier", mira, civil.MustParse(day)); s.Word != want {
			t.Errorf("on %s: %s, want %s", day, s.Word, want)
		}
	}
	indexIsRight(t, w)
}

// Two of the kinds that a skill depends on change at once, back-dated; one comes
// back. Only what was shown with both as they are now counts.
func TestSeveralKindsOfEquipmentAtOnce(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "circuit-test", "bagging")
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	set := func(kind, model, from string) {
		t.Helper()
		must(w.Office.SetEquipment(t.Context(), w.Coordinator, mira, office.EquipmentForm{Kind: kind, Type: model, From: from}))(t)
		w.Pass(time.Minute)
	}
	expect := func(what, day string, want bool) {
		t.Helper()
		if s := w.Standing(nan, "circuit-test", mira, civil.MustParse(day)); s.Word.Holds() != want {
			t.Errorf("%s: %s on %s", what, s.Word, day)
		}
		indexIsRight(t, w)
	}
	w.Day("2026-03-01")
	set("ventilator", "model two", "2026-02-20")
	set("circuit", "two limbs", "2026-02-20")
	expect("before the change", "2026-02-19", true)
	expect("both changed", "2026-02-20", false)
	set("ventilator", ward.Fitted["ventilator"], "2026-02-25")
	expect("one back", "2026-02-25", false)
	set("circuit", ward.Fitted["circuit"], "2026-02-26")
	expect("both back", "2026-02-26", true)
	expect("in between", "2026-02-25", false)
	set("circuit", "", "2026-02-27")
	expect("none any more", "2026-02-27", false)
	set("humidifier", "cold bubbles", "2026-02-28") // not one that this skill depends on
	set("circuit", ward.Fitted["circuit"], "2026-02-28")
	expect("another kind", "2026-02-28", true)
	set("ventilator", "model two", "2026-01-10") // before it was shown: then it was shown with something else
	expect("back-dated before it was shown", "2026-02-05", false)
}

// A correction takes back the record that it names and nothing of another kind,
// whatever id that has.
func TestACorrectionTakesBackNothingElse(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	ola := w.Nurse("Ola Reed")
	v := w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(ola, "humidifier", mira)
	_, err := asOwner(t, w).Exec(t.Context(), `
		insert into withdrawal (agency_id, id, person_id, skill_id, client_id, at, until, reason, signed_by, printed_name)
		values ($1, $2, $3, $4, $5, $6, 'reinstated', 'Seen.', $7, 'Ada Minton')`,
		w.Admin.Agency, v.ID, ola.Person, skillOf(t, w, "humidifier"), mira, w.Now(), w.Admin.Person)
	wantNone(t, err)
	must(w.Office.Rebuild(t.Context()))(t)
	w.Pass(time.Minute)
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], v.ID, "Wrong child.", ward.Proof))
	newRevision(t, w, "humidifier", policy("months: 9"), "") // has everybody's index written anew
	for who, want := range map[assessment.PersonID]assessment.StandingWord{nan.Person: assessment.NotStarted, ola.Person: assessment.Withdrawn} {
		s := must(w.Office.Standing(t.Context(), w.Coordinator, who, "humidifier", mira, civil.Date{}))(t)
		if s.Word != want {
			t.Errorf("%s is %s, want %s", s.Person.Name, s.Word, want)
		}
	}
	indexIsRight(t, w)
}

// Somebody who has left acts no more, even with a session from before.
func TestWhoHasLeftActsNoMore(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	ines := w.Educator("Ines Park")
	w.Appoint(ines, w.Educators[1], "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(ines), ward.Unsigned)
	token, _, err := w.Office.SignIn(t.Context(), office.SignInForm{Email: w.Email(ines), Password: ward.Password})
	wantNone(t, err)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, ines.Person, civil.MustParse("2026-02-02")))
	_, err = w.Office.Session(t.Context(), token)
	wantNone(t, err)
	w.At(civil.MustParse("2026-02-02").In(w.Zone))
	if _, err = w.Office.Session(t.Context(), token); err == nil {
		t.Error("a session outlives leaving")
	}
	wantRefusal(t, sign(t, w, ines, v.ID, office.PartObserver), fault.Refused, "left")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, nan.Person, w.Today()))
	wantRefusal(t, sign(t, w, nan, v.ID, office.PartLearner), fault.Refused, "left") // on somebody's device
}

// Texts in any script and of the greatest length come back as they were written.
func TestOddTextsComeBackAsWritten(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	odd := "Ñandú מירה 👩‍👧 ﷽ e\u0301 \"'; drop table sheet;-- <b> & \\u0000 " + strings.Repeat("ж", 1900)
	edda := w.Educators[0]
	v := opened(t, w, nan, "humidifier", mira)
	markAll(t, w, v)
	must(w.Office.Mark(t.Context(), edda, v.ID, office.MarkForm{Step: 1, Mark: "independent", Note: odd}))(t)
	r := must(w.Office.Record(t.Context(), edda, v.ID))(t)
	if r.Entries[1].Note != odd {
		t.Errorf("the note came back as %.80q", r.Entries[1].Note)
	}
	w.Sign(edda, v.ID, office.PartObserver)
	w.Sign(nan, v.ID, office.PartLearner)
	f := about(nan, "humidifier", mira)
	f.Reason = odd
	wantNone(t, w.Office.Withdraw(t.Context(), edda, f, assessment.Reinstated, false))
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Withdrawn {
		t.Errorf("%s", s)
	}
	if all := must(w.Office.Demonstrations(t.Context(), w.Coordinator, postgres.DemonstrationFilter{Learner: nan.Person}))(t).Items; len(all) != 1 {
		t.Errorf("%d records", len(all))
	}
}
