package ward_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

func TestShowingASkillGivesWhatWasAskedFor(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada")
	for _, c := range []struct {
		name string
		ways []ward.Way
		want assessment.Outcome
	}{
		{"every step independent", []ward.Way{ward.Competent}, assessment.Competent},
		{"a critical step missed", []ward.Way{ward.Missing(1)}, assessment.NotYetCompetent},
		{"stopped", []ward.Way{ward.Stopped}, assessment.StoppedForSafety},
	} {
		v := w.Demonstrate(ada, "bagging", mira, c.ways...)
		if v.Outcome != c.want {
			t.Errorf("%s: the outcome is %s, want %s (%v)", c.name, v.Outcome, c.want, v.Result.Reasons)
		}
		if v.SignedBy(office.PartObserver) == nil || v.SignedBy(office.PartLearner) == nil {
			t.Errorf("%s: a signature is missing", c.name)
		}
	}
	v := w.Demonstrate(ada, "bagging", mira, ward.Unsigned, ward.Practice, ward.SeenBy(w.Educators[1]))
	if len(v.Signatures) != 0 || v.Formal || v.ObserverID != w.Educators[1].Person {
		t.Errorf("an unsigned practice seen by the second educator: %d signatures, formal %v, seen by %s", len(v.Signatures), v.Formal, v.Observer)
	}
}

// Every starter checklist can be shown from the first step to a competency, with
// the values that a ward orders; so the catalogue, the ordered values and the
// rules of the office fit together.
func TestEveryStarterSkillCanBeAwarded(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada")
	w.Card(ada)
	for _, code := range catalog.Codes() {
		w.Award(ada, code, mira)
		if s := w.Standing(ada, code, mira, civil.Date{}); s.Word != assessment.Current {
			t.Errorf("%s: %s, want current", code, s.Word)
		}
	}
}

func TestTheClockIsTheTests(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	w.Day("2026-03-01")
	if got := w.Now().In(w.Zone).Format(time.DateTime); got != "2026-03-01 10:00:00" {
		t.Errorf("the clock shows %s", got)
	}
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan", mira)
	v := w.Demonstrate(lan, "humidifier", mira)
	if got := civil.DayOf(v.PerformedAt, w.Zone); got != civil.MustParse("2026-03-01") {
		t.Errorf("shown on %s", got)
	}
	if s := w.Standing(lan, "humidifier", mira, civil.Date{}); s.Word != assessment.Learning {
		t.Errorf("after one of three demonstrations: %s, want learning", s.Word)
	}
}

func BenchmarkDemonstration(b *testing.B) {
	w := ward.New(b)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada")
	for b.Loop() {
		w.Demonstrate(ada, "bagging", mira)
	}
}
