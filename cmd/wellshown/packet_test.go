package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
	"wellshown/reports"
)

// Whoever has a packet's data and the public key checks all of it without a database, and
// what was changed in it proves nothing.
func TestReceiptChecksAPacket(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	w.Award(nan, "go-bag", mira)
	head, err := w.Office.LedgerHead(t.Context(), w.Coordinator)
	if err != nil {
		t.Fatal(err)
	}
	text, name, err := reports.New(w.Office).Packet(t.Context(), w.Coordinator, office.PacketForm{Kind: "person", Person: nan.Person}, "json")
	if err != nil || !strings.HasPrefix(name, "packet-person-") {
		t.Fatal(name, err)
	}
	check := func(text string) (string, error) {
		file := filepath.Join(t.TempDir(), "packet.json")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		err := runReceipt([]string{"--key", head.Keys[len(head.Keys)-1], file}, &out)
		return out.String(), err
	}
	said, err := check(string(text))
	if err != nil || strings.Count(said, "Proven: demonstration ") < 1 || strings.Count(said, "Proven: signature ") < 2 || strings.Count(said, "is the one that was written") < 5 {
		t.Errorf("%v\n%s", err, said)
	}
	for what, change := range map[string][2]string{
		"the name of a signature that is told": {`"part":"learner","printed_name":"Nan Orme"`, `"part":"learner","printed_name":"Nell Orme"`},
		"the name of a signature in its row":   {`"Nan Orme","demonstration_id"`, `"Nell Orme","demonstration_id"`},
		"the outcome that is told":             {`"outcome":"competent","score"`, `"outcome":"not yet competent","score"`},
		"the kind of a leaf":                   {`"kind":"signature","record"`, `"kind":"waiver","record"`},
	} {
		forged := strings.Replace(string(text), change[0], change[1], 1)
		if what == "the name of a signature in its row" {
			forged = strings.ReplaceAll(string(text), "Nan Orme", "Nell Orme") // there and where it is told
		}
		if forged == string(text) {
			t.Errorf("%s is not there to be changed", what)
		}
		if _, err := check(forged); err == nil {
			t.Errorf("%s was changed, and all of it is proven", what)
		}
	}
}
