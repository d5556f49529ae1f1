package integration

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// TestPasskeysSignABedsideSheet: the learner and the observer sign on one device,
// each with a passkey of their own. A device that holds none of the signer's, a passkey
// of somebody else, and whoever cannot show that it is them sign nothing, and the screen
// says why (W3C Web Authentication Level 3, sections 7.2 and 14.6.2). The learner reads
// Spanish, and what her passkey signs is said to her in it.
func TestPasskeysSignABedsideSheet(t *testing.T) {
	w, task, lan := bedsideWardAt(t, "localhost")
	if err := w.Office.SetLanguage(t.Context(), lan, string(wording.Spanish)); err != nil {
		t.Fatal(err)
	}
	theirs := map[string]string{}
	for _, text := range []string{"Name", "Password", "Go on", "The passkey is added. You can sign in with it, and sign records.", "“%s”", office.MeaningLearner, "Sign with a passkey", "%s, sign with a passkey", "Sign with my passkey", "Go back without signing", "Give the device back",
		"The passkey was not used, and nothing was signed. This device may have none of %s, or could not tell that it was them. Try again, or go back and use the password.",
		"This passkey was not accepted: it is somebody else’s, or it was removed here. Nothing was done. Whoever’s turn it is uses a passkey or password of their own."} {
		var known bool
		if _, theirs[text], known = wording.Known(wording.Spanish, text); !known {
			t.Fatalf("%q is not known in Spanish", text)
		}
	}
	job := struct {
		bedsideTask
		Language     string            `json:"language"`
		Theirs       map[string]string `json:"theirs"` // what the learner reads, by its English
		LearnerEmail string            `json:"learnerEmail"`
		Observer     string            `json:"observer"`
		Meanings     map[string]string `json:"meanings"`
	}{task, string(wording.Spanish), theirs, w.Email(lan), w.Educators[0].Name, map[string]string{office.PartLearner: office.MeaningLearner, office.PartObserver: office.MeaningObserver}}
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
