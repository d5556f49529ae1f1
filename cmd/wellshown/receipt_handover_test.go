package main

import (
	"bytes"
	"crypto/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wellshown/assessment/handover"
	"wellshown/assessment/ledger"
)

// A file that somebody brings is checked without a database, by a public key alone. What is
// said of one that was changed is ours: common practice, no source.
func TestTheReceiptOfAHandover(t *testing.T) {
	text, err := ledger.KeyFile(rand.Reader, "house")
	need(t, err)
	keys, err := ledger.ReadKeys(text)
	need(t, err)
	tree := ledger.NewTree()
	_, err = tree.Append(ledger.LeafHash([]byte("{}")))
	need(t, err)
	root, err := tree.Root()
	need(t, err)
	const agency = "01963f7a-0000-7000-8000-0000000000aa"
	head, err := ledger.Head{Agency: agency, Size: 1, Root: root, At: time.Date(2026, 2, 1, 9, 0, 0, 0, time.UTC)}.Sign(keys.Signer())
	need(t, err)
	file, err := handover.Write(handover.Body{About: handover.About{Agency: handover.Named{ID: agency, Name: "Elm Nursing"}, Person: handover.Named{ID: agency, Name: "Rosa Lima"}, Day: "2026-02-01", MadeAt: "2026-02-01T09:00:00.000000Z"},
		Held: []handover.Held{{Skill: "bagging", Title: "Bagging", Child: 1, How: handover.HadLapsed}}, Head: string(head)}, keys)
	need(t, err)
	other, err := ledger.KeyFile(rand.Reader, "house")
	need(t, err)
	stranger, err := ledger.ReadKeys(other)
	need(t, err)
	for _, c := range []struct {
		what string
		file []byte
		key  string
		says string
		bad  string
	}{
		{"as it was", file, keys.Public()[0], "Unchanged, and signed by this key.", ""},
		{"by another key", file, stranger.Public()[0], "", "by another key than was given"},
		{"changed", bytes.Replace(file, []byte("Rosa"), []byte("Rose"), 1), keys.Public()[0], "Changed: who it is about", "this file was changed"},
		{"cut off", file[:len(file)-9], keys.Public()[0], "cut off", "this file was changed"},
		{"longer", append(bytes.Clone(file), '\n'), keys.Public()[0], "From byte", "this file was changed"},
	} {
		name := filepath.Join(t.TempDir(), "handover.json")
		need(t, os.WriteFile(name, c.file, 0o600))
		var out strings.Builder
		err := runReceipt([]string{"--key", c.key, name}, &out)
		if (err == nil) != (c.bad == "") || err != nil && !strings.Contains(err.Error(), c.bad) || !strings.Contains(out.String(), c.says) {
			t.Errorf("%s: %v, %s", c.what, err, out.String())
		}
		if c.bad != "" && strings.Contains(out.String(), "Rosa Lima") {
			t.Errorf("%s: it tells what the file says: %s", c.what, out.String())
		}
		if strings.Contains(strings.ReplaceAll(out.String(), handover.Note, ""), "current") {
			t.Errorf("%s: it says that somebody is current: %s", c.what, out.String())
		}
	}
}

// What did not count is not told as if it had, and what counts by the observer's signature alone is (the rules of the
// fold: a negative needs one signature, a positive both).
func TestWhatDidNotCountIsToldSo(t *testing.T) {
	shown := handover.Entry{Kind: handover.Demonstration, Outcome: "competent", Setting: handover.WithTheChild, Formal: true, Signed: make([]handover.Signed, 2)}
	practised, unsigned := shown, shown
	practised.Formal, practised.Setting = false, handover.InSimulation
	unsigned.Signed = []handover.Signed{{Part: "observer"}}
	against := unsigned
	against.Outcome = "not yet competent"
	for says, e := range map[string]handover.Entry{
		" (competent, with the child)":                                                        shown,
		" (competent, in simulation; practice, which did not count)":                          practised,
		" (competent, with the child; not signed by both, so it did not count)":               unsigned,
		" (not yet competent, with the child; signed by the observer alone, which is enough)": against,
		"": {Kind: handover.Withdrawal, Until: "reinstated"},
	} {
		if got := outcomeText(e); got != says {
			t.Errorf("%q, want %q", got, says)
		}
	}
}
