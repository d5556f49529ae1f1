package office

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// How long tries are kept: long enough to slow guessing down and to be looked into.
// Failed ones wait for their owner to sign in and be told; whoever does not come for
// as long as a session lasts finds them in the account instead (common practice, no
// source).
const (
	triesKept       = 24 * time.Hour
	failedTriesWait = sessionMost
)

// Clean deletes what is past its use in every agency: tries, sessions, halves of
// sign-ins and questions that have run out. Whoever comes again has theirs cleared
// then; this is for those who do not.
func (o *Office) Clean(ctx context.Context) error {
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return fmt.Errorf("list agencies to clean: %w", err)
	}
	var faults []error
	for _, id := range agencies {
		if err := o.in(ctx, id, o.clean(ctx)); err != nil { // the others are cleaned all the same
			faults = append(faults, fmt.Errorf("clean agency %s: %w", id, err))
		}
	}
	err = o.writing(ctx, nobody, func(tx *postgres.Tx) error { return tx.Passkeys.ForgetChallenges(ctx, o.now()) })
	if err != nil {
		faults = append(faults, fmt.Errorf("clean questions of sign-ins: %w", err))
	}
	return errors.Join(faults...)
}

func (o *Office) clean(ctx context.Context) func(*postgres.Tx, Moment) error {
	return func(tx *postgres.Tx, now Moment) error {
		if err := o.tellOldFailures(ctx, tx, now); err != nil {
			return err
		}
		if err := tx.Sessions.ForgetToldTries(ctx, now.At.Add(-triesKept)); err != nil {
			return err
		}
		if err := tx.Sessions.EndRunOut(ctx, now.At); err != nil {
			return err
		}
		if err := tx.OneTimeCodes.ForgetPending(ctx, now.At); err != nil {
			return err
		}
		if err := tx.ImportDrafts.Forget(ctx, now.At.Add(-draftsKept)); err != nil {
			return err
		}
		if err := tx.Packets.Forget(ctx, now.At.AddDate(0, 0, -PacketDays)); err != nil {
			return err
		}
		return tx.Passkeys.ForgetChallenges(ctx, now.At)
	}
}

// tellOldFailures writes down how many tries failed of whoever has not signed in for
// long, and forgets those.
func (o *Office) tellOldFailures(ctx context.Context, tx *postgres.Tx, now Moment) error {
	through := now.At.Add(-triesKept)
	old, err := tx.Sessions.OldFailures(ctx, now.At.Add(-failedTriesWait), through, signedInKind)
	if err != nil {
		return err
	}
	for _, f := range old {
		if f.Untold > 0 {
			err := o.note(ctx, tx, now, assessment.Actor{Agency: now.Agency.ID}, assessment.OwnAccount, failedTries+strconv.Itoa(f.Untold), string(f.Person))
			if err != nil {
				return err
			}
		}
		if err := tx.Sessions.ForgetTries(ctx, f.Person, through); err != nil {
			return err
		}
	}
	return nil
}
