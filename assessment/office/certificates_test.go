package office_test

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// The bytes that are handed out are those that were drawn, and their hash is told
// to whoever checks.
func TestACertificateIsKeptAsIssued(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira)
	if v.Certificate == nil {
		t.Fatal("no certificate")
	}
	kept := must(w.Office.Certificate(t.Context(), nan, v.Certificate.ID))(t)
	want := sha256.Sum256(kept.PDF)
	if string(want[:]) != string(kept.PDFSHA256) || !strings.Contains(string(kept.PDF), kept.Code) || !strings.Contains(string(kept.PDF), "through 2027-02-01") {
		t.Errorf("kept: %q, %s", kept.PDF, hex.EncodeToString(kept.PDFSHA256))
	}
	c := must(w.Office.Check(t.Context(), strings.ToLower(office.ShowCode(kept.Code))))(t)
	if !c.Holds() || c.Standing.Word != assessment.Current || c.Person != "Nan Orme" || !c.Client || c.Through != civil.MustParse("2027-02-01") || string(c.SHA256) != string(want[:]) {
		t.Errorf("checked: %+v", c)
	}
	_, err := w.Office.Certificate(t.Context(), w.Nurse("Ola Reed"), v.Certificate.ID)
	wantRefusal(t, err, fault.NotFound, "")
	_, err = w.Office.Check(t.Context(), "00000000000"+"0")
	wantRefusal(t, err, fault.NotFound, "ever issued")
	if again := w.Demonstrate(nan, "humidifier", mira); again.Certificate == nil || again.Certificate.Number != 2 {
		t.Errorf("renewed: %+v", again.Certificate)
	}
}

// What fails to be drawn is not signed either; and what is no award has none.
func TestWhatBringsNoCertificate(t *testing.T) {
	t.Parallel()
	broken := false
	w := ward.New(t, ward.WithCertificate(func(f office.CertificateFacts) ([]byte, error) {
		if broken {
			return nil, errors.New("no ink")
		}
		return drawn(f)
	}))
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	for _, v := range []office.DemonstrationView{
		w.Demonstrate(nan, "humidifier", mira), // one of three
		w.Demonstrate(nan, "humidifier", mira, ward.Practice),
		w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe)),
		w.Demonstrate(nan, "humidifier", mira, ward.Stopped),
	} {
		if v.Certificate != nil {
			t.Errorf("%s, formal %v: a certificate", v.Outcome, v.Formal)
		}
	}
	newRevision(t, w, "humidifier", oneIsEnough, "")
	w.Day("2026-02-01")
	broken = true
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	if err := sign(t, w, nan, v.ID, office.PartLearner); err == nil || !strings.Contains(err.Error(), "no ink") {
		t.Errorf("signed without its certificate: %v", err)
	}
	if s := word(t, w, nan, "humidifier", mira); s.Holds() {
		t.Errorf("%s", s)
	}
	broken = false
	v = w.Sign(nan, v.ID, office.PartLearner)
	if v.Certificate == nil || v.Certificate.Number != 1 {
		t.Errorf("after a failure to draw: %+v", v.Certificate)
	}
	indexIsRight(t, w)
}

// A signature that comes after the end of what it would give brings nothing.
func TestNoCertificateForWhatIsOverWhenSigned(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira, ward.UnsignedByLearner)
	w.Day("2027-02-02")
	if v = w.Sign(nan, v.ID, office.PartLearner); v.Certificate != nil {
		t.Errorf("a certificate through %s, issued on %s", v.Certificate.ThroughOn, w.Today())
	}
	if s := word(t, w, nan, "humidifier", mira); s != assessment.Lapsed {
		t.Errorf("%s", s)
	}
}

// Whoever checks learns what holds now, whatever the paper says.
func TestTheCheckTellsWhatHoldsNow(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := w.Demonstrate(nan, "humidifier", mira)
	now := func() office.Checked { return must(w.Office.Check(t.Context(), v.Certificate.Code))(t) }
	expect := func(what string, want assessment.StandingWord) {
		t.Helper()
		if c := now(); c.Standing.Word != want || c.Holds() != want.Holds() || c.Now.IsZero() == want.Holds() {
			t.Errorf("%s: %s through %s, holds %v, want %s", what, c.Standing.Word, c.Now, c.Holds(), want)
		}
	}
	expect("as issued", assessment.Current)
	w.Equip(mira, "humidifier", "cold bubbles")
	expect("another humidifier", assessment.NotStarted)
	w.Pass(time.Minute)
	w.Equip(mira, "humidifier", ward.Fitted["humidifier"])
	expect("the old one again", assessment.Current)
	w.Demonstrate(nan, "humidifier", mira, ward.Marked(1, assessment.Unsafe))
	expect("failed since", assessment.Withdrawn)
	w.Demonstrate(nan, "humidifier", mira)
	expect("passed again", assessment.Current)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], office.ExceptionForm{Person: nan.Person, Skill: "humidifier", Client: mira, Reason: "Seen.", Proof: ward.Proof}, assessment.Redemonstrated, false))
	expect("withdrawn", assessment.Withdrawn)
	w.Pass(24 * time.Hour)
	w.Demonstrate(nan, "humidifier", mira)
	expect("shown on a later day", assessment.Current)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, nan.Person, w.Today().AddDays(1)))
	if c := now(); !c.Holds() || c.Left() {
		t.Errorf("on the last day: %+v", c.Reliance)
	}
	w.Pass(24 * time.Hour)
	if c := now(); c.Holds() || !c.Left() || !c.Now.IsZero() || c.Standing.Word != assessment.Current {
		t.Errorf("on the first day away: %+v", c.Reliance)
	}
	w.Day("2027-06-01")
	expect("over", assessment.Lapsed)
	indexIsRight(t, w)
}

// A paper whose record was taken back says nothing any more, even where the skill
// is held by what was shown later.
func TestACertificateIsNotSavedByALaterOne(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	first := w.Demonstrate(nan, "humidifier", mira)
	w.Pass(24 * time.Hour)
	second := w.Demonstrate(nan, "humidifier", mira)
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], first.ID, "Another child's sheet.", ward.Proof))
	c := must(w.Office.Check(t.Context(), first.Certificate.Code))(t)
	if c.Holds() || c.TakenBackOn != w.Today() || c.Standing.Word != assessment.Current || !c.Now.IsZero() {
		t.Errorf("the first one: %+v", c)
	}
	if v := must(w.Office.ViewCertificate(t.Context(), nan, first.Certificate.ID))(t); v.Holds() || len(v.Shown) != 1 {
		t.Errorf("the first one, read: %+v", v)
	}
	if c := must(w.Office.Check(t.Context(), second.Certificate.Code))(t); !c.Holds() || !c.TakenBackOn.IsZero() {
		t.Errorf("the second one: %+v", c)
	}
}
