package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// Verified is what came of comparing records and ledger.
type Verified struct {
	Agencies int
	Leaves   int64 // leaves of the trees, all recomputed
	Heads    int64 // signed heads, all checked
	Waiting  int64 // entries without a place yet
	Begun    int64 // rows that were there before their table was kept
	Records  int64 // rows, all hashed anew
	Erased   int64 // times that an erasure took the content of a row, each with its hash before
	Found    int64 // how much does not match
	Findings []Finding

	ClocksSetRight []ClockSetRight
}

// ClockSetRight is a clock that ran ahead and was set right: what was sealed by it
// may be dated up to Ahead, though it was done before Back.
type ClockSetRight struct {
	Agency      assessment.AgencyID
	Ahead, Back time.Time
}

// Finding is one thing that does not match: the first one is the first row.
type Finding struct {
	Agency  assessment.AgencyID
	Kind    string // the table
	Subject string // the row's key within the agency
	Says    string
}

// mostFindings bounds what is listed; all are counted.
const mostFindings = 100

// audit is one agency being verified.
type audit struct {
	agency assessment.AgencyID
	keys   *ledger.Keys
	found  *Verified
	saved  []ledger.Head // kept by outsiders
	erased map[recordKey]bool
}

func (a *audit) note(kind, subject, format string, args ...any) {
	a.found.Found++
	if len(a.found.Findings) < mostFindings {
		a.found.Findings = append(a.found.Findings, Finding{a.agency, kind, subject, fmt.Sprintf(format, args...)})
	}
}

// Verify recomputes the ledger of every agency from the records themselves and
// says what does not match. The texts are heads that outsiders kept: today's tree
// must extend each of them. It changes nothing. An error is that it could not be
// looked at, not that something is wrong.
func (o *Office) Verify(ctx context.Context, kept ...[]byte) (Verified, error) {
	var found Verified
	if o.opt.Ledger == nil {
		return found, errNoLedgerKeys
	}
	saved, err := o.openKept(kept, &found)
	if err != nil {
		return found, err
	}
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return found, fmt.Errorf("list agencies: %w", err)
	}
	for _, id := range agencies {
		a := &audit{agency: id, keys: o.opt.Ledger, found: &found, saved: saved[id]}
		delete(saved, id)
		err := o.db.Reading(ctx, id, func(tx *postgres.Tx) error { return a.all(ctx, tx) })
		if err != nil {
			return found, fmt.Errorf("verify agency %s: %w", id, err)
		}
		found.Agencies++
	}
	for id := range saved {
		(&audit{agency: id, found: &found}).note("ledger_head", string(id), "a head of this agency was kept, and the agency is not here any more")
	}
	return found, nil
}

// openKept reads what outsiders kept. What no key has signed is a finding, and no
// proof of anything.
func (o *Office) openKept(kept [][]byte, found *Verified) (map[assessment.AgencyID][]ledger.Head, error) {
	saved := map[assessment.AgencyID][]ledger.Head{}
	for _, text := range kept {
		head, err := ledger.OpenHead(text, o.opt.Ledger.Verifiers())
		if err != nil {
			return nil, fmt.Errorf("read the head that was kept: %w", err)
		}
		id := assessment.AgencyID(head.Agency)
		saved[id] = append(saved[id], head)
	}
	return saved, nil
}

func (a *audit) all(ctx context.Context, tx *postgres.Tx) error {
	if err := tx.Audit.Patient(ctx); err != nil {
		return err
	}
	counts, err := tx.Audit.Counts(ctx)
	if err != nil {
		return fmt.Errorf("count the ledger: %w", err)
	}
	a.found.Leaves += counts.Leaves
	a.found.Heads += counts.Heads
	a.found.Waiting += counts.Waiting
	if err := a.tree(ctx, tx, counts); err != nil {
		return err
	}
	if err := a.waiting(ctx, tx); err != nil {
		return err
	}
	if err := tx.Audit.Whole(ctx); err != nil {
		return err
	}
	return a.records(ctx, tx)
}
