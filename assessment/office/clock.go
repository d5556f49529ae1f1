package office

import (
	"context"
	"fmt"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// setClockRight is what the ledger calls the going back of a clock that ran ahead.
const setClockRight assessment.Act = "set the clock right"

// clockAhead begins the line of the journal about it; the time that the clock showed
// when the ledger was sealed last follows.
const clockAhead = "clock was ahead, sealed "

// SetClockRight goes on from the clock as it is now where the ledger of an agency was
// sealed by a clock that ran ahead. Without it nothing is shown or recorded until that
// time has come. It stays in the ledger, and Verify tells of it. It gives the codes of
// the agencies that it was done for; where no clock ran ahead, it is refused.
func (o *Office) SetClockRight(ctx context.Context) ([]string, error) {
	if o.opt.Ledger == nil {
		return nil, errNoLedgerKeys
	}
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return nil, fmt.Errorf("list agencies: %w", err)
	}
	var done []string
	for _, id := range agencies {
		code, err := o.setClockRight(ctx, id)
		if err != nil {
			return done, fmt.Errorf("set the clock of agency %s right: %w", id, err)
		}
		if code != "" {
			done = append(done, code)
		}
	}
	if len(done) == 0 {
		return nil, fault.Of(fault.Refused, "The clock shows no time before the last seal of any ledger, so there is nothing to set right.")
	}
	return done, nil
}

// setClockRight gives the agency's code, or nothing where its ledger is not ahead.
func (o *Office) setClockRight(ctx context.Context, agency assessment.AgencyID) (string, error) {
	code := ""
	err := o.db.InAgency(ctx, agency, func(tx *postgres.Tx) error {
		at := o.now()
		entered, err := tx.Agencies.Enter(ctx, postgres.Deed{Act: string(setClockRight), At: at})
		if err != nil {
			return err
		}
		if clockGoesOn(at, entered.SealedAt) == nil {
			return nil
		}
		now, err := momentIn(entered.Agency, at)
		if err != nil {
			return err
		}
		kind := clockAhead + entered.SealedAt.UTC().Format(time.RFC3339)
		if err := o.note(ctx, tx, now, assessment.Actor{Agency: agency}, setClockRight, kind, string(agency)); err != nil {
			return err
		}
		if err := o.vouchEntries(ctx, tx); err != nil {
			return err
		}
		code = entered.Code
		return o.sealBack(ctx, tx, now)
	})
	return code, err
}

func (o *Office) sealBack(ctx context.Context, tx *postgres.Tx, now Moment) error {
	n, err := o.seal(ctx, tx, now, true)
	if err == nil && n == 0 {
		err = fault.Of(fault.Busy, "The ledger is being sealed by another service. Stop it first, and set its clock right.")
	}
	return err
}

// clocksSetRight are the times, by the second, up to which clocks that were set right
// had run ahead.
func clocksSetRight(ctx context.Context, tx *postgres.Tx) (map[int64]bool, error) {
	kinds, err := tx.Journal.Kinds(ctx, string(setClockRight))
	if err != nil {
		return nil, fmt.Errorf("list clocks that were set right: %w", err)
	}
	ahead := map[int64]bool{}
	for _, kind := range kinds {
		if at, err := time.Parse(time.RFC3339, strings.TrimPrefix(kind, clockAhead)); err == nil {
			ahead[at.Unix()] = true
		}
	}
	return ahead, nil
}
