package office_test

import (
	"regexp"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A revision that no longer depends on equipment says nothing new of the days
// before it, and saves no pass that was shown with other equipment.
func TestARevisionDoesNotRewriteThePast(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Day("2026-03-01")
	w.Equip(mira, "humidifier", "cold bubbles")
	w.Day("2026-04-01")
	newRevision(t, w, "humidifier", func(s string) string {
		without := regexp.MustCompile(`(?m)^fitted:.*\n(?:^ *- .*\n)*`).ReplaceAllString(s, "")
		if without == s {
			t.Fatalf("nothing was left out:\n%s", s)
		}
		return without
	}, "")
	for _, day := range []string{"2026-03-05", "2026-04-01"} {
		if s := w.Standing(nan, "humidifier", mira, civil.MustParse(day)); s.Word != assessment.NotStarted {
			t.Errorf("on %s: %s", day, s.Word)
		}
	}
	indexIsRight(t, w)
}

// Types that run into one another when they are written in a row are still two.
func TestEquipmentIsComparedByKind(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "circuit-test", "bagging")
	w.Equip(mira, "circuit", "A; ventilator=B")
	w.Equip(mira, "ventilator", "")
	w.Pass(time.Minute)
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	w.Day("2026-03-01")
	w.Equip(mira, "circuit", "A")
	w.Equip(mira, "ventilator", "B; ventilator=")
	if s := word(t, w, nan, "circuit-test", mira); s.Holds() {
		t.Errorf("other equipment: %s", s)
	}
}

// A paper that rests on a record that was taken back cannot be relied on, whatever
// else happened on the day it was issued.
func TestACertificateKnowsWhatItRestsOn(t *testing.T) {
	t.Parallel()
	for what, between := range map[string]func(*testing.T, *ward.Ward, assessment.Actor, assessment.ClientID){
		"nothing else": func(*testing.T, *ward.Ward, assessment.Actor, assessment.ClientID) {},
		"withdrawn on that day": func(t *testing.T, w *ward.Ward, nan assessment.Actor, mira assessment.ClientID) {
			w.Pass(time.Hour)
			wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, false))
			lifted := withdrawal(t, w, nan, "humidifier", mira)
			w.Day("2026-02-10")
			wantNone(t, w.Office.Reinstate(t.Context(), w.Educators[0], lifted, "Seen again.", ward.Proof))
		},
	} {
		w := ward.New(t, ward.WithCertificate(drawn))
		mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
		newRevision(t, w, "humidifier", policy("count: 2", "days: 1", "real: 0"), "")
		first := w.Demonstrate(nan, "humidifier", mira)
		second := w.Demonstrate(nan, "humidifier", mira)
		between(t, w, nan, mira)
		wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], first.ID, "Another child's sheet.", ward.Proof))
		w.Pass(24 * time.Hour)
		w.Demonstrate(nan, "humidifier", mira)
		c := must(w.Office.Check(t.Context(), second.Certificate.Code))(t)
		if c.Holds() || c.TakenBackOn.IsZero() {
			t.Errorf("%s: %+v", what, c.Reliance)
		}
	}
}

// Asked for a past day, readiness knows no card that was not on file then.
func TestReadinessKnowsNoCardOfLater(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	child := w.Client("7K", "Tam")
	lan := w.Family("Lan", child)
	must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "cards on file", Title: "Cards", Count: 1}))(t)
	w.Day("2026-06-01")
	w.Card(lan)
	for day, want := range map[string]bool{"2026-02-01": false, "2026-05-31": false, "2026-06-01": true} {
		at := civil.MustParse(day).In(w.Zone).Add(23 * time.Hour)
		if v := must(w.Office.Readiness(t.Context(), w.Coordinator, child, at))(t); v.Ready != want {
			t.Errorf("on %s: ready is %v", day, v.Ready)
		}
	}
}

// One step twice in one sending is two answers to one question.
func TestAStepIsMarkedOnceInASending(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	v := opened(t, w, nan, "humidifier", mira)
	_, err := w.Office.MarkAll(t.Context(), w.Educators[0], v.ID, []office.MarkForm{{Step: 1, Mark: "unsafe"}, {Step: 1, Mark: "independent"}})
	wantRefusal(t, err, fault.Invalid, "Step 1 is there twice")
}

// Whoever is no educator any more signs no pass, and may still sign a failure.
func TestAPassIsSignedByAnEducator(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "go-bag")
	ines := w.Educator("Ines Park")
	w.Appoint(ines, w.Educators[1], "humidifier", "go-bag")
	pass := w.Demonstrate(nan, "humidifier", mira, ward.SeenBy(ines), ward.UnsignedByObserver)
	failure := w.Demonstrate(nan, "go-bag", mira, ward.SeenBy(ines), ward.Marked(1, assessment.Unsafe), ward.UnsignedByObserver)
	must(edited(t, w, w.Admin, ines.Person, office.PersonForm{Name: "Ines Park", Email: w.Email(ines), Kind: "nurse", Roles: []string{"caregiver"}}))(t)
	wantRefusal(t, sign(t, w, ines, pass.ID, office.PartObserver), fault.Refused, "no longer observe")
	wantNone(t, sign(t, w, ines, failure.ID, office.PartObserver))
}
