// Package postgres keeps what the office decides: one file a noun, SQL beside
// its scan. It holds no rule of its own; what it refuses, the schema refuses.
package postgres

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"

	"wellshown/assessment"
)

// DB is a pool of connections to one database, and two more for what must be
// kept whatever becomes of the transaction it happens in. Those never wait for
// the pool, so that whoever holds one of its connections can wait for them.
type DB struct{ pool, aside *pgxpool.Pool }

// Open connects as the service's role, which owns no table and cannot step
// around row security.
func Open(ctx context.Context, url string, options ...Option) (*DB, error) {
	cfg, err := pgxpool.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("read the database address: %w", err)
	}
	cfg.MaxConns = 8 // about 4 a core on two cores
	cfg.MinIdleConns = 1
	cfg.MaxConnLifetime, cfg.MaxConnLifetimeJitter = 30*time.Minute, 3*time.Minute
	cfg.MaxConnIdleTime, cfg.HealthCheckPeriod = 5*time.Minute, time.Minute
	cfg.ConnConfig.RuntimeParams["application_name"] = "wellshown"
	cfg.ConnConfig.RuntimeParams["search_path"] = "public, pg_temp" // whatever the database or the role was set to
	cfg.ConnConfig.RuntimeParams["timezone"] = "UTC"
	cfg.ConnConfig.RuntimeParams["bytea_output"] = "hex" // a row has one text only
	cfg.ConnConfig.RuntimeParams["statement_timeout"] = "15000"
	cfg.ConnConfig.RuntimeParams["idle_in_transaction_session_timeout"] = "30000"
	for _, change := range options {
		change(cfg)
	}
	pool, err := pgxpool.NewWithConfig(ctx, cfg)
	if err != nil {
		return nil, fmt.Errorf("connect to the database: %w", err)
	}
	if err := pool.Ping(ctx); err != nil {
		pool.Close()
		return nil, fmt.Errorf("reach the database: %w", err)
	}
	few := cfg.Copy()
	few.MaxConns, few.MinIdleConns = 2, 0
	aside, err := pgxpool.NewWithConfig(ctx, few)
	if err != nil {
		pool.Close()
		return nil, fmt.Errorf("connect to the database: %w", err)
	}
	return &DB{pool, aside}, nil
}

// Close ends all connections.
func (db *DB) Close() {
	db.pool.Close()
	db.aside.Close()
}

// Ping reports whether the database answers.
func (db *DB) Ping(ctx context.Context) error { return db.pool.Ping(ctx) }

// Tx is one transaction of one agency. Each noun has its own small set of verbs.
type Tx struct {
	tx     pgx.Tx
	agency assessment.AgencyID
	undone bool // whatever becomes of it, nothing of it is kept

	Agencies       Agencies
	People         People
	Sessions       Sessions
	Passkeys       Passkeys
	OneTimeCodes   OneTimeCodes
	Links          Links
	Tokens         Tokens
	PINs           PINs
	Qualifications Qualifications
	Clients        Clients
	Teams          Teams
	Checklists     Checklists
	Force          Force
	Sheets         Sheets
	Demonstrations Demonstrations
	SignOffs       SignOffs
	Exceptions     Exceptions
	Requirements   Requirements
	Plans          Plans
	History        History
	Segments       Segments
	Certificates   Certificates
	Journal        Journal
	Ledger         Ledger
	Audit          Audit
	Surveys        Surveys
	Held           Held
	Erasures       Erasures
	Devices        Devices
	Received       Received
	SkillsDays     SkillsDays
	Roster         Roster
	Visits         Visits
	Packets        Packets
	Jobs           Jobs
	ImportDrafts   ImportDrafts
	CarriedIn      CarriedIn
	Neighbours     Neighbours
	Reminders      Reminders
	Mail           Mail
	Incidents      Incidents
	Practice       Practice
	Feeds          Feeds
	HomePapers     HomePapers
	Lessons        Lessons
	Knowledge      Knowledge
	Learning       Learning
	Teaching       Teaching
	PracticeRuns   PracticeRuns
	Drills         Drills
}

func newTx(tx pgx.Tx, agency assessment.AgencyID) *Tx {
	s := scope{tx, agency}
	return &Tx{
		tx: tx, agency: agency,
		Agencies: Agencies{s}, People: People{s}, Sessions: Sessions{s}, Links: Links{s}, Tokens: Tokens{s}, PINs: PINs{s}, Passkeys: Passkeys{s}, OneTimeCodes: OneTimeCodes{s}, Qualifications: Qualifications{s},
		ImportDrafts: ImportDrafts{s}, CarriedIn: CarriedIn{s}, Neighbours: Neighbours{s}, Clients: Clients{s}, Teams: Teams{s}, Checklists: Checklists{s}, Force: Force{s}, Sheets: Sheets{s}, Demonstrations: Demonstrations{s},
		SignOffs: SignOffs{s}, Exceptions: Exceptions{s}, Requirements: Requirements{s}, Plans: Plans{s},
		History: History{s}, Segments: Segments{s}, Certificates: Certificates{s}, Journal: Journal{s}, Ledger: Ledger{s}, Audit: Audit{s}, Surveys: Surveys{s}, Held: Held{s}, Erasures: Erasures{s},
		HomePapers: HomePapers{s},
		Devices:    Devices{s}, Received: Received{s},
		SkillsDays: SkillsDays{s}, Roster: Roster{s}, Visits: Visits{s}, Incidents: Incidents{s}, Practice: Practice{s}, Packets: Packets{s}, Jobs: Jobs{s}, Reminders: Reminders{s}, Mail: Mail{s}, Feeds: Feeds{s},
		Lessons:   Lessons{s},
		Knowledge: Knowledge{s},
		Learning:  Learning{s}, Teaching: Teaching{s}, PracticeRuns: PracticeRuns{s}, Drills: Drills{s},
	}
}

// scope is what every noun needs: the transaction and whose it is.
type scope struct {
	tx     pgx.Tx
	agency assessment.AgencyID
}

// InAgency runs fn in one transaction that sees and touches one agency only. It
// is the only way to a Tx. Where the database asks for it, fn runs again: it must
// only read, decide, write and assign its result.
func (db *DB) InAgency(ctx context.Context, agency assessment.AgencyID, fn func(*Tx) error) error {
	return inAgency(ctx, db.pool, agency, "begin", fn)
}

// Reading is InAgency for what only reads: all of it sees one moment, whatever
// others change meanwhile, and writing is refused.
func (db *DB) Reading(ctx context.Context, agency assessment.AgencyID, fn func(*Tx) error) error {
	return inAgency(ctx, db.pool, agency, "begin isolation level repeatable read read only", fn)
}

// Aside is InAgency for what is kept even where the transaction that it happens
// in is not: a failed try of a password. It must take no lock that the outer one
// may hold.
func (db *DB) Aside(ctx context.Context, agency assessment.AgencyID, fn func(*Tx) error) error {
	return inAgency(ctx, db.aside, agency, "begin", fn)
}

func inAgency(ctx context.Context, pool beginner, agency assessment.AgencyID, start string, fn func(*Tx) error) error {
	// The id goes into the text of the statement that begins the transaction, one
	// way to the database instead of two: it must be an id and nothing else.
	if _, err := assessment.ParseID[assessment.AgencyID](string(agency)); err != nil {
		return err
	}
	begin := pgx.TxOptions{BeginQuery: start + `; select set_config('app.agency_id', '` + string(agency) + `', true)`}
	const tries = 3
	var err error
	for range tries {
		err = pgx.BeginTxFunc(ctx, pool, begin, func(tx pgx.Tx) error { return fn(newTx(tx, agency)) })
		if !again(err) {
			break
		}
	}
	return refusal(err)
}

// beginner is a pool, or one connection of it.
type beginner interface {
	BeginTx(context.Context, pgx.TxOptions) (pgx.Tx, error)
}

// again: serialization failure or deadlock.
func again(err error) bool {
	var pg *pgconn.PgError
	return errors.As(err, &pg) && (pg.Code == "40001" || pg.Code == "40P01")
}

func (s scope) exec(ctx context.Context, sql string, args ...any) error {
	_, err := s.tx.Exec(ctx, sql, args...)
	return err
}

// change is exec for what must touch a row; none is "not found".
func (s scope) change(ctx context.Context, sql string, args ...any) error {
	tag, err := s.tx.Exec(ctx, sql, args...)
	if err == nil && tag.RowsAffected() == 0 {
		return pgx.ErrNoRows
	}
	return err
}

// list collects rows into structs by column name.
func list[T any](ctx context.Context, s scope, sql string, args ...any) ([]T, error) {
	rows, err := s.tx.Query(ctx, sql, args...)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByName[T])
}

// get collects exactly one row; none is "not found".
func get[T any](ctx context.Context, s scope, sql string, args ...any) (T, error) {
	rows, err := s.tx.Query(ctx, sql, args...)
	if err != nil {
		var none T
		return none, err
	}
	v, err := pgx.CollectExactlyOneRow(rows, pgx.RowToStructByName[T])
	if errors.Is(err, pgx.ErrNoRows) {
		err = refusal(err) // so that whoever asks within a transaction can tell it from a failure
	}
	return v, err
}

// turn makes transactions of one agency take turns over what a word names.
func (s scope) turn(ctx context.Context, over string) error {
	return s.exec(ctx, `select pg_advisory_xact_lock(`+turnOver+`)`, string(s.agency), over)
}

// turnOver is the lock of an agency and a word.
const turnOver = `hashtextextended($1::text || ' ' || $2::text, 0)`
