// Package migrations holds the database's schema as numbered SQL files and brings a database up to the newest one. It
// also looks after the role that the service runs as, since the files grant to it.
package migrations

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"
)

//go:embed *.sql
var files embed.FS

// Up makes the service's role if the server has none, then applies every migration that the database lacks. Of two
// programs that migrate at once, one applies and the other waits and finds nothing to do. ownerURL must name a role
// that owns the database and may create roles.
func Up(ctx context.Context, ownerURL string) error {
	if _, err := ensureRole(ctx, ownerURL); err != nil {
		return err
	}
	return withProvider(ownerURL, func(p *goose.Provider) error {
		if _, err := p.Up(ctx); err != nil {
			return fmt.Errorf("migrate the database: %w", err)
		}
		return letServiceSeeVersions(ctx, ownerURL)
	})
}

// DownTo undoes, newest first, every migration with a number above version; 0 undoes all. The data in what is dropped
// are lost.
func DownTo(ctx context.Context, ownerURL string, version int64) error {
	return withProvider(ownerURL, func(p *goose.Provider) error {
		if _, err := p.DownTo(ctx, version); err != nil {
			return fmt.Errorf("undo migrations down to %d: %w", version, err)
		}
		return nil
	})
}

// Pending lists the migrations that the database lacks, in order. The owner and the service's role may both ask. A
// database that holds a migration unknown to this program is an error: it belongs to a newer one, whose rules this
// program does not know.
func Pending(ctx context.Context, url string) ([]int64, error) {
	known, err := versions()
	if err != nil {
		return nil, err
	}
	applied, err := appliedVersions(ctx, url)
	if err != nil {
		return nil, err
	}
	for _, v := range applied {
		if !slices.Contains(known, v) {
			return nil, fmt.Errorf("the database has migration %d, which this program does not know: run the newer program", v)
		}
	}
	return slices.DeleteFunc(known, func(v int64) bool { return slices.Contains(applied, v) }), nil
}

// Analyze has the database count what its tables hold. Plans made while they were all but empty stay in use until
// somebody does; the server does it by itself once a minute, too late for whoever fills them at once.
func Analyze(ctx context.Context, ownerURL string) error {
	return withConnection(ctx, ownerURL, func(c *pgx.Conn) error {
		if _, err := c.Exec(ctx, "analyze"); err != nil {
			return fmt.Errorf("count what the tables hold: %w", err)
		}
		return nil
	})
}

// Digest is twelve hexadecimal digits that change when any migration does.
func Digest() string {
	sum := sha256.New()
	for _, name := range names() {
		text, err := files.ReadFile(name)
		if err != nil {
			panic(err) // embedded, so it is there
		}
		fmt.Fprintf(sum, "%s %d\n%s", name, len(text), text)
	}
	fmt.Fprintf(sum, "jobs %d\n%s", jobsNumber, jobsText())
	return hex.EncodeToString(sum.Sum(nil))[:12]
}

// names lists the files in order, which is that of their numbers: all have five digits.
func names() []string {
	found, err := fs.Glob(files, "*.sql")
	if err != nil {
		panic(err) // a fixed, well-formed pattern
	}
	return found
}

func versions() ([]int64, error) {
	all := []int64{jobsNumber}
	for _, name := range names() {
		v, err := goose.NumericComponent(name)
		if err != nil {
			return nil, fmt.Errorf("read the number of migration %s: %w", name, err)
		}
		all = append(all, v)
	}
	slices.Sort(all)
	return all, nil
}

// withProvider gives f the migrations over a connection of their own. The lock is held by a session, so it cannot
// work through a pooler that hands each transaction to another session; hence the owner connects directly.
func withProvider(ownerURL string, f func(*goose.Provider) error) error {
	config, err := parse(ownerURL)
	if err != nil {
		return err
	}
	db := stdlib.OpenDB(*config)
	defer db.Close()
	provider, err := newProvider(db, ownerURL)
	if err != nil {
		return fmt.Errorf("read the migrations: %w", err)
	}
	return f(provider)
}

func newProvider(db *sql.DB, ownerURL string) (*goose.Provider, error) {
	locker, err := lock.NewPostgresSessionLocker(lock.WithLockTimeout(1, 300)) // look each second, for five minutes
	if err != nil {
		return nil, err
	}
	// 00016 was there before 00015: a database may have the one and lack the other.
	return goose.NewProvider(goose.DialectPostgres, db, files, goose.WithAllowOutofOrder(true),
		goose.WithSessionLocker(locker), goose.WithGoMigrations(jobs(ownerURL)), goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
}

// appliedVersions reads goose's table; a database without one has had no migration.
func appliedVersions(ctx context.Context, url string) ([]int64, error) {
	var applied []int64
	err := withConnection(ctx, url, func(c *pgx.Conn) error {
		var there bool
		if err := c.QueryRow(ctx, `select to_regclass($1) is not null`, goose.DefaultTablename).Scan(&there); err != nil || !there {
			return err
		}
		rows, err := c.Query(ctx, `select version_id from goose_db_version where is_applied and version_id > 0 order by version_id`)
		if err != nil {
			return err
		}
		applied, err = pgx.CollectRows(rows, pgx.RowTo[int64])
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("read which migrations the database has: %w", err)
	}
	return applied, nil
}

// searchPath is where every connection looks for what a statement names without a schema: nowhere that the database's
// or a role's own setting leads to, and among temporary tables last.
const searchPath = "public, pg_temp"

// parse never shows the URL in its error, for a password may stand in it.
func parse(url string) (*pgx.ConnConfig, error) {
	if url == "" {
		return nil, errors.New("no database named: the connection URL is empty")
	}
	config, err := pgx.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("read the database URL: %w", err)
	}
	config.RuntimeParams["search_path"] = searchPath
	return config, nil
}

func withConnection(ctx context.Context, url string, f func(*pgx.Conn) error) error {
	config, err := parse(url)
	if err != nil {
		return err
	}
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return err
	}
	defer conn.Close(context.WithoutCancel(ctx))
	return f(conn)
}
