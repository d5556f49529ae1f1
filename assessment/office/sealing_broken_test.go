package office_test

import (
	"crypto/rand"
	"fmt"
	"strings"
	"testing"

	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/integration/ward"
)

// A ledger that cannot be sealed keeps no other agency's waiting.
func TestOneBrokenLedgerStopsNoOther(t *testing.T) {
	t.Parallel()
	keys := ledgerKeys(t, "ward")
	first := ward.New(t, withKeys(keys))
	second := ward.Beside(t, first, withKeys(keys))
	must(first.Office.SealAll(t.Context()))(t)
	first.Client("8L", "Wim")
	second.Client("8L", "Wim")
	_, err := asOwner(t, first).Exec(t.Context(), `set session_replication_role = replica; update ledger_head set signed = 'x' where agency_id = '`+string(first.Admin.Agency)+`'`)
	wantNone(t, err)
	if _, err := first.Office.SealAll(t.Context()); err == nil {
		t.Error("a head that nobody signed is built upon")
	}
	var waits int
	wantNone(t, asOwner(t, first).QueryRow(t.Context(), `select count(*) from ledger_waiting where agency_id = $1`, second.Admin.Agency).Scan(&waits))
	if waits != 0 {
		t.Errorf("%d entries of the other agency still wait", waits)
	}
}

// A row that never changes and was written anew is named while its entry waits too.
func TestAWaitingEntryHidesNothing(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	v := w.Demonstrate(w.Nurse("Nan Orme"), "humidifier", w.Client("8L", "Wim"))
	must(w.Office.SealAll(t.Context()))(t)
	owner := asOwner(t, w)
	for _, sql := range []string{`alter table signature disable trigger signature_is_append_only`, `select set_config('app.act', 'sign a record', false)`, `update signature set printed_name = 'Una Moe'`} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
	}
	if found := verified(t, w.Office); found.Waiting == 0 || !strings.Contains(listed(found), "signature "+string(v.ID)) {
		t.Errorf("%d wait: %s", found.Waiting, listed(found))
	}
}

// Where a part of the tree is gone nothing is handed out as a proof, and nobody is
// accused of having rewritten anything.
func TestWithoutItsNodesNothingIsProven(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	kept := must(w.Office.LedgerHead(t.Context(), w.Coordinator))(t)
	v := w.Demonstrate(w.Nurse("Nan Orme"), "humidifier", w.Client("8L", "Wim"))
	must(w.Office.SealAll(t.Context()))(t)
	must(w.Office.ProofOfDemonstration(t.Context(), w.Coordinator, v.ID))(t)
	_, err := asOwner(t, w).Exec(t.Context(), `set session_replication_role = replica; delete from ledger_node`)
	wantNone(t, err)
	_, err = w.Office.ProofOfDemonstration(t.Context(), w.Coordinator, v.ID)
	wantRefusal(t, err, fault.Refused, "Parts of the ledger are gone")
	if x := must(w.Office.Extends(t.Context(), w.Coordinator, kept.Signed))(t); x.Extends || !strings.Contains(x.Why, "Parts of the ledger are gone") {
		t.Errorf("%+v", x)
	}
}

// A key that was replaced signs no later head unseen.
func TestAReplacedKeySignsNoLaterHead(t *testing.T) {
	t.Parallel()
	old := must(ledger.NewKey(rand.Reader, "old"))(t)
	before := must(ledger.ReadKeys(old))(t)
	both := must(ledger.ReadKeys(old + must(ledger.NewKey(rand.Reader, "new"))(t)))(t)
	w := ward.New(t, withKeys(before))
	must(w.Office.SealAll(t.Context()))(t)
	w.Client("8L", "Wim")
	rotated := another(w, both)
	must(rotated.SealAll(t.Context()))(t)
	if found := verified(t, rotated); found.Found != 0 {
		t.Fatalf("%s", listed(found))
	}
	w.Client("8M", "Ada")
	must(rotated.SealAll(t.Context()))(t)
	// Whoever still has the old key, and the database, signs the newest head with it.
	owner := asOwner(t, w)
	var text string
	wantNone(t, owner.QueryRow(t.Context(), `select signed from ledger_head order by size desc limit 1`).Scan(&text))
	head := must(ledger.OpenHead([]byte(text), both.Verifiers()))(t)
	forged := must(head.Sign(before.Signer()))(t)
	for _, sql := range []string{`set session_replication_role = replica`, `update ledger_head set signed = '` + string(forged) + `' where size = ` + fmt.Sprint(head.Size)} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
	}
	if found := verified(t, rotated); !strings.Contains(listed(found), "a key that had been replaced") {
		t.Errorf("%s", listed(found))
	}
	if both.Rank(forged) != 0 || both.Rank([]byte(text)) != 1 || both.Rank([]byte("x")) != -1 {
		t.Error("the keys are not told apart")
	}
}
