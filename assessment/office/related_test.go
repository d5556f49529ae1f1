package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Withdrawn with related skills is withdrawn also where a related pass waits for
// its signature, for a card, or is just being shown.
func TestRelatedSkillsThatAreOnHold(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test", "cpr-trach")
	edda := w.Educators[0]
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "cpr-trach", mira) // no card on file
	waiting := w.Demonstrate(nan, "circuit-test", mira, ward.UnsignedByLearner)
	w.Pass(time.Hour)
	wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "humidifier", mira), assessment.Reinstated, true))
	w.Sign(nan, waiting.ID, office.PartLearner)
	if s := word(t, w, nan, "circuit-test", mira); s != assessment.Withdrawn {
		t.Errorf("shown before and signed after: %s", s)
	}
	wantNone(t, w.Office.Withdraw(t.Context(), edda, about(nan, "bagging", ""), assessment.Reinstated, true))
	w.Card(nan)
	if s := word(t, w, nan, "cpr-trach", ""); s != assessment.Withdrawn {
		t.Errorf("a card came after: %s", s)
	}
	indexIsRight(t, w)
}

func TestARelatedSkillThatIsBeingShown(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	v := opened(t, w, nan, "circuit-test", mira)
	w.Pass(time.Minute)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, true))
	markAll(t, w, v)
	must(w.Office.Record(t.Context(), w.Educators[0], v.ID))(t)
	w.Sign(w.Educators[0], v.ID, office.PartObserver)
	w.Sign(nan, v.ID, office.PartLearner)
	if s := word(t, w, nan, "circuit-test", mira); s != assessment.Withdrawn {
		t.Errorf("begun before the withdrawal: %s", s)
	}
}

// Sending the same again is harmless; sending more under the same id is refused.
func TestAReplayThatAsksForMore(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier", "bagging", "circuit-test")
	edda := w.Educators[0]
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	w.Demonstrate(nan, "circuit-test", mira)
	w.Pass(time.Hour)
	f := about(nan, "humidifier", mira)
	f.ID = "0197a1d0-0000-7000-8000-0000000000e1"
	wantNone(t, w.Office.Withdraw(t.Context(), edda, f, assessment.Redemonstrated, false))
	wantNone(t, w.Office.Withdraw(t.Context(), edda, f, assessment.Redemonstrated, false))
	wantRefusal(t, w.Office.Withdraw(t.Context(), edda, f, assessment.Redemonstrated, true), fault.Conflict, "another record")
	wantRefusal(t, w.Office.Withdraw(t.Context(), edda, f, assessment.Reinstated, false), fault.Conflict, "another record")
	if s := word(t, w, nan, "circuit-test", mira); !s.Holds() {
		t.Errorf("not asked for: %s", s)
	}
	g := about(nan, "circuit-test", mira)
	g.ID = "0197a1d0-0000-7000-8000-0000000000e2"
	wantNone(t, w.Office.Waive(t.Context(), edda, g, "2026-03-01", "2026-03-05"))
	wantNone(t, w.Office.Waive(t.Context(), edda, g, "2026-03-01", "2026-03-05"))
	wantRefusal(t, w.Office.Waive(t.Context(), edda, g, "2026-03-01", "2026-03-09"), fault.Conflict, "another record")
}
