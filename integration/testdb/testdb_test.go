package testdb_test

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/integration/testdb"
	"wellshown/migrations"
)

func connect(t *testing.T, url string) *pgx.Conn {
	t.Helper()
	c, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close(context.WithoutCancel(t.Context())) })
	return c
}

func TestNewIsMigratedAndUnderRowSecurity(t *testing.T) {
	t.Parallel()
	db := testdb.New(t)
	if left, err := migrations.Pending(t.Context(), db.OwnerURL); err != nil || len(left) > 0 {
		t.Errorf("pending %v, %v", left, err)
	}
	if err := migrations.CheckService(t.Context(), db.ServiceURL); err != nil {
		t.Errorf("the service's role: %v", err)
	}
	var role string
	if err := connect(t, db.ServiceURL).QueryRow(t.Context(), `select current_user::text`).Scan(&role); err != nil || role != migrations.ServiceRole {
		t.Errorf("the service is %q, %v", role, err)
	}
}

// Asked for a container, the tests must not quietly run against something else. The data folder is the one that
// PostgreSQL images keep.
func TestAContainerAskedForIsWhatAnswers(t *testing.T) {
	t.Parallel()
	if os.Getenv("WELLSHOWN_TEST_CONTAINER") == "" || os.Getenv("TEST_DATABASE_URL") != "" {
		t.Skip("no container asked for")
	}
	db := testdb.New(t)
	var folder string
	if err := connect(t, db.OwnerURL).QueryRow(t.Context(), `select current_setting('data_directory')`).Scan(&folder); err != nil || !strings.HasPrefix(folder, "/var/lib/postgresql/") {
		t.Errorf("PostgreSQL keeps its data in %q, %v", folder, err)
	}
	if _, err := connect(t, db.OwnerURL).Exec(t.Context(), `
		insert into agency (id, code, name, zone, created_at)
		values ('a0000000-0000-7000-8000-000000000000', 'first', 'First', 'UTC', now())`); err != nil {
		t.Fatal(err)
	}
	var rows int
	if err := connect(t, db.ServiceURL).QueryRow(t.Context(), `select count(*) from agency`).Scan(&rows); err == nil && rows > 0 {
		t.Errorf("without an agency the service sees %d rows in the container", rows)
	}
}

func TestEachTestHasADatabaseOfItsOwn(t *testing.T) {
	t.Parallel()
	one, two := connect(t, testdb.New(t).OwnerURL), connect(t, testdb.New(t).OwnerURL)
	if _, err := one.Exec(t.Context(), `create table here (n int)`); err != nil {
		t.Fatal(err)
	}
	var seen bool
	if err := two.QueryRow(t.Context(), `select to_regclass('here') is not null`).Scan(&seen); err != nil || seen {
		t.Errorf("a table made in one database shows in another: %v, %v", seen, err)
	}
}

func TestEmptyHasNoTable(t *testing.T) {
	t.Parallel()
	var tables int
	err := connect(t, testdb.Empty(t).OwnerURL).QueryRow(t.Context(),
		`select count(*) from pg_class where relkind = 'r' and relnamespace = 'public'::regnamespace`).Scan(&tables)
	if err != nil || tables != 0 {
		t.Errorf("%d tables, %v", tables, err)
	}
}

// A database must be gone after its test although a connection to it was left open.
func TestDroppedWhenItsTestEnds(t *testing.T) {
	t.Parallel()
	var url string
	t.Run("use", func(t *testing.T) {
		url = testdb.New(t).OwnerURL
		c, err := pgx.Connect(t.Context(), url)
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Ping(t.Context()); err != nil {
			t.Error(err)
		}
	})
	if url == "" {
		t.Skip("no database to be had")
	}
	if _, err := pgx.Connect(t.Context(), url); err == nil || !strings.Contains(err.Error(), "3D000") {
		t.Errorf("after its test the database answers: %v", err)
	}
}

func BenchmarkNew(b *testing.B) {
	testdb.New(b)
	for b.Loop() {
		testdb.New(b)
	}
}
