package integration_test

import (
	"errors"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"wellshown/integration/testdb"
)

// The tests below go through every table that the service may read, so a table added later is held to the same.

const readableTables = tenantTables + ` and has_table_privilege(c.oid, 'select') order by 1`

func twoAgencies(t *testing.T) (db *testdb.DB, service *pgx.Conn, tables []string) {
	t.Helper()
	db = testdb.New(t)
	owner := connectTo(t, db.OwnerURL)
	populate(t, owner, agencyA)
	populate(t, owner, agencyB)
	service = connectTo(t, db.ServiceURL)
	tables = lines(t, service, readableTables)
	if len(tables) == 0 {
		t.Fatal("the service may read no table: this test checks nothing")
	}
	return db, service, tables
}

func keyOf(table string) string {
	if table == "agency" {
		return "id"
	}
	return "agency_id"
}

// Whoever forgets to say for which agency sees nothing: no row, or an error.
func TestWithoutAnAgencyTheServiceSeesNoRow(t *testing.T) {
	t.Parallel()
	_, service, tables := twoAgencies(t)
	for _, setting := range []string{`reset app.agency_id`, `set app.agency_id = ''`} {
		if _, err := service.Exec(t.Context(), setting); err != nil {
			t.Fatal(err)
		}
		for _, table := range tables {
			var rows int
			if err := service.QueryRow(t.Context(), `select count(*) from `+table).Scan(&rows); err == nil && rows > 0 {
				t.Errorf("after %q %d rows of %s", setting, rows, table)
			}
		}
	}
}

func TestAnAgencySeesItsOwnRowsOnly(t *testing.T) {
	t.Parallel()
	_, service, tables := twoAgencies(t)
	if _, err := service.Exec(t.Context(), `set app.agency_id = '`+agencyA+`'`); err != nil {
		t.Fatal(err)
	}
	for _, table := range tables {
		var own, other int
		key := keyOf(table)
		err := service.QueryRow(t.Context(), `select count(*) filter (where `+key+` = $1), count(*) filter (where `+key+` <> $1) from `+table, agencyA).Scan(&own, &other)
		if err != nil || own == 0 || other > 0 {
			t.Errorf("%s: %d rows of its own, %d of the other agency, %v", table, own, other, err)
		}
	}
}

// As one agency, writing a row of the other is refused by row security (42501) wherever the service may write at all.
func TestAnAgencyCannotWriteForAnother(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	owner, service := connectTo(t, db.OwnerURL), connectTo(t, db.ServiceURL)
	populate(t, owner, agencyA)
	if _, err := service.Exec(t.Context(), `set app.agency_id = '`+agencyA+`'`); err != nil {
		t.Fatal(err)
	}
	for _, table := range inReferenceOrder(t, owner) {
		sql := insertions(t, owner, table)[0]
		_, err := service.Exec(t.Context(), sql, agencyB, person(agencyB, 2), person(agencyB, 3))
		var refused *pgconn.PgError
		if !errors.As(err, &refused) || !refusesForeignRow(refused) {
			t.Errorf("%s: %v", table, err)
		}
	}
}

// refusesForeignRow: row security itself, or a trigger of the schema that looked for what the row refers to, under row
// security, and found it nowhere.
func refusesForeignRow(e *pgconn.PgError) bool { return e.Code == "42501" || e.Code == "23514" }

// Another agency's rows are not there to be changed or deleted either.
func TestAnAgencyCannotTouchAnothersRows(t *testing.T) {
	t.Parallel()
	_, service, tables := twoAgencies(t)
	if _, err := service.Exec(t.Context(), `set app.agency_id = '`+agencyA+`'`); err != nil {
		t.Fatal(err)
	}
	for _, table := range tables {
		key := keyOf(table)
		for _, sql := range []string{
			`update ` + table + ` set ` + key + ` = ` + key + ` where ` + key + ` = $1`,
			`delete from ` + table + ` where ` + key + ` = $1`,
		} {
			if tag, err := service.Exec(t.Context(), sql, agencyB); err == nil && tag.RowsAffected() > 0 {
				t.Errorf("%s: %d rows", sql, tag.RowsAffected())
			}
		}
	}
}

// signedTables are those whose comment promises it, and any with a column for who signed. None of their rows ever
// changes, whoever asks: the service has no right to, and the owner, who has, is refused by a trigger.
const signedTables = tenantTables + `
	and (obj_description(c.oid, 'pg_class') ~ 'append-only'
		or exists (select from pg_attribute where attrelid = c.oid and attname in ('signed_by', 'printed_name')))
order by 1`

func TestWhatIsSignedNeverChanges(t *testing.T) {
	t.Parallel()
	db, service, _ := twoAgencies(t)
	owner := connectTo(t, db.OwnerURL)
	if _, err := service.Exec(t.Context(), `set app.agency_id = '`+agencyA+`'`); err != nil {
		t.Fatal(err)
	}
	signed := lines(t, owner, signedTables)
	if len(signed) < 18 {
		t.Errorf("only %d signed tables: %v; there were 18 when this was written", len(signed), signed)
	}
	for who, c := range map[string]*pgx.Conn{"42501": service, "23001": owner} { // no privilege; restrict violation, by the trigger
		for _, table := range signed {
			for _, sql := range []string{`update ` + table + ` set agency_id = agency_id`, `delete from ` + table, `truncate ` + table + ` cascade`} {
				_, err := c.Exec(t.Context(), sql)
				var refused *pgconn.PgError
				if !errors.As(err, &refused) || refused.Code != who {
					t.Errorf("%s: %v; want it refused with %s", sql, err, who)
				}
			}
		}
	}
}
