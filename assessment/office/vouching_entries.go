package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// writing runs fn in one transaction of an agency, and vouches in the end for what it
// entered into the ledger.
func (o *Office) writing(ctx context.Context, agency assessment.AgencyID, fn func(*postgres.Tx) error) error {
	return o.db.InAgency(ctx, agency, o.vouched(ctx, fn))
}

// aside is writing for what is kept even where the transaction that it happens in is
// not.
func (o *Office) aside(ctx context.Context, agency assessment.AgencyID, fn func(*postgres.Tx) error) error {
	return o.db.Aside(ctx, agency, o.vouched(ctx, fn))
}

func (o *Office) vouched(ctx context.Context, fn func(*postgres.Tx) error) func(*postgres.Tx) error {
	return func(tx *postgres.Tx) error {
		if err := fn(tx); err != nil {
			return err
		}
		return o.vouchEntries(ctx, tx)
	}
}

// vouchEntries says that this program has written what the transaction entered. An
// office without the keys cannot: the sealer calls what it wrote written outside the
// program.
func (o *Office) vouchEntries(ctx context.Context, tx *postgres.Tx) error {
	if o.opt.Ledger == nil {
		return nil
	}
	w, err := tx.Ledger.Written(ctx)
	if err != nil {
		return fmt.Errorf("read what was entered into the ledger: %w", err)
	}
	if w.In == "" {
		return nil
	}
	if err := tx.Ledger.Vouch(ctx, w.In, o.opt.Ledger.Vouch(w)); err != nil {
		return fmt.Errorf("vouch for what was entered into the ledger: %w", err)
	}
	return nil
}

// The acts of entries that are nobody's.
const (
	outside = "outside the program" // written by somebody who has the database and not the keys
	before  = "begin the ledger"    // of a row that was there before its table was kept
)

// asVouched is an entry as it is sealed: what nobody vouches for was written outside
// the program, whatever it says of itself.
func asVouched(keys *ledger.Keys, agency assessment.AgencyID, w postgres.Waiting) postgres.Waiting {
	genuine := w.WrittenIn == "" && w.Act == before || w.WrittenIn != "" && keys.Vouched(w.Written(agency), w.Tag)
	if !genuine {
		w.Act = outside
	}
	return w
}

// waiting looks at entries that have no place yet, for what nobody vouches for.
func (a *audit) waiting(ctx context.Context, tx *postgres.Tx) error {
	for after := int64(0); ; {
		entries, err := tx.Ledger.Waiting(ctx, after, mostSealed)
		if err != nil {
			return fmt.Errorf("read what waits to be sealed: %w", err)
		}
		for _, w := range entries {
			if e := asVouched(a.keys, a.agency, w); e.Act == outside && w.Act != outside {
				a.note(w.Kind, w.Subject, "written outside the program, %s", w.At.UTC().Format("2006-01-02 15:04:05 MST"))
			}
			after = max(after, w.Number)
		}
		if len(entries) < mostSealed {
			return nil
		}
	}
}
