package office_test

import (
	"testing"
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever goes back and mends the day or time of a paper under the same id is told that
// the first one stands, and is not given the other day in silence: the day decides what
// counts (ours, no source).
func TestAnotherDayOfAPaperIsNotTakenInSilence(t *testing.T) {
	t.Parallel()
	b := atBedside(t, "humidifier")
	b.Pass(72 * time.Hour)
	form := office.OpenForm{ID: ward.NewID(b.Now()), Learner: b.nurse.Person, Skill: "humidifier", Client: b.child, Place: "at home", Formal: true,
		FromPaper: true, PaperRevision: 2, PerformedAt: b.Now().Add(-48 * time.Hour)}
	first := must(b.Office.Open(t.Context(), b.Educators[0], form))(t)
	if again := must(b.Office.Open(t.Context(), b.Educators[0], form))(t); again.ID != first.ID {
		t.Error("the same form, sent twice, opened two")
	}
	form.PerformedAt = b.Now().Add(-time.Hour)
	_, err := b.Office.Open(t.Context(), b.Educators[0], form)
	wantRefusal(t, err, fault.Conflict, "begun already, as shown on 2 February 2026")
}
