package postgres

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5/pgxpool"

	"wellshown/assessment"
)

// errRehearsed undoes what was only rehearsed.
var errRehearsed = errors.New("this was a rehearsal")

// Rehearsal is InAgency for what is only tried out: fn changes what it likes and sees one
// moment but for its own changes, and all of it is undone in the end, so that no row of it
// stays and no lock. What the schema would refuse at the end it refuses here too.
//
// Whoever changes a history waits meanwhile. That lock comes before the transaction, since
// one that waited within it would then see a moment that is over.
func (db *DB) Rehearsal(ctx context.Context, agency assessment.AgencyID, fn func(*Tx) error) error {
	c, err := db.pool.Acquire(ctx)
	if err != nil {
		return refusal(fmt.Errorf("reach the database: %w", err))
	}
	defer c.Release()
	if _, err := c.Exec(ctx, `select pg_advisory_lock(`+turnOver+`)`, string(agency), histories); err != nil {
		return refusal(err)
	}
	defer unlock(ctx, c, agency)
	err = inAgency(ctx, c, agency, "begin isolation level repeatable read", func(tx *Tx) error {
		tx.undone = true
		if err := fn(tx); err != nil {
			return err
		}
		if _, err := tx.tx.Exec(ctx, `set constraints all immediate`); err != nil {
			return err
		}
		return errRehearsed
	})
	if errors.Is(err, errRehearsed) {
		return nil
	}
	return err
}

// unlock lets others go on. Where that fails the connection goes, and the lock with it.
func unlock(ctx context.Context, c *pgxpool.Conn, agency assessment.AgencyID) {
	ctx = context.WithoutCancel(ctx)
	if _, err := c.Exec(ctx, `select pg_advisory_unlock(`+turnOver+`)`, string(agency), histories); err != nil {
		c.Conn().Close(ctx) // the pool throws away what is closed
	}
}

// Undone reports whether the transaction is a rehearsal: what is seen in it never was, and
// must not be remembered outside of it.
func (tx *Tx) Undone() bool { return tx.undone }
