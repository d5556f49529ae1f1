package office_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/handover"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// handed is the file of somebody who holds bagging and the humidifier of one child, had one
// record taken back and a waiver.
func handed(t *testing.T, w *ward.Ward, mira assessment.ClientID, nan assessment.Actor) []byte {
	t.Helper()
	w.Demonstrate(nan, "bagging", mira, ward.Missing(1))
	wrong := w.Demonstrate(nan, "bagging", mira)
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], wrong.ID, "Mira was asleep: it was another child.", ward.Proof))
	w.Pass(time.Hour)
	w.Demonstrate(nan, "bagging", mira)
	w.Demonstrate(nan, "humidifier", mira)
	made := must(w.Office.Handover(t.Context(), nan, nan.Person))(t)
	if again := must(w.Office.Handover(t.Context(), w.Coordinator, nan.Person))(t); !bytes.Equal(made.File, again.File) {
		t.Error("asked for by the agency it says something else")
	}
	return made.File
}

// A file says all that was written down, and names no child; in its own house each entry is
// looked up. What is checked is ours to say: common practice, no source.
func TestAProofOfOnesOwn(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging", "humidifier")
	file := handed(t, w, mira, nan)
	for _, secret := range []string{"Mira", "7K", string(mira), "asleep"} {
		if bytes.Contains(file, []byte(secret)) {
			t.Errorf("the file says %q", secret)
		}
	}
	if strings.Contains(strings.ReplaceAll(strings.ToLower(string(file)), strings.ToLower(handover.Note), ""), "current") {
		t.Error("the file says that somebody is current")
	}
	v := must(w.Office.CheckHandover(t.Context(), file))(t)
	b := v.Opened.Handover
	if len(v.Changed) > 0 || !v.Here || v.Known() || len(b.Entries) != 4 || len(v.Since) != 4 || v.Gone || v.Erased || len(v.Later) > 0 {
		t.Fatalf("%+v", v)
	}
	for i, s := range v.Since {
		if !s.There || !s.TakenOn.IsZero() {
			t.Errorf("entry %d: %+v", i+1, s)
		}
	}
	if b.Entries[0].Outcome == "competent" || b.Entries[1].Taken == nil || b.Entries[2].Taken != nil || b.Entries[3].Child != 1 || len(b.Held) != 2 || b.Held[0].How != handover.WasHeld {
		t.Errorf("%+v", b)
	}
	if o := b.Entries[2]; o.By.Name != w.Educators[0].Name || o.By.Licence == "" || len(o.Signed) != 2 || o.Checklist.SHA256 == "" {
		t.Errorf("%+v", o)
	}

	w.Pass(24 * time.Hour)
	wantNone(t, w.Office.CorrectDemonstration(t.Context(), w.Educators[1], assessment.DemonstrationID(b.Entries[2].ID), "It was not her.", ward.Proof))
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Reinstated, false))
	v = must(w.Office.CheckHandover(t.Context(), file))(t)
	if !v.Since[0].TakenOn.IsZero() || v.Since[2].TakenOn != w.Today() || len(v.Later) != 1 || v.Later[0] != w.Today() {
		t.Errorf("after it was taken back and withdrawn: %+v %v", v.Since, v.Later)
	}
	newer := must(w.Office.CheckHandover(t.Context(), must(w.Office.Handover(t.Context(), nan, nan.Person))(t).File))(t)
	if n := newer.Opened.Handover; len(n.Entries) != 5 || n.Entries[4].Kind != handover.Withdrawal || n.Held[len(n.Held)-1].How != handover.WasWithdrawn {
		t.Errorf("the newer file: %+v", n)
	}
	failsAfterTheFile(t, w, mira, nan)

	wantRefusal(t, drop(w.Office.Handover(t.Context(), w.Nurse("Ola Reed"), nan.Person)), fault.NotFound, "")
	wantRefusal(t, drop(w.Office.Handover(t.Context(), w.Surveyor("Sil Vey"), nan.Person)), fault.Forbidden, "")
	keyless := office.New(w.Postgres, office.Options{Now: w.Now})
	wantRefusal(t, drop(keyless.Handover(t.Context(), nan, nan.Person)), fault.Refused, "keys of the ledger")
	if v := must(keyless.CheckHandover(t.Context(), file))(t); v.Here || len(v.Changed) > 0 {
		t.Errorf("a house without keys says %+v", v)
	}
	for i := 0; i < len(file); i += 97 {
		forged := bytes.Clone(file)
		forged[i] ^= 1 << (i % 8)
		if v := must(w.Office.CheckHandover(t.Context(), forged))(t); len(v.Changed) == 0 || v.Opened.Key != "" || v.Here || v.Since != nil {
			t.Fatalf("byte %d: %+v", i, v)
		}
	}
}

// failsAfterTheFile: a failure ends what is held with the observer's signature alone (rule of
// standing), so a file of before it must not be told as if nothing had come since.
func failsAfterTheFile(t *testing.T, w *ward.Ward, mira assessment.ClientID, nan assessment.Actor) {
	t.Helper()
	w.Pass(time.Hour)
	w.Demonstrate(nan, "bagging", mira)
	file := must(w.Office.Handover(t.Context(), nan, nan.Person))(t).File
	before := len(must(w.Office.CheckHandover(t.Context(), file))(t).Later)
	w.Pass(24 * time.Hour)
	w.Demonstrate(nan, "bagging", mira, ward.Missing(1))
	if s := w.Standing(nan, "bagging", "", w.Today()); s.Word.Holds() {
		t.Fatalf("it is held all the same: %s: this shows nothing", s.Word)
	}
	if v := must(w.Office.CheckHandover(t.Context(), file))(t); before != 0 || len(v.Later) != 1 || v.Later[0] != w.Today() {
		t.Errorf("failed after the file was made: %d before, then %v", before, v.Later)
	}
}

// Another house, with its own database and keys, knows a key only once two people have
// entered it; what a file says is carried in once and makes nobody current.
func TestAProofInAnotherHouse(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "bagging", "humidifier")
	file := handed(t, w, mira, nan)
	there := ward.Elsewhere(t)
	there.Day("2026-02-03")
	child, arrived := there.Client("9Q", "Ana"), there.Nurse("Nan Orme")
	educator := there.Educators[0]
	take := func(client assessment.ClientID) (office.TakenIn, error) {
		return there.Office.TakeInHandover(t.Context(), educator, office.TakeInForm{Person: arrived.Person, Client: client, Same: true, File: file})
	}
	v := must(there.Office.CheckHandover(t.Context(), file))(t)
	if len(v.Changed) > 0 || v.Here || len(v.KnownBy) > 0 {
		t.Fatalf("before anybody has entered it: %+v", v)
	}
	wantAtField(t, drop(take("")), "page", v.Fingerprint)

	theirs := must(w.Office.Neighbours(t.Context(), w.Admin))(t)
	enter := office.NeighbourForm{Name: "Ward Nursing", Line: " " + theirs.Line + "\n"}
	wantRefusal(t, there.Office.EnterNeighbour(t.Context(), educator, enter), fault.Forbidden, "")
	for line, says := range map[string]string{"": "Paste the whole line", strings.Fields(theirs.Line)[0] + " x": "id at the end", theirs.Line[1:]: "key in this line",
		must(there.Office.Neighbours(t.Context(), there.Admin))(t).Line: "your own agency"} {
		wantAtField(t, there.Office.EnterNeighbour(t.Context(), there.Admin, office.NeighbourForm{Name: "x", Line: line}), "line", says)
	}
	wantNone(t, there.Office.EnterNeighbour(t.Context(), there.Admin, enter))
	wantAtField(t, there.Office.EnterNeighbour(t.Context(), there.Admin, enter), "line", "already")
	n := must(there.Office.Neighbours(t.Context(), educator))(t).All[0]
	if n.Known || n.Fingerprint != theirs.Fingerprint || n.Fingerprint != v.Fingerprint {
		t.Errorf("%+v, want the fingerprint %s", n, theirs.Fingerprint)
	}
	wantAtField(t, drop(take("")), "page", "not known here")
	wantRefusal(t, there.Office.AgreeNeighbour(t.Context(), there.Admin, n.ID, true), fault.Refused, "somebody else agrees")
	wantAtField(t, there.Office.AgreeNeighbour(t.Context(), educator, n.ID, false), "compared", "by telephone")
	wantNone(t, there.Office.AgreeNeighbour(t.Context(), educator, n.ID, true))
	wantRefusal(t, there.Office.AgreeNeighbour(t.Context(), there.Educators[1], n.ID, true), fault.Conflict, "already")
	if v = must(there.Office.CheckHandover(t.Context(), file))(t); !v.Known() || v.KnownBy[0].As != "Ward Nursing" || v.Here {
		t.Errorf("once two have entered it: %+v", v.KnownBy)
	}

	unsaid := office.TakeInForm{Person: arrived.Person, File: file}
	wantAtField(t, drop(there.Office.TakeInHandover(t.Context(), educator, unsaid)), "same", "Nan Orme")
	wantRefusal(t, drop(there.Office.TakeInHandover(t.Context(), there.Admin, unsaid)), fault.Forbidden, "")
	ola := there.Nurse("Ola Reed")
	other := office.TakeInForm{Person: ola.Person, Same: true, File: file}
	wantAtField(t, drop(there.Office.TakeInHandover(t.Context(), educator, other)), "named", "Nan Orme")
	other.Named = "Nan Orne"
	wantAtField(t, drop(there.Office.TakeInHandover(t.Context(), educator, other)), "named", "Ola Reed")
	if done := must(take(""))(t); done.New != 1 || done.There != 0 || len(done.Left) != 1 || done.From != "Ward Nursing" {
		t.Errorf("without a child: %+v", done)
	}
	if done := must(take(child))(t); done.New != 1 || done.There != 1 || len(done.Left) != 0 {
		t.Errorf("with the child: %+v", done)
	}
	if done := must(take(child))(t); done.New != 0 || done.There != 2 {
		t.Errorf("once more: %+v", done)
	}
	kept := must(there.Office.CarriedIn(t.Context(), educator, arrived.Person))(t)
	if len(kept.Lines) != 2 || len(kept.Papers) != 1 || kept.Papers[0].MediaType != office.SignedFile || kept.Lines[0].Place != "Ward Nursing" || kept.Lines[0].ThroughOn.IsZero() {
		t.Errorf("%+v", kept)
	}
	paper := must(there.Office.CarriedPaper(t.Context(), educator, arrived.Person, kept.Papers[0].ID))(t)
	if !bytes.Equal(paper.Content, file) {
		t.Error("the file is not kept to the byte")
	}
	for skill, client := range map[string]assessment.ClientID{"bagging": "", "humidifier": child} {
		if s := there.Standing(arrived, skill, client, there.Today()); s.Word != assessment.NotStarted {
			t.Errorf("%s: %s", skill, s.Word)
		}
	}

	wantAtField(t, there.Office.EndNeighbour(t.Context(), educator, n.ID, " "), "reason", "Say why")
	wantNone(t, there.Office.EndNeighbour(t.Context(), educator, n.ID, "Their key was lost."))
	wantRefusal(t, there.Office.EndNeighbour(t.Context(), educator, n.ID, "Again."), fault.Conflict, "ended it already")
	if v = must(there.Office.CheckHandover(t.Context(), file))(t); v.Known() || v.KnownBy[0].Ended != there.Today() {
		t.Errorf("after it was ended: %+v", v.KnownBy)
	}
	wantAtField(t, drop(take("")), "page", "Their key was lost.")
	if keys := must(ledger.ReadKeys(w.LedgerKeys))(t); keys.Public()[0] != strings.Fields(theirs.Line)[0] {
		t.Error("the line does not hold the key of the house")
	}
}
