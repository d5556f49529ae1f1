package testdb

import (
	"context"
	"crypto/rand"
	"fmt"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/migrations"
)

// Pattern is a database that stays for the rest of the process, with something in it, to be copied for many tests.
type Pattern struct {
	name string
	held *pgx.Conn // holds a lock while this process lives, so that others leave the pattern alone
}

// patterns is how their names begin.
const patterns = "wellshown_pattern_"

// NewPattern makes one: build puts something into a migrated database, and has left it when it returns. Patterns that
// earlier processes have left behind on a server that outlives them are dropped.
func NewPattern(tb testing.TB, build func(*DB)) *Pattern {
	tb.Helper()
	s := demand(tb)
	template, err := s.template()
	if err != nil {
		tb.Fatalf("prepare the template database: %v", err)
	}
	p := &Pattern{name: patterns + strings.ToLower(rand.Text())[:16]}
	if p.held, err = s.hold(p.name); err != nil {
		tb.Fatalf("prepare a pattern database: %v", err)
	}
	if err := s.do(`create database ` + p.name + ` template ` + template); err != nil {
		tb.Fatalf("make a pattern database: %v", err)
	}
	owner := inDatabase(s.ownerURL, p.name)
	service, err := migrations.EnsureService(context.Background(), owner)
	if err != nil {
		tb.Fatalf("prepare the service's role: %v", err)
	}
	build(&DB{OwnerURL: owner, ServiceURL: service})
	if err := s.do(`alter database ` + p.name + ` with allow_connections false`); err != nil {
		tb.Fatalf("close the pattern database: %v", err)
	}
	return p
}

// Copy is a database of a test's own with all that is in the pattern.
func (p *Pattern) Copy(tb testing.TB) *DB {
	tb.Helper()
	return demand(tb).database(tb, `template `+p.name)
}

// hold locks a name for as long as this process lives, and drops every pattern whose name nobody holds.
func (s *server) hold(name string) (*pgx.Conn, error) {
	ctx := context.Background()
	c, err := pgx.Connect(ctx, s.ownerURL)
	if err != nil {
		return nil, fmt.Errorf("connect to the test server: %w", err)
	}
	if err := execAll(ctx, c, `select pg_advisory_lock(hashtextextended('`+name+`', 0))`); err != nil {
		return nil, err
	}
	rows, err := c.Query(ctx, `select datname::text from pg_database where starts_with(datname, $1)`, patterns)
	if err != nil {
		return nil, err
	}
	left, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		return nil, err
	}
	for _, other := range left {
		var free bool
		if err := c.QueryRow(ctx, `select pg_try_advisory_lock(hashtextextended($1, 0))`, other).Scan(&free); err != nil {
			return nil, err
		}
		if free {
			if err := execAll(ctx, c, `drop database if exists `+other+` with (force)`, `select pg_advisory_unlock(hashtextextended('`+other+`', 0))`); err != nil {
				return nil, err
			}
		}
	}
	return c, nil
}
