package integration_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/integration/testdb"
	"wellshown/migrations"
)

// connectTo opens a connection for one test.
func connectTo(t *testing.T, url string) *pgx.Conn {
	t.Helper()
	c, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close(context.WithoutCancel(t.Context())) })
	return c
}

// lines collects a query's single text column.
func lines(t *testing.T, c *pgx.Conn, sql string, args ...any) []string {
	t.Helper()
	rows, err := c.Query(t.Context(), sql, args...)
	if err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
	found, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		t.Fatalf("%s: %v", sql, err)
	}
	return found
}

// Every migration can be undone, in a database with records in every table as well, and what comes back is the same
// schema. Undoing leaves nothing behind: the second time up would stumble over it.
func TestMigrationsGoUpDownToZeroAndUpAgain(t *testing.T) {
	t.Parallel()
	db := testdb.Empty(t)
	if err := migrations.Up(t.Context(), db.OwnerURL); err != nil {
		t.Fatal(err)
	}
	c := connectTo(t, db.OwnerURL)
	before := describeSchema(t, c)
	populate(t, c, agencyA)
	if err := migrations.DownTo(t.Context(), db.OwnerURL, 0); err != nil {
		t.Fatal(err)
	}
	if left := describeSchema(t, c); left != "" {
		t.Errorf("undoing every migration left:\n%s", left)
	}
	if err := migrations.Up(t.Context(), db.OwnerURL); err != nil {
		t.Fatal(err)
	}
	if after := describeSchema(t, c); after != before {
		t.Errorf("the second time up made another schema: %s", firstDifference(before, after))
	}
}

// Each migration can be undone by itself, newest first, and done again.
func TestEachMigrationCanBeUndoneAlone(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	c := connectTo(t, db.OwnerURL)
	whole := describeSchema(t, c)
	all := lines(t, c, `select version_id::text from goose_db_version where version_id > 0 order by version_id desc`)
	for _, version := range all {
		var v int64
		if _, err := fmt.Sscan(version, &v); err != nil {
			t.Fatal(err)
		}
		if err := migrations.DownTo(t.Context(), db.OwnerURL, v-1); err != nil {
			t.Fatalf("undo %d: %v", v, err)
		}
	}
	if err := migrations.Up(t.Context(), db.OwnerURL); err != nil {
		t.Fatal(err)
	}
	if again := describeSchema(t, c); again != whole {
		t.Errorf("one step at a time led elsewhere: %s", firstDifference(whole, again))
	}
}

// tenantTables lists all tables but goose's own.
const tenantTables = `
select c.relname::text
from pg_class c
where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and c.relname <> 'goose_db_version'`

func TestEveryTableIsKeyedByItsAgencyFirst(t *testing.T) {
	t.Parallel()
	c := connectTo(t, testdb.New(t).OwnerURL)
	if n := len(lines(t, c, tenantTables)); n == 0 {
		t.Fatal("no tables: this test checks nothing")
	}
	wrong := lines(t, c, `
		select t || ': the primary key begins with ' || coalesce(a.attname, 'nothing')
		from (`+tenantTables+`) as tables (t)
		left join pg_index i on i.indrelid = t::regclass and i.indisprimary
		left join pg_attribute a on a.attrelid = i.indrelid and a.attnum = i.indkey[0]
		where a.attname is distinct from case t when 'agency' then 'id' else 'agency_id' end`)
	for _, w := range wrong {
		t.Error(w)
	}
}

// A key that does not carry the agency along could point into another agency's records.
func TestEveryForeignKeyCarriesTheAgencyAlong(t *testing.T) {
	t.Parallel()
	c := connectTo(t, testdb.New(t).OwnerURL)
	for _, w := range lines(t, c, `
		select conrelid::regclass || ': ' || conname || ' ' || pg_get_constraintdef(oid)
		from pg_constraint
		where contype = 'f' and connamespace = 'public'::regnamespace
			and (select attname from pg_attribute where attrelid = conrelid and attnum = conkey[1]) <> 'agency_id'`) {
		t.Error(w)
	}
}

func TestEveryTableIsUnderRowSecurity(t *testing.T) {
	t.Parallel()
	c := connectTo(t, testdb.New(t).OwnerURL)
	for _, w := range lines(t, c, `
		select t || ': row security is off, or no policy covers both reading and writing'
		from (`+tenantTables+`) as tables (t)
		join pg_class on pg_class.oid = t::regclass
		where not relrowsecurity or not exists (
			select from pg_policy
			where polrelid = t::regclass and polpermissive and polcmd = '*' and polqual is not null)`) {
		t.Error(w)
	}
	for _, w := range lines(t, c, `
		select polrelid::regclass || ': policy ' || polname || ' does not ask for the agency'
		from pg_policy
		cross join lateral (values (pg_get_expr(polqual, polrelid)), (pg_get_expr(polwithcheck, polrelid))) as asks (what)
		where asks.what !~ case polrelid::regclass::text when 'agency' then '\mid\M.*app_agency' else '\magency_id\M.*app_agency' end`) {
		t.Error(w)
	}
}

func TestTheServiceOwnsNothing(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	if err := migrations.CheckService(t.Context(), db.ServiceURL); err != nil {
		t.Error(err)
	}
	for _, w := range lines(t, connectTo(t, db.ServiceURL), `
		select c.relname::text || ' may be emptied or have triggers put on it by the service'
		from pg_class c
		where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
			and (has_table_privilege(c.oid, 'truncate') or has_table_privilege(c.oid, 'trigger') or has_table_privilege(c.oid, 'references'))`) {
		t.Error(w)
	}
}

// firstDifference shows where two texts part.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		if w[i] != g[i] {
			return fmt.Sprintf("line %d\nwas: %s\nnow: %s", i+1, w[i], g[i])
		}
	}
	return fmt.Sprintf("%d lines, then %d", len(w), len(g))
}
