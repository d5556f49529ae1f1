package office

import (
	"context"
	"fmt"
	"slices"
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
	Devices  int64 // sheets from devices, whose signatures were all checked again
	Checks   int64 // knowledge checks, all judged again
	Drills   int64 // drills, all held to their records
	Erased   int64 // times that an erasure took the content of a row, each with its hash before
	Found    int64 // how much does not match
	Findings []Finding
	Rules    []postgres.Difference // by which the database is not what this program's migrations make; each counts as found

	Ledgers        []VerifiedLedger // one an agency
	ClocksSetRight []ClockSetRight
}

// VerifiedLedger is what was verified of one agency.
type VerifiedLedger struct {
	Agency assessment.AgencyID
	Code   string // empty: the agency's own row is gone
	Leaves int64
	Sealed time.Time // of the newest head; zero: there is none
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
	erased map[postgres.RowKey]bool
	leaves int64
	sealed time.Time // of the newest head
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
//
// The database's own rules come first: a trigger, view or function that was changed could
// have it read other rows than there are. For the same reason it calls no function that the
// database could have otherwise but door_ledgers and those of row security, which are among
// these rules. It trusts PostgreSQL itself: a superuser who changes pg_catalog is beyond it.
func (o *Office) Verify(ctx context.Context, kept ...[]byte) (Verified, error) {
	var found Verified
	if o.opt.Ledger == nil {
		return found, errNoLedgerKeys
	}
	saved, err := o.openKept(kept, &found)
	if err != nil {
		return found, err
	}
	before, err := o.db.AtDoor().Differences(ctx)
	if err != nil {
		return found, err
	}
	found.rules(before)
	agencies, err := o.db.AtDoor().Ledgers(ctx)
	if err != nil {
		return found, fmt.Errorf("list agencies: %w", err)
	}
	for _, g := range agencies {
		a := &audit{agency: g.ID, keys: o.opt.Ledger, found: &found, saved: saved[g.ID]}
		delete(saved, g.ID)
		err := o.db.Reading(ctx, g.ID, func(tx *postgres.Tx) error { return a.all(ctx, tx) })
		if err != nil {
			return found, fmt.Errorf("verify agency %s: %w", g.ID, err)
		}
		if g.Code == "" {
			a.note("agency", string(g.ID), "the row of this agency is gone, and there are rows of its own")
		}
		found.Agencies++
		found.Ledgers = append(found.Ledgers, VerifiedLedger{g.ID, g.Code, a.leaves, a.sealed})
	}
	after, err := o.db.AtDoor().Differences(ctx) // what was otherwise only meanwhile
	if err != nil {
		return found, err
	}
	found.rules(after)
	for id := range saved {
		(&audit{agency: id, found: &found}).note("ledger_head", string(id), "a head of this agency was kept, and the agency is not here any more")
	}
	return found, nil
}

// rules notes by what the database's own rules are not those of this program: then
// what was read in it may not be what is there.
func (v *Verified) rules(differ []postgres.Difference) {
	for _, d := range differ {
		if !slices.Contains(v.Rules, d) {
			v.Rules = append(v.Rules, d)
			v.Found++
		}
	}
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
	a.leaves = counts.Leaves
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
	if err := a.records(ctx, tx); err != nil {
		return err
	}
	if err := a.drills(ctx, tx); err != nil {
		return err
	}
	if err := a.checks(ctx, tx); err != nil {
		return err
	}
	return a.devices(ctx, tx)
}
