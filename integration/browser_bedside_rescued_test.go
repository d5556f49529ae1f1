package integration

import (
	"testing"

	"wellshown/assessment"
)

// TestAnOlderCopyIsLookedOver: a browser loses its database after the second copy of a
// sheet had fallen behind, and what comes back has no unsafe mark any more. It cannot be
// finished as the pass that it would be, nor thrown away, before whoever observed has
// looked at each mark; the record is then what was seen (the stricter reading, no source).
func TestAnOlderCopyIsLookedOver(t *testing.T) {
	w, task, lan := bedsideWardAt(t, "127.0.0.1")
	children, err := w.Office.Clients(t.Context(), w.Coordinator, "")
	if err != nil {
		t.Fatal(err)
	}
	task.Steps = goodSteps(t, w, lan, children[0].ID)
	var came struct{ ID string }
	browserTools(t).Play(t, "bedside-rescued.mjs", task, &came)
	record, err := w.Office.Demonstration(t.Context(), w.Educators[0], assessment.DemonstrationID(came.ID))
	if err != nil {
		t.Fatal(err)
	}
	if record.Outcome != assessment.NotYetCompetent {
		t.Errorf("the record is %s", record.Outcome)
	}
	if record.Bedside == nil || record.Bedside.LookedOver.IsZero() {
		t.Errorf("the record does not say that it came back: %+v", record.Bedside)
	}
}
