package office_test

import (
	"encoding/json"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

type export struct {
	Held map[string]struct {
		Says    string
		Entries []map[string]any
	}
}

func exportOf(t *testing.T, w *ward.Ward, who assessment.Actor) (export, string) {
	t.Helper()
	text, err := w.Office.Export(t.Context(), who)
	if err != nil {
		t.Fatal(err)
	}
	var e export
	if err := json.Unmarshal(text, &e); err != nil {
		t.Fatal(err)
	}
	return e, string(text)
}

// What is about a person is in their download with all its words; what they did to
// others is there without the words; and what is about others is not.
func TestDownloadOfWhatIsHeld(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, tam := w.Client("7K", "Mira"), w.Client("8Q", "Tam")
	lan, ole := w.Family("Lan Tran", mira), w.Family("Ole Brandt", tam)
	w.Award(lan, "go-bag", mira)
	w.Award(ole, "go-bag", tam)
	withdraw := func(who assessment.Actor, child assessment.ClientID, reason string) {
		err := w.Office.Withdraw(t.Context(), w.Educators[0], office.ExceptionForm{Person: who.Person, Skill: "go-bag", Client: child, Reason: reason, Proof: ward.Proof}, assessment.Reinstated, false)
		if err != nil {
			t.Fatal(err)
		}
	}
	withdraw(lan, mira, "Lan left the bag open.")
	withdraw(ole, tam, "Ole lost the spare tube.")

	e, text := exportOf(t, w, lan)
	for _, part := range []string{"person", "roles", "password", "links", "teams", "demonstrations", "signatures", "withdrawals", "standings", "journal"} {
		if len(e.Held[part].Entries) == 0 || e.Held[part].Says == "" {
			t.Errorf("the download has no %s", part)
		}
	}
	if !strings.Contains(text, "Lan left the bag open.") || strings.Contains(text, "Ole") || strings.Contains(text, string(ole.Person)) {
		t.Error("the download lacks what is about them, or has what is about another")
	}
	if strings.Contains(text, "argon2id") || strings.Contains(text, ward.Password) {
		t.Error("the download has a secret")
	}
	if body, _ := e.Held["demonstrations"].Entries[0]["body"].(string); !strings.Contains(body, "Lan Tran") {
		t.Errorf("a record is without its text: %q", body)
	}
	seen, text := exportOf(t, w, w.Educators[0])
	if len(seen.Held["withdrawals_signed"].Entries) != 2 || len(seen.Held["demonstrations_seen"].Entries) < 2 {
		t.Errorf("what the educator did: %v", seen.Held["withdrawals_signed"])
	}
	if strings.Contains(text, "lost the spare tube") || strings.Contains(text, "Ole Brandt") {
		t.Error("the educator's download has words about others")
	}
	again, _ := exportOf(t, w, lan)
	noted := 0
	for _, l := range again.Held["journal"].Entries {
		if l["kind"] == "export made" {
			noted++
		}
	}
	if noted != 1 {
		t.Errorf("the first download is noted %d times", noted)
	}
}
