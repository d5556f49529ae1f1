package integration_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/integration/testdb"
)

var updateGoldens = flag.Bool("update", false, "write the golden files anew from what the code makes now")

// The schema as it stands, for readers, and so that a change of it shows in review as what it is.
// go test ./integration -run SchemaGolden -update writes it anew.
func TestSchemaGolden(t *testing.T) {
	t.Parallel()
	got := describeSchema(t, connectTo(t, testdb.New(t).OwnerURL))
	golden := filepath.Join("testdata", "schema.golden.txt")
	if *updateGoldens {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatalf("%v; write it with -update", err)
	}
	if got != string(want) {
		t.Errorf("the schema differs from %s (write it anew with -update): %s", golden, firstDifference(string(want), got))
	}
}

// describeSchema lists all that the migrations make in the schema public: tables with their columns, constraints,
// indexes, policies, triggers and rights, then functions. It reads the catalogs, so it needs no client program; the
// words are PostgreSQL's own. An empty schema gives an empty text.
func describeSchema(t *testing.T, c *pgx.Conn) string {
	t.Helper()
	var out strings.Builder
	for _, relation := range lines(t, c, `
		select c.relname::text
		from pg_class c
		where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p', 'v', 'm', 'f', 'S') and c.relname !~ '^goose_db_version'
		order by 1`) {
		for _, query := range relationQueries {
			for _, line := range lines(t, c, query, relation) {
				out.WriteString(line + "\n")
			}
		}
		out.WriteString("\n")
	}
	for _, query := range []string{typesQuery, functionsQuery, jobsQuery} {
		for _, line := range lines(t, c, query) {
			out.WriteString(line + "\n\n")
		}
	}
	return out.String()
}

// relationQueries each take a relation's name and give lines about it.
var relationQueries = []string{
	`select case c.relkind when 'v' then 'view ' when 'm' then 'materialized view ' when 'S' then 'sequence ' when 'f' then 'foreign table ' else 'table ' end
			|| c.relname || case when c.relrowsecurity then ', row security' else '' end
			|| case when c.relforcerowsecurity then ' even for the owner' else '' end
			|| coalesce(E'\n  -- ' || obj_description(c.oid, 'pg_class'), '')
		from pg_class c
		where c.oid = $1::regclass`,
	`select '  ' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod) || case when a.attnotnull then ' not null' else '' end
			|| coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), '') || coalesce('  -- ' || col_description(a.attrelid, a.attnum), '')
		from pg_attribute a
		left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum
		where a.attrelid = $1::regclass and a.attnum > 0 and not a.attisdropped
		order by a.attnum`,
	// From PostgreSQL 18 on a column's "not null" is a constraint as well; it stands with its column already.
	`select '  constraint ' || conname || ' ' || pg_get_constraintdef(oid)
		from pg_constraint
		where conrelid = $1::regclass and contype in ('p', 'u', 'f', 'c', 'x')
		order by position(contype in 'pufcx'), conname`,
	`select '  ' || pg_get_indexdef(i.indexrelid)
		from pg_index i
		where i.indrelid = $1::regclass and not exists (select from pg_constraint where conindid = i.indexrelid and contype in ('p', 'u', 'x'))
		order by 1`,
	`select '  policy ' || polname || ' for ' || case polcmd when '*' then 'all' when 'r' then 'select' when 'a' then 'insert' when 'w' then 'update' else 'delete' end
			|| case when polpermissive then '' else ' restrictive' end
			|| coalesce(' using ' || pg_get_expr(polqual, polrelid), '') || coalesce(' with check ' || pg_get_expr(polwithcheck, polrelid), '')
		from pg_policy
		where polrelid = $1::regclass
		order by polname`,
	`select '  ' || pg_get_triggerdef(oid)
		from pg_trigger
		where tgrelid = $1::regclass and not tgisinternal
		order by tgname`,
	`select '  ' || case g.grantee when 0 then 'everybody' else g.grantee::regrole::text end || ' may ' || string_agg(lower(g.privilege_type), ', ' order by g.privilege_type)
		from pg_class c, aclexplode(c.relacl) g
		where c.oid = $1::regclass and g.grantee <> c.relowner
		group by g.grantee
		order by 1`,
	`select '  ' || pg_get_viewdef(c.oid)
		from pg_class c
		where c.oid = $1::regclass and c.relkind in ('v', 'm')`,
}

const typesQuery = `
select 'type ' || t.typname || ' as ' || coalesce(
	(select string_agg(quote_literal(enumlabel), ', ' order by enumsortorder) from pg_enum where enumtypid = t.oid),
	format_type(t.typbasetype, t.typtypmod))
from pg_type t
where t.typnamespace = 'public'::regnamespace and t.typtype in ('e', 'd')
order by 1`

// A function's rights are listed as "everybody" where none were ever set, which is what PostgreSQL then grants.
const functionsQuery = `
select 'function ' || p.oid::regprocedure || ' returns ' || pg_get_function_result(p.oid) || ', ' || l.lanname || ', '
	|| case p.provolatile when 'i' then 'immutable' when 's' then 'stable' else 'volatile' end
	|| case when p.prosecdef then ', with the rights of its owner' else '' end
	|| coalesce(', set ' || array_to_string(p.proconfig, ', '), '')
	|| coalesce(E'\n  -- ' || obj_description(p.oid, 'pg_proc'), '')
	|| coalesce(E'\n  may be called by ' || (
		select string_agg(case g.grantee when 0 then 'everybody' else g.grantee::regrole::text end, ', ' order by 1)
		from aclexplode(coalesce(p.proacl, acldefault('f', p.proowner))) g
		where g.grantee <> p.proowner), '')
	|| E'\n' || coalesce(pg_get_function_sqlbody(p.oid), btrim(p.prosrc, E'\n'))
from pg_proc p
join pg_language l on l.oid = p.prolang
where p.pronamespace = 'public'::regnamespace
order by p.oid::regprocedure::text`

// The queue's own tables are its migrator's: what there is of them, and what the service may.
const jobsQuery = `
select 'of the queue of jobs: ' || c.oid::regclass || coalesce((
	select string_agg(', ' || g.grantee::regrole || ' may ' || lower(g.privilege_type), '' order by g.privilege_type)
	from aclexplode(c.relacl) g where g.grantee <> c.relowner and g.grantee <> 0), '')
from pg_class c
where c.relnamespace = (select oid from pg_namespace where nspname = 'river') and c.relkind in ('r', 'S')
union all
select 'the schema ' || nspname || ' of jobs' from pg_namespace where nspname = 'river'
order by 1`
