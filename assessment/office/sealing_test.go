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

	"golang.org/x/mod/sumdb/note"

	"wellshown/assessment"
	"wellshown/assessment/fault"
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
	all := ledger.Written{Agency: string(w.Admin.Agency), In: "7"}
	wantNone(t, owner.QueryRow(t.Context(), `select sha256(convert_to(string_agg(row(number, at, actor_id, act, kind, subject, record_sha256)::text, E'\n' order by number), 'UTF8'))
		from ledger_waiting where written_in = '7'`).Scan(&all.Digest))
	_, err := owner.Exec(t.Context(), `insert into ledger_vouching (agency_id, written_in, tag) values ($1, '7', $2)`, w.Admin.Agency, keys.Vouch(all))
	wantNone(t, err)
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

// A clock that is set back would let a day come twice: nothing is shown or
// recorded until it is right.
func TestAClockSetBackIsRefused(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	must(w.Office.SealAll(t.Context()))(t)
	sealed, email := w.Now(), w.Email(w.Coordinator)
	w.Pass(-30 * time.Second) // a machine that sets its clock right
	readable(t, w)
	w.At(sealed.Add(-24 * time.Hour))
	_, _, err := w.Office.Skills(t.Context(), w.Coordinator)
	wantRefusal(t, err, fault.Busy, "clock")
	_, err = w.Office.AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "8L", FirstName: "Wim"})
	wantRefusal(t, err, fault.Busy, "clock")
	_, _, err = w.Office.SignIn(t.Context(), office.SignInForm{Email: email, Password: ward.Password})
	wantRefusal(t, err, fault.Busy, "clock")
	w.At(sealed.Add(time.Hour))
	readable(t, w)
}

// A clock that ran ahead and was set right would shut everything until the time that
// it showed. Whoever runs the server can go on, once and only then; it is told for
// ever, and a clock that is set back without a word is still found.
func TestAClockThatRanAheadIsSetRight(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	ctx := t.Context()
	must(w.Office.SealAll(ctx))(t)
	_, err := w.Office.SetClockRight(ctx)
	wantRefusal(t, err, fault.Refused, "nothing to set right")
	right := w.Now()
	w.Pass(365 * 24 * time.Hour)
	w.Client("8L", "Wim")
	must(w.Office.SealAll(ctx))(t)
	w.At(right.Add(time.Hour))
	_, err = w.Office.AddClient(ctx, w.Coordinator, office.ClientForm{Code: "8M", FirstName: "Ada"})
	wantRefusal(t, err, fault.Busy, "clock")
	if codes := must(w.Office.SetClockRight(ctx))(t); !slices.Equal(codes, []string{ward.Code}) {
		t.Errorf("set right for %v", codes)
	}
	w.Client("8M", "Ada")
	must(w.Office.SealAll(ctx))(t)
	v := must(w.Office.Verify(ctx))(t)
	if v.Found != 0 || len(v.ClocksSetRight) != 1 || !v.ClocksSetRight[0].Ahead.Equal(right.Add(365*24*time.Hour).Truncate(time.Second)) || !v.ClocksSetRight[0].Back.Equal(right.Add(time.Hour).Truncate(time.Second)) {
		t.Errorf("%+v", v)
	}
	_, err = w.Office.SetClockRight(ctx)
	wantRefusal(t, err, fault.Refused, "nothing to set right")
	w.At(right.Add(-24 * time.Hour))
	_, _, err = w.Office.Skills(ctx, w.Coordinator)
	wantRefusal(t, err, fault.Busy, "clock")
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

// A ledger that cannot be sealed keeps no other agency's waiting.
func TestOneBrokenLedgerStopsNoOther(t *testing.T) {
	t.Parallel()
	keys := ledgerKeys(t, "ward")
	first := ward.New(t, withKeys(keys))
	second := ward.Beside(t, first, withKeys(keys))
	must(first.Office.SealAll(t.Context()))(t)
	for _, w := range []*ward.Ward{first, second} {
		w.Client("8L", "Wim")
		_, err := asOwner(t, first).Exec(t.Context(), `set session_replication_role = replica; update ledger_head set signed = 'x' where agency_id = '`+string(first.Admin.Agency)+`'`)
		wantNone(t, err)
	}
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
