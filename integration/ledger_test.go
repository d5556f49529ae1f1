package integration_test

import (
	"crypto/rand"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
)

// sealedAgency is a database with one agency that has a row in every table, all of
// it sealed, and no constraint that would keep its owner from writing nonsense.
func sealedAgency(t *testing.T) (*office.Office, *pgx.Conn) {
	t.Helper()
	db := testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	execute(t, owner, `set app.act = 'fill every table'`)
	populate(t, owner, agencyA)
	execute(t, owner, `set session_replication_role = replica`)
	execute(t, owner, `insert into ledger_waiting (agency_id, at, actor_id, act, kind, subject, record_sha256)
		select r.agency_id, d.ended_at, d.ended_by, 'erase what is held', r.kind, r.subject, r.was_sha256 from erased_row r join erasure_end d using (agency_id, erasure_id)`)
	execute(t, owner, `delete from ledger_leaf; delete from ledger_node; delete from ledger_head; delete from ledger_waiting where kind = 'x'`)
	for _, drop := range lines(t, owner, `select format('alter table %s drop constraint %I', conrelid::regclass, conname) from pg_constraint
		where contype = 'c' and connamespace = current_schema()::regnamespace`) {
		execute(t, owner, drop)
	}
	kept, err := postgres.Open(t.Context(), db.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(kept.Close)
	file, err := ledger.KeyFile(rand.Reader, "test")
	if err != nil {
		t.Fatal(err)
	}
	keys, err := ledger.ReadKeys(file)
	if err != nil {
		t.Fatal(err)
	}
	vouch(t, owner, keys)
	o := office.New(kept, office.Options{Ledger: keys})
	if n, err := o.SealAll(t.Context()); err != nil || n < 30 {
		t.Fatalf("%d entries sealed, %v", n, err)
	}
	return o, owner
}

// vouch says of all that waits that the program wrote it, as the program does for each
// of its transactions.
func vouch(t *testing.T, owner *pgx.Conn, keys *ledger.Keys) {
	t.Helper()
	execute(t, owner, `delete from ledger_vouching`)
	execute(t, owner, `update ledger_waiting set written_in = '7'`) // some are made up, and in no transaction
	rows, err := owner.Query(t.Context(), `select agency_id::text, written_in::text,
			sha256(convert_to(string_agg(row(number, at, actor_id, act, kind, subject, record_sha256)::text, E'\n' order by number), 'UTF8'))
		from ledger_waiting group by 1, written_in`)
	if err != nil {
		t.Fatal(err)
	}
	all, err := pgx.CollectRows(rows, func(row pgx.CollectableRow) (w ledger.Written, err error) {
		return w, row.Scan(&w.Agency, &w.In, &w.Digest)
	})
	if err != nil || len(all) == 0 {
		t.Fatalf("%d transactions wait: %v", len(all), err)
	}
	for _, w := range all {
		execute(t, owner, `insert into ledger_vouching (agency_id, written_in, tag) values ($1, $2::text::xid8, $3)`, w.Agency, w.In, keys.Vouch(w))
	}
}

func execute(t *testing.T, c *pgx.Conn, sql string, args ...any) {
	t.Helper()
	if _, err := c.Exec(t.Context(), sql, args...); err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
}

func verified(t *testing.T, o *office.Office, kept ...[]byte) office.Verified {
	t.Helper()
	v, err := o.Verify(t.Context(), kept...)
	if err != nil {
		t.Fatal(err)
	}
	v.Rules = slices.DeleteFunc(v.Rules, func(d postgres.Difference) bool { // what sealedAgency took away
		gone := d.Missing && strings.HasPrefix(d.Rule, "constraint ") && strings.Contains(d.Rule, ": CHECK ")
		if gone {
			v.Found--
		}
		return gone
	})
	return v
}

// other is a value that a column of a type does not have now.
var other = map[string]string{
	"uuid": `'c0000000-0000-7000-8000-00000000000c'`, "text": `coalesce(%[1]s, '') || 'x'`, "boolean": `not coalesce(%[1]s, false)`,
	"integer": `coalesce(%[1]s, 0) + 1`, "smallint": `coalesce(%[1]s, 0) + 30`, "bigint": `coalesce(%[1]s, 0) + 1000`, "numeric": `coalesce(%[1]s, 0) + 1`,
	"date": `coalesce(%[1]s, date '2027-01-15') + 1`, "timestamp with time zone": `coalesce(%[1]s, timestamptz '2027-01-15 12:00Z') + interval '1 microsecond'`,
	"bytea": `coalesce(%[1]s, '') || '\x01'`, "text[]": `array_append(%[1]s, 'x')`, "uuid[]": `array_append(%[1]s, 'c0000000-0000-7000-8000-00000000000c'::uuid)`,
	"smallint[]": `array_append(%[1]s, 7::smallint)`,
	"jsonb":      `'{"x": 1}'`,
}

type column struct{ table, name, kind string }

// subjectOf says how verify names a row of a table.
func subjectOf(t *testing.T, c *pgx.Conn, table string) string {
	t.Helper()
	switch table {
	case "ledger_leaf":
		return `position::text`
	case "ledger_node":
		return `level || '/' || place`
	case "ledger_head":
		return `size::text`
	case "agency":
		return `id::text`
	}
	key := lines(t, c, `select format('(to_jsonb(%s) ->> %L)', $1::text, a.attname) from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any(i.indkey)
		where i.indrelid = $1::text::regclass and i.indisprimary and a.attname <> 'agency_id' order by array_position(i.indkey::int2[], a.attnum)`, table)
	return strings.Join(key, ` || '/' || `)
}

// recorded lists every column of every table that the ledger keeps, and of its own.
func recorded(t *testing.T, c *pgx.Conn) []column {
	t.Helper()
	rows, err := c.Query(t.Context(), `
		select c.relname::text, a.attname::text, format_type(a.atttypid, null)
		from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
		where c.relname in ('ledger_leaf', 'ledger_node', 'ledger_head') or exists (select from pg_trigger g where g.tgrelid = c.oid and g.tgname = 'ledger_enters')
		order by 1, a.attnum`)
	if err != nil {
		t.Fatal(err)
	}
	all, err := pgx.CollectRows(rows, func(r pgx.CollectableRow) (column, error) {
		var k column
		err := r.Scan(&k.table, &k.name, &k.kind)
		return k, err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// Every column of every signed table is changed in turn, past the program and past
// every trigger; verify names the row each time, and nothing once it is put back.
func TestTheLedgerFindsEveryChangedColumn(t *testing.T) {
	t.Parallel()
	o, owner := sealedAgency(t)
	if v := verified(t, o); v.Found != 0 || v.Records == 0 {
		t.Fatalf("untouched: %+v", v)
	}
	columns := recorded(t, owner)
	for _, c := range columns {
		change, known := other[c.kind]
		if !known {
			t.Fatalf("%s.%s is a %s: tell the map other how to change one", c.table, c.name, c.kind)
		}
		if strings.Contains(change, "%") {
			change = fmt.Sprintf(change, pgx.Identifier{c.name}.Sanitize())
		}
		where := ` where ctid = (select min(ctid) from ` + c.table + `)`
		var before, after *string
		var was, is string
		subject := subjectOf(t, owner, c.table)
		name := pgx.Identifier{c.name}.Sanitize()
		if err := owner.QueryRow(t.Context(), `select `+name+`::text, `+subject+` from `+c.table+where).Scan(&before, &was); err != nil {
			t.Fatalf("%s has no row: %v", c.table, err)
		}
		if err := owner.QueryRow(t.Context(), `update `+c.table+` set `+name+` = `+change+where+` returning ctid::text, `+subject).Scan(&after, &is); err != nil {
			t.Fatalf("%s.%s: %v", c.table, c.name, err)
		}
		v := verified(t, o)
		if !slices.ContainsFunc(v.Findings, func(f office.Finding) bool { return f.Kind == c.table && (f.Subject == was || f.Subject == is) }) {
			t.Errorf("%s.%s changed, and verify says %+v", c.table, c.name, v)
		}
		execute(t, owner, `update `+c.table+` set `+name+` = $1::text::`+c.kind+` where ctid = $2::text::tid`, before, after)
	}
	if v := verified(t, o); v.Found != 0 {
		t.Errorf("put back: %+v", v)
	}
	t.Logf("%d columns of %d tables", len(columns), len(tablesOf(columns)))
}

func tablesOf(columns []column) map[string]bool {
	all := map[string]bool{}
	for _, c := range columns {
		all[c.table] = true
	}
	return all
}

// Whole rows that go, come or come again are found too.
func TestTheLedgerFindsRowsThatGoOrCome(t *testing.T) {
	t.Parallel()
	o, owner := sealedAgency(t)
	for table := range tablesOf(recorded(t, owner)) {
		execute(t, owner, `create temp table gone as select * from `+table)
		execute(t, owner, `delete from `+table)
		if v := verified(t, o); !slices.ContainsFunc(v.Findings, func(f office.Finding) bool { return f.Kind == table }) {
			t.Errorf("all of %s is gone, and verify says %+v", table, v)
		}
		execute(t, owner, `insert into `+table+` select * from gone`)
		execute(t, owner, `drop table gone`)
	}
	if v := verified(t, o); v.Found != 0 {
		t.Errorf("put back: %+v", v)
	}
	execute(t, owner, `insert into licence (agency_id, id, person_id, kind, number, recorded_at, recorded_by)
		select agency_id, gen_random_uuid(), person_id, kind, number, recorded_at, recorded_by from licence`)
	v := verified(t, o)
	if v.Found != 1 || v.Findings[0].Kind != "licence" || v.Findings[0].Says != "this row has no entry in the ledger" {
		t.Errorf("a licence slipped in: %+v", v)
	}
}

// Whoever writes as the owner and leaves the triggers alone is entered, and named.
func TestWhatIsWrittenOutsideTheProgramIsNamed(t *testing.T) {
	t.Parallel()
	o, owner := sealedAgency(t)
	execute(t, owner, `set session_replication_role = origin`)
	execute(t, owner, `reset app.act`)
	execute(t, owner, `update person set name = 'Somebody Else' where id = $1`, person(agencyA, 3))
	v := verified(t, o)
	if v.Found != 1 || v.Findings[0].Subject != person(agencyA, 3) || !strings.HasPrefix(v.Findings[0].Says, "written outside the program") {
		t.Errorf("%+v", v)
	}
	execute(t, owner, `alter table person disable trigger ledger_enters`)
	if v := verified(t, o); !slices.ContainsFunc(v.Findings, func(f office.Finding) bool { return strings.Contains(f.Says, "trigger is gone or off") }) {
		t.Errorf("without its trigger: %+v", v)
	}
}

// Rows that were there before their table was put under the ledger are entered when
// it is: a database that is migrated is whole.
func TestRowsFromBeforeTheLedgerAreEntered(t *testing.T) {
	t.Parallel()
	o, owner := sealedAgency(t)
	execute(t, owner, `delete from erased_row; delete from erasure_end`) // nothing was erased before there was a ledger
	for table := range tablesOf(recorded(t, owner)) {
		if strings.HasPrefix(table, "ledger_") {
			execute(t, owner, `delete from `+table)
			continue
		}
		by := lines(t, owner, `select split_part(encode(tgargs, 'escape'), '\000', 2) from pg_trigger where tgname = 'ledger_enters' and tgrelid = $1::text::regclass`, table)[0]
		execute(t, owner, `drop trigger ledger_enters on `+table)
		execute(t, owner, `select ledger_keeps($1::text::regclass, $2)`, table, by)
	}
	if n, err := o.SealAll(t.Context()); err != nil || n < 30 {
		t.Fatalf("%d entries sealed, %v", n, err)
	}
	if v := verified(t, o); v.Found != 0 || v.Records < 30 {
		t.Errorf("%+v", v)
	}
}

// A table added later is kept by the ledger, or somebody has said why not.
func TestTheLedgerKeepsEveryTable(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	populate(t, owner, agencyA)
	kept, err := postgres.Open(t.Context(), db.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(kept.Close)
	err = kept.Reading(t.Context(), agencyA, func(tx *postgres.Tx) error {
		tables, missing, err := tx.Audit.Tables(t.Context())
		if len(missing) > 0 {
			t.Errorf("not under the ledger: %v. Call ledger_keeps in the migration, or list the table in unkept (postgres/kept_tables.go)", missing)
		}
		for _, k := range tables {
			var once bool
			if err := owner.QueryRow(t.Context(), `select exists (select from pg_trigger where tgrelid = $1::regclass and tgfoid = 'refuse_change'::regproc)`, k.Name).Scan(&once); err != nil {
				return err
			}
			if once != k.Once() {
				t.Errorf("%s is append-only: %v; writtenOnce (postgres/kept_tables.go) says %v", k.Name, once, k.Once())
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
