package office_test

import (
	"crypto/rand"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"golang.org/x/mod/sumdb/note"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// ledgerKeys are the keys of a new key file.
func ledgerKeys(tb testing.TB, name string) *ledger.Keys {
	tb.Helper()
	file, err := ledger.KeyFile(rand.Reader, name)
	if err != nil {
		tb.Fatal(err)
	}
	keys, err := ledger.ReadKeys(file)
	if err != nil {
		tb.Fatal(err)
	}
	return keys
}

func withKeys(keys *ledger.Keys) ward.Option { return func(o *office.Options) { o.Ledger = keys } }

// another is an office over the same database with other options.
func another(w *ward.Ward, keys *ledger.Keys) *office.Office {
	return office.New(w.Postgres, office.Options{Now: w.Now, BaseURL: "https://ward.example", PasswordCost: ward.Cheap, Ledger: keys})
}

func verified(t *testing.T, o *office.Office, kept ...[]byte) office.Verified {
	t.Helper()
	return must(o.Verify(t.Context(), kept...))(t)
}

// listed is what verify found, in one text.
func listed(v office.Verified) string {
	var all []string
	for _, f := range v.Findings {
		all = append(all, f.Kind+" "+f.Subject+": "+f.Says)
	}
	return strings.Join(all, "\n")
}

// A head that an outsider kept is extended by a thousand later acts, and its
// extension can be checked with the public key alone.
func TestAKeptHeadIsExtended(t *testing.T) {
	t.Parallel()
	keys := ledgerKeys(t, "ward")
	w := ward.New(t, withKeys(keys))
	child := w.Client("7K", "Tam")
	nan := w.Nurse("Nan Orme")
	w.Join(nan, child)
	v := w.Demonstrate(nan, "humidifier", child)
	kept := must(w.Office.LedgerHead(t.Context(), w.Coordinator))(t)
	for range 1000 {
		w.Pass(time.Minute)
		wantNone(t, w.Office.Log(t.Context(), w.Educators[0], office.LogForm{Person: nan.Person, Skill: "humidifier", Client: child, Kind: assessment.PracticeEntry, On: w.Today().String()}))
	}
	must(w.Office.SealAll(t.Context()))(t)
	if found := verified(t, w.Office, []byte(kept.Signed)); found.Found != 0 || found.Leaves < kept.Size+2000 {
		t.Fatalf("%d leaves after %d: %s", found.Leaves, kept.Size, listed(found))
	}
	e := must(w.Office.Extends(t.Context(), w.Coordinator, kept.Signed))(t)
	public := must(ledger.ReadPublic(keys.Public()...))(t)
	if _, _, err := e.Extension.Check(public); !e.Extends || err != nil {
		t.Errorf("%+v, %v", e, err)
	}
	proof := must(w.Office.ProofOfDemonstration(t.Context(), nan, v.ID))(t)
	if len(proof.Entries) != 3 || proof.Waiting {
		t.Fatalf("%+v", proof)
	}
	for _, s := range proof.Entries {
		text, err := json.Marshal(s.Receipt)
		wantNone(t, err)
		var carried ledger.Receipt
		wantNone(t, json.Unmarshal(text, &carried))
		p, err := carried.Check(public)
		if err != nil || len(carried.Record) == 0 || !strings.HasPrefix(p.Leaf.Subject, string(v.ID)) || p.Leaf.Act == "" || p.Leaf.Actor == "" {
			t.Errorf("%+v, %v", p, err)
		}
		refuseForged(t, carried, public)
	}
}

// refuseForged changes each part of a receipt in turn: none of them holds then.
func refuseForged(t *testing.T, r ledger.Receipt, public note.Verifiers) {
	t.Helper()
	for what, forge := range map[string]func(*ledger.Receipt){
		"another actor": func(r *ledger.Receipt) {
			r.Leaf = []byte(strings.Replace(string(r.Leaf), `"actor":"0`, `"actor":"1`, 1))
		},
		"another place":   func(r *ledger.Receipt) { r.Position++ },
		"a bit of a path": func(r *ledger.Receipt) { r.Path[0] = append([]byte{r.Path[0][0] ^ 1}, r.Path[0][1:]...) },
		"a shorter path":  func(r *ledger.Receipt) { r.Path = r.Path[1:] },
		"another size":    func(r *ledger.Receipt) { r.Head = strings.Replace(r.Head, "\n", "\n1", 1) },
		"another record": func(r *ledger.Receipt) {
			r.Record = []byte(strings.Replace(string(r.Record), `"agency_id"`, `"agency"`, 1))
		},
		"another form": func(r *ledger.Receipt) { r.Leaf = []byte(strings.Replace(string(r.Leaf), `"v":1`, `"v":2`, 1)) },
	} {
		forged := r
		forged.Path = slices.Clone(r.Path)
		forge(&forged)
		if _, err := forged.Check(public); err == nil {
			t.Errorf("with %s it still holds", what)
		}
	}
}

// History that was rewritten by somebody who has the database and the keys too is
// whole in itself, and refused by whoever kept a head.
func TestRewrittenHistoryIsRefused(t *testing.T) {
	t.Parallel()
	keys := ledgerKeys(t, "ward")
	w := ward.New(t, withKeys(keys))
	child := w.Client("7K", "Tam")
	nan := w.Nurse("Nan Orme")
	w.Demonstrate(nan, "humidifier", child)
	kept := must(w.Office.LedgerHead(t.Context(), w.Coordinator))(t)
	owner := asOwner(t, w)
	for _, sql := range []string{
		`set session_replication_role = replica`,
		`insert into ledger_waiting (agency_id, at, actor_id, act, kind, subject, written_in, record_sha256)
			select agency_id, at + interval '1 second', actor_id, act, kind, subject, '7', record_sha256 from ledger_leaf order by position`,
		`delete from ledger_leaf`, `delete from ledger_node`, `delete from ledger_head`,
	} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
	}
	// Only whoever has the keys too can do so without every entry saying it.
	wantNone(t, pgx.BeginFunc(t.Context(), owner, func(tx pgx.Tx) error { return vouch(t.Context(), tx, keys, `'7'`) }))
	must(w.Office.SealAll(t.Context()))(t)
	if found := verified(t, w.Office); found.Found != 0 {
		t.Errorf("the new history is not whole in itself, so this proves little: %s", listed(found))
	}
	if found := verified(t, w.Office, []byte(kept.Signed)); !strings.Contains(listed(found), "history was rewritten") {
		t.Errorf("with the kept head: %s", listed(found))
	}
	if e := must(w.Office.Extends(t.Context(), w.Coordinator, kept.Signed))(t); e.Extends || !strings.Contains(e.Why, "rewritten") {
		t.Errorf("%+v", e)
	}
	for _, sql := range []string{`delete from ledger_leaf where position >= 20`, `delete from ledger_node where (place + 1) << level > 20`, `delete from ledger_head`} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
	}
	if found := verified(t, w.Office, []byte(kept.Signed)); !strings.Contains(listed(found), "history was cut off") {
		t.Errorf("cut off: %s", listed(found))
	}
}

// With another key file nothing is sealed and nothing is lost; with the right one
// it goes on.
func TestALostKeyFileSealsNothing(t *testing.T) {
	t.Parallel()
	keys := ledgerKeys(t, "ward")
	w := ward.New(t, withKeys(keys))
	must(w.Office.SealAll(t.Context()))(t)
	w.Client("7K", "Tam")
	swapped := another(w, ledgerKeys(t, "ward"))
	if n, err := swapped.SealAll(t.Context()); n != 0 || err == nil || !strings.Contains(err.Error(), "put back the key file") {
		t.Errorf("%d sealed, %v", n, err)
	}
	if _, err := swapped.LedgerHead(t.Context(), w.Coordinator); err == nil {
		t.Error("a head is shown that the keys do not know")
	}
	if found := verified(t, swapped); !strings.Contains(listed(found), "not signed by a key of the key file") {
		t.Errorf("%s", listed(found))
	}
	if _, err := another(w, nil).SealAll(t.Context()); err == nil {
		t.Error("sealed without a key")
	}
	if n := must(w.Office.SealAll(t.Context()))(t); n == 0 {
		t.Error("nothing was left to seal")
	}
	if found := verified(t, w.Office); found.Found != 0 || found.Waiting != 0 {
		t.Errorf("%s", listed(found))
	}
}

// What pages show of standings is worked out from the records and kept; kept
// otherwise, it is found.
func TestAStandingKeptOtherwiseIsFound(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	if found := must(w.Office.CompareIndex(t.Context()))(t); found.Cases == 0 || len(found.Wrong) > 0 {
		t.Fatalf("%+v", found)
	}
	owner := asOwner(t, w)
	for _, sql := range []string{
		`update standing_segment set through_on = through_on + 1 where word = 'current'`,
		`update standing_segment set word = 'current' where word = 'due'`,
		`update standing_segment set person_id = (select id from person where name = 'Cory Vance')`,
		`delete from standing_segment`,
	} {
		_, err := owner.Exec(t.Context(), sql)
		wantNone(t, err)
		if found := must(w.Office.CompareIndex(t.Context()))(t); len(found.Wrong) == 0 {
			t.Errorf("%s: nothing found", sql)
		}
		must(w.Office.Rebuild(t.Context()))(t)
	}
	if found := must(w.Office.CompareIndex(t.Context()))(t); len(found.Wrong) > 0 {
		t.Errorf("rebuilt: %+v", found)
	}
}

// Thirty-two observers' records are signed at once while the ledger is sealed: all
// of it is in the tree, nothing twice.
func TestManyWritersAtOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	const writers = 32
	signings := toSign(t, w, writers)
	done := make(chan struct{})
	var sealer, all sync.WaitGroup
	sealer.Go(func() {
		for {
			select {
			case <-done:
				return
			default:
				if _, err := w.Office.SealAll(t.Context()); err != nil {
					t.Error(err)
					return
				}
			}
		}
	})
	for _, sign := range signings {
		all.Go(func() {
			if err := sign(); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	close(done)
	sealer.Wait()
	must(w.Office.SealAll(t.Context()))(t)
	found := verified(t, w.Office)
	if found.Found != 0 || found.Waiting != 0 {
		t.Errorf("%s", listed(found))
	}
	owner := asOwner(t, w)
	var signed, entered, distinct int
	wantNone(t, owner.QueryRow(t.Context(), `
		select (select count(*) from signature), (select count(*) from ledger_leaf where kind = 'signature'),
			(select count(distinct subject) from ledger_leaf where kind = 'signature')`).Scan(&signed, &entered, &distinct))
	if signed != 2*writers || entered != signed || distinct != signed {
		t.Errorf("%d signatures, %d leaves of %d of them", signed, entered, distinct)
	}
}

// toSign are records that wait for their observer, each of a nurse of its own, with
// the learner's signature to follow.
func toSign(tb testing.TB, w *ward.Ward, n int) []func() error {
	child := w.Client("7K", "Tam")
	all := make([]func() error, n)
	for i := range all {
		nurse, by := w.Nurse(fmt.Sprintf("Nurse Number %d", i)), w.Educators[i%2]
		v := w.Demonstrate(nurse, "humidifier", child, ward.Unsigned, ward.SeenBy(by))
		all[i] = func() error {
			if err := signed(tb, w, by, v.ID, office.PartObserver); err != nil {
				return err
			}
			return signed(tb, w, nurse, v.ID, office.PartLearner)
		}
	}
	return all
}

func signed(tb testing.TB, w *ward.Ward, by assessment.Actor, id assessment.DemonstrationID, part string) error {
	_, err := w.Office.Sign(tb.Context(), by, office.SignForm{Demonstration: id, Part: part, Proof: office.Proof{Password: ward.Password}})
	return err
}

func readable(t *testing.T, w *ward.Ward) {
	t.Helper()
	_, _, err := w.Office.Skills(t.Context(), w.Coordinator)
	wantNone(t, err)
}
