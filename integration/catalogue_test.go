package integration_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/integration/testdb"
	"wellshown/migrations"
)

// The rules that the program holds a database against are those that its migrations
// make. go test ./integration -run SchemaGolden -update writes them anew.
func TestSchemaGoldenOfTheProgram(t *testing.T) {
	t.Parallel()
	there := catalogueOf(t, testdb.New(t))
	golden := filepath.Join("..", "assessment", "postgres", "catalogue.txt")
	if *updateGoldens {
		if err := os.WriteFile(golden, []byte(strings.Join(there, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(there, "\n") + "\n"; got != string(want) {
		t.Errorf("the rules differ from %s (write it anew with -update): %s", golden, firstDifference(string(want), got))
	}
}

func catalogueOf(t *testing.T, db *testdb.DB) []string {
	t.Helper()
	lines, err := opened(t, db).AtDoor().Catalogue(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return lines
}

func opened(t *testing.T, db *testdb.DB) *postgres.DB {
	t.Helper()
	d, err := postgres.Open(t.Context(), db.ServiceURL)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	return d
}

// broken are things that the owner of a database may do to its rules, and what
// verify says of each.
var broken = []struct{ does, missing, added string }{
	{`drop trigger withdrawal_is_append_only on withdrawal`, "trigger withdrawal_is_append_only on public.withdrawal", ""},
	{`alter table withdrawal disable trigger withdrawal_is_never_emptied`, "trigger withdrawal_is_never_emptied", "EXECUTE FUNCTION public.refuse_change(), off"},
	{`drop trigger ledger_enters on signature; create trigger ledger_enters after insert or update or delete on signature for each row execute function ledger_enter()`, "trigger ledger_enters on public.signature", "public.ledger_enter()"},
	{`alter table withdrawal disable row level security`, "table public.withdrawal, row security", "table public.withdrawal"},
	{`drop policy by_agency on waiver; create policy by_agency on waiver using (agency_id = app_agency() and coalesce(current_setting('app.act', true), '') = '')`, "policy by_agency on public.waiver", "app.act"},
	{`grant update, delete on exposure to public`, "", "right: everybody may delete, update on public.exposure"},
	{`grant update (id) on exposure to wellshown_service`, "", "right: wellshown_service may update on public.exposure.id"},
	{`create or replace function app_agency() returns uuid language sql stable as 'select null::uuid'`, "function public.app_agency()", "function public.app_agency()"},
	{`create function app_agency(text) returns uuid language sql as 'select null::uuid'`, "", "function public.app_agency(text)"},
	{`alter function door_agency(text) set search_path = aa`, "function public.door_agency(text)", "set search_path=aa"},
	{`alter function door_session(bytea) owner to wellshown_service`, "function public.door_session(bytea)", "owned by wellshown_service"},
	{`create schema aa; create table aa.person (like public.person)`, "", "stand-in aa.person"},
	{`create function aa.app_agency() returns uuid language sql as 'select null::uuid'`, "", "stand-in aa.app_agency()"},
	{`alter table recheck set schema aa; create view recheck as select * from aa.recheck where false`, "table public.recheck", "view public.recheck"},
	{`alter table evidence drop constraint evidence_pkey cascade`, "constraint evidence_pkey", ""},
	{`alter table licence alter number drop not null`, "column public.licence.number text not null", "column public.licence.number text"},
	{`alter table licence add more text`, "", "column public.licence.more text"},
	{`alter table licence alter recorded_at set default now()`, "column public.licence.recorded_at", "default now()"},
	{`create rule less as on insert to correction do instead nothing`, "", "rule less on public.correction"},
	{`create table aa.more () inherits (public.journal)`, "", "inheritance: aa.more belongs to public.journal"},
	{`alter table signature disable trigger all`, "", "RI_ConstraintTrigger"},
	{`do $$ begin execute format('alter database %I set search_path = aa, public', current_database()); end $$`, "", "search_path=aa, public"},
	{`drop index passkey_owner_by_handle`, "unique index on public.passkey_owner", ""},
	{`create domain aa_word as text`, "", "type public.aa_word"},
	{`create function aa.quiet() returns event_trigger language plpgsql as 'begin end'; create event trigger quiet on ddl_command_end execute function aa.quiet()`, "", "event trigger quiet"},
}

func TestTheLedgerFindsEveryRuleThatIsBroken(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner, d := connectTo(t, db.OwnerURL), opened(t, db)
	look := func() []postgres.Difference {
		found, err := d.AtDoor().Differences(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	before := look()
	if len(before) != 0 {
		t.Fatalf("untouched: %v", before)
	}
	for _, b := range broken {
		execute(t, owner, b.does)
		after := look()
		for _, want := range []struct {
			text    string
			missing bool
		}{{b.missing, true}, {b.added, false}} {
			said := func(found postgres.Difference) bool {
				return found.Missing == want.missing && strings.Contains(found.Rule, want.text) && !slices.Contains(before, found)
			}
			if want.text != "" && !slices.ContainsFunc(after, said) {
				t.Errorf("%s\nis not told as %v", b.does, want)
			}
		}
		before = after
	}
}

// Whoever owns the database cannot keep a row that is gone from being looked for.
func TestTheLedgerIsNotLedPastARow(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ does, says string }{
		"a trigger without arguments": {`drop trigger ledger_enters on withdrawal; create trigger ledger_enters after insert or update or delete on withdrawal for each row execute function ledger_enter()`, "this row is gone"},
		"a view in its place":         {`create schema hidden; alter table withdrawal set schema hidden; create view withdrawal as select * from hidden.withdrawal where false; grant select on withdrawal to public`, "no table any more"},
		"a trigger of another's":      {`create schema hidden; create function hidden.ledger_enter() returns trigger language plpgsql as 'begin return null; end'; drop trigger ledger_enters on withdrawal; create trigger ledger_enters after insert on withdrawal for each row execute function hidden.ledger_enter('id', '')`, "its trigger is gone or off"},
		"agencies that are not told":  {`create or replace function door_agencies() returns table (agency_id uuid, agency_code text) language sql as 'select null::uuid, null::text where false'`, "this row is gone"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			o, owner := sealedAgency(t)
			execute(t, owner, `delete from withdrawal`)
			execute(t, owner, c.does)
			v := verified(t, o)
			if len(v.Rules) == 0 || !slices.ContainsFunc(v.Findings, func(f office.Finding) bool { return f.Kind == "withdrawal" && strings.Contains(f.Says, c.says) }) {
				t.Errorf("%+v", v)
			}
		})
	}
}

// An agency whose row is gone is looked at by what is left of it; in a database
// without any row there is nothing to look at.
func TestTheLedgerFindsAnAgencyThatIsGone(t *testing.T) {
	t.Parallel()
	o, owner := sealedAgency(t)
	execute(t, owner, `delete from agency`)
	v := verified(t, o)
	gone := func(f office.Finding) bool { return f.Kind == "agency" && f.Subject == agencyA }
	if v.Agencies != 1 || v.Ledgers[0].Code != "" || v.Ledgers[0].Leaves == 0 || v.Ledgers[0].Sealed.IsZero() || !slices.ContainsFunc(v.Findings, gone) {
		t.Errorf("%+v", v)
	}
	for _, table := range lines(t, owner, tenantTables+` and c.relname <> 'resuscitation_card'`) {
		execute(t, owner, `delete from `+table)
	}
	if v := verified(t, o); v.Agencies != 1 || !slices.ContainsFunc(v.Findings, gone) {
		t.Errorf("with one row left: %+v", v)
	}
	execute(t, owner, `delete from resuscitation_card`)
	if v := verified(t, o); v.Agencies != 0 || v.Found != 0 {
		t.Errorf("without any: %+v", v)
	}
}

// What the database or a role was set to leads neither the service nor the migrations
// to other tables.
func TestNoSettingLeadsToOtherTables(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	populate(t, owner, agencyA)
	execute(t, owner, `create schema aa; grant usage on schema aa to public`)
	for _, table := range []string{"ledger_leaf", "goose_db_version"} {
		execute(t, owner, `create table aa.`+table+` (like `+table+`); grant select on aa.`+table+` to public`)
	}
	execute(t, owner, `do $$ begin execute format('alter database %I set search_path = aa, public', current_database()); end $$`)
	err := opened(t, db).Reading(t.Context(), agencyA, func(tx *postgres.Tx) error {
		counts, err := tx.Audit.Counts(t.Context())
		if counts.Leaves != 1 {
			t.Errorf("%+v", counts)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
	if pending, err := migrations.Pending(t.Context(), db.OwnerURL); err != nil || len(pending) > 0 {
		t.Errorf("pending %v, %v", pending, err)
	}
}

// A database whose functions were made while another path was set has the same rules
// once it is migrated.
func TestAnOlderPathBecomesThePrograms(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	if err := migrations.DownTo(t.Context(), db.OwnerURL, 18); err != nil {
		t.Fatal(err)
	}
	for _, f := range lines(t, owner, `select oid::regprocedure::text from pg_proc where pronamespace = 'public'::regnamespace and proconfig::text like '%search_path%'`) {
		execute(t, owner, `alter function `+f+` set search_path = "$user", public`)
	}
	if err := migrations.Up(t.Context(), db.OwnerURL); err != nil {
		t.Fatal(err)
	}
	found, err := opened(t, db).AtDoor().Differences(t.Context())
	if err != nil || len(found) > 0 {
		t.Errorf("%v, %v", found, err)
	}
}

// Whoever restores a copy has each rule read back from how PostgreSQL writes it: what
// comes of it must be written the same, or every restored database looks broken.
func TestRulesReadBackAreTheSame(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	again := lines(t, owner, `
		select format('alter table %s drop constraint %I, add constraint %I %s', conrelid::regclass, conname, conname, pg_get_constraintdef(oid))
		from pg_constraint where contype = 'c' and connamespace = 'public'::regnamespace
		union all
		select format('alter policy %I on %s using (%s) with check (%s)', polname, polrelid::regclass, pg_get_expr(polqual, polrelid), pg_get_expr(polwithcheck, polrelid))
		from pg_policy
		union all
		select format('alter table %s alter %I set default %s', adrelid::regclass, attname, pg_get_expr(adbin, adrelid))
		from pg_attrdef join pg_attribute on attrelid = adrelid and attnum = adnum and attgenerated = '' and attidentity = ''
		where adrelid::regclass::text !~ '^goose'`)
	if len(again) < 100 {
		t.Fatalf("only %d rules: this checks little", len(again))
	}
	for _, sql := range again {
		execute(t, owner, sql)
	}
	found, err := opened(t, db).AtDoor().Differences(t.Context())
	if err != nil || len(found) > 0 {
		t.Errorf("%v, %v", found, err)
	}
}
