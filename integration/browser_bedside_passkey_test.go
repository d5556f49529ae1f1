package integration

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// TestPasskeysSignABedsideSheet: the learner and the observer sign on one device,
// each with a passkey of their own. A device that holds none of the signer's, a passkey
// of somebody else, and whoever cannot show that it is them sign nothing, and the screen
// says why (W3C Web Authentication Level 3, sections 7.2 and 14.6.2).
func TestPasskeysSignABedsideSheet(t *testing.T) {
	w, task, lan := bedsideWardAt(t, "localhost")
	job := struct {
		bedsideTask
		LearnerEmail string            `json:"learnerEmail"`
		Observer     string            `json:"observer"`
		Meanings     map[string]string `json:"meanings"`
	}{task, w.Email(lan), w.Educators[0].Name, map[string]string{office.PartLearner: office.MeaningLearner, office.PartObserver: office.MeaningObserver}}
	var came struct{ Sheets []bedsideSheet }
	browserTools(t).Play(t, "bedside-passkey.mjs", job, &came)
	if len(came.Sheets) != 1 || came.Sheets[0].State != "sent" {
		t.Fatalf("kept %+v", came.Sheets)
	}
	record, err := w.Office.Demonstration(t.Context(), w.Educators[0], assessment.DemonstrationID(came.Sheets[0].ID))
	if err != nil {
		t.Fatal(err)
	}
	for part, who := range map[string]assessment.Actor{office.PartLearner: lan, office.PartObserver: w.Educators[0]} {
		if s := record.SignedBy(part); s == nil || s.PrintedName != who.Name {
			t.Errorf("as %s signed %+v", part, s)
		}
		kept, err := w.Office.Passkeys(t.Context(), who)
		if err != nil || len(kept) != 1 || kept[0].UsedAt == nil || kept[0].Doubted != nil {
			t.Errorf("the %s has %+v (%v)", part, kept, err)
		}
	}
}
