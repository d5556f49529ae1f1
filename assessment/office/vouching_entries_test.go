package office_test

import (
	"context"
	"crypto/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// Whoever has the database, as its owner or as the service, and not the keys, writes
// nothing that passes for the program's: neither with the settings that it makes, nor
// with a transaction number or a tag of its own, before or after it is sealed.
func TestWhatTheProgramDidNotWriteIsNamed(t *testing.T) {
	t.Parallel()
	as := `select set_config('app.actor', (select id::text from person where name = 'Edda Lorne'), true), set_config('app.act', 'edit people', true), set_config('app.at', now()::text, true);`
	for name, c := range map[string]struct{ sql, names string }{
		"an update with the program's settings":   {as + `update person set name = 'Una Moe' where name = 'Nan Orme'`, "person "},
		"a row of a journal":                      {as + `insert into journal (agency_id, id, at, actor_id, act, kind, subject) select agency_id, gen_random_uuid(), now(), actor_id, act, kind, subject from journal limit 1`, "journal "},
		"an entry in a transaction of another":    {`insert into ledger_waiting (agency_id, at, actor_id, act, kind, subject, written_in, record_sha256) select agency_id, at, actor_id, act, kind, subject, written_in, sha256('x') from ledger_waiting where kind = 'client' limit 1`, "client "},
		"a tag of another transaction":            {as + `update person set name = 'Una Moe' where name = 'Nan Orme'; insert into ledger_vouching select agency_id, pg_current_xact_id(), tag from ledger_vouching limit 1`, "person "},
		"a row said to have been there before":    {`insert into ledger_waiting (agency_id, at, act, kind, subject, record_sha256) select agency_id, at, 'begin the ledger', kind, subject, record_sha256 from ledger_waiting where kind = 'client' limit 1`, "client "},
		"an entry changed while it waits":         {`update ledger_waiting set actor_id = null where kind = 'client'`, "client "},
		"an entry of a transaction taken away":    {`delete from ledger_waiting where kind = 'journal' and written_in in (select written_in from ledger_waiting where kind = 'client')`, "client "},
		"what vouches for the entries taken away": {`delete from ledger_vouching`, "client "},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
			w.Nurse("Nan Orme")
			wantNone(t, drop(w.Office.SealAll(t.Context())))
			w.Client("8L", "Wim")
			if found := verified(t, w.Office); found.Found != 0 || found.Waiting == 0 {
				t.Fatalf("%d wait: %s", found.Waiting, listed(found))
			}
			_, err := asOwner(t, w).Exec(t.Context(), "begin;"+c.sql+";commit")
			wantNone(t, err)
			if found := verified(t, w.Office); !strings.Contains(listed(found), c.names) {
				t.Errorf("while it waits: %s", listed(found))
			}
			must(w.Office.SealAll(t.Context()))(t)
			if found := verified(t, w.Office); !strings.Contains(listed(found), c.names) || found.Waiting != 0 {
				t.Errorf("sealed: %s", listed(found))
			}
		})
	}
}

// An office without the keys vouches for nothing: what it writes is named.
func TestWhatIsWrittenWithoutKeysIsNamed(t *testing.T) {
	t.Parallel()
	w := ward.New(t, withKeys(ledgerKeys(t, "ward")))
	if _, err := another(w, nil).AddClient(t.Context(), w.Coordinator, office.ClientForm{Code: "8M", FirstName: "Ada"}); err != nil {
		t.Fatal(err)
	}
	must(w.Office.SealAll(t.Context()))(t)
	found := verified(t, w.Office)
	if found.Found != 2 || strings.Count(listed(found), "written outside the program") != 2 { // the client and the line of the journal
		t.Errorf("%s", listed(found))
	}
}

// What the program wrote stays its own where the key has changed before it is sealed,
// and where one transaction entered more than a sealer takes at once.
func TestWhatTheProgramWroteStaysItsOwn(t *testing.T) {
	t.Parallel()
	old := must(ledger.NewKey(rand.Reader, "old"))(t)
	before := must(ledger.ReadKeys(old))(t)
	rotated := must(ledger.ReadKeys(old + must(ledger.NewKey(rand.Reader, "new"))(t)))(t)
	w := ward.New(t, withKeys(before))
	w.Client("8L", "Wim")
	wantNone(t, pgx.BeginFunc(t.Context(), asOwner(t, w), func(tx pgx.Tx) error { return manyAtOnce(t.Context(), tx, before, 5001) }))
	sealer := another(w, rotated)
	if n := must(sealer.SealAll(t.Context()))(t); n < 5001 {
		t.Errorf("%d entries sealed", n)
	}
	if found := verified(t, sealer); found.Found != 0 || found.Waiting != 0 {
		t.Errorf("%s", listed(found))
	}
}

// manyAtOnce writes so many rows in one transaction, and vouches for them as the
// program does.
func manyAtOnce(ctx context.Context, tx pgx.Tx, keys *ledger.Keys, n int) error {
	_, err := tx.Exec(ctx, `insert into journal (agency_id, id, at, act, kind) select a.id, gen_random_uuid(), now(), 'measure', 'million' from agency a, generate_series(1, $1::int)`, n)
	if err != nil {
		return err
	}
	return vouch(ctx, tx, keys, `pg_current_xact_id()`)
}

// vouch says of a transaction's entries that the program wrote them, as the program
// does; transaction names it, in SQL.
func vouch(ctx context.Context, in pgx.Tx, keys *ledger.Keys, transaction string) error {
	var w ledger.Written
	err := in.QueryRow(ctx, `select agency_id::text, written_in::text,
			sha256(convert_to(string_agg(row(number, at, actor_id, act, kind, subject, record_sha256)::text, E'\n' order by number), 'UTF8'))
		from ledger_waiting where written_in = `+transaction+` group by 1, 2`).Scan(&w.Agency, &w.In, &w.Digest)
	if err != nil {
		return err
	}
	_, err = in.Exec(ctx, `insert into ledger_vouching (agency_id, written_in, tag) values ($1, $2::text::xid8, $3)`, w.Agency, w.In, keys.Vouch(w))
	return err
}

// Everything that is written goes through what vouches for it.
func TestAllThatWritesIsVouchedFor(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) < 100 {
		t.Fatalf("%d files: %v", len(files), err)
	}
	allowed := map[string]bool{"vouching_entries.go": true, "clock.go": true} // the second vouches before it seals
	for _, file := range files {
		text, err := os.ReadFile(file)
		wantNone(t, err)
		for _, call := range []string{"db.InAgency(", "db.Aside("} {
			if strings.Contains(string(text), call) && !allowed[file] && !strings.HasSuffix(file, "_test.go") {
				t.Errorf("%s calls %s, and nothing vouches for what it writes: use writing or aside", file, call)
			}
		}
	}
}
