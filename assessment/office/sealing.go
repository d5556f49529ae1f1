package office

import (
	"context"
	"errors"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// mostSealed is how many entries get their places in one transaction.
const mostSealed = 5000

var errNoLedgerKeys = fault.Of(fault.Refused, "The keys of the ledger are not known here, so nothing can be sealed or proven.")

// clockSlack is how far the clock may fall behind the newest sealed head: machines
// set theirs right by small steps.
const clockSlack = time.Minute

// clockGoesOn refuses to do anything while the clock shows a time before the last
// seal. Who is competent depends on the day, and a day that comes twice could make
// somebody current again.
func clockGoesOn(now time.Time, sealed *time.Time) error {
	if sealed == nil || !now.Before(sealed.Add(-clockSlack)) {
		return nil
	}
	return fault.Of(fault.Busy, "The clock of this server shows %s, which is before the last seal of the ledger, %s. Nothing is shown or recorded until it is right. Tell whoever runs the server.",
		now.UTC().Format("2006-01-02 15:04 MST"), sealed.UTC().Format("2006-01-02 15:04 MST"))
}

// SealAll seals whatever waits, in every agency, and tells how many entries got
// their places.
func (o *Office) SealAll(ctx context.Context) (int, error) {
	agencies, err := o.db.AtDoor().WithWaiting(ctx)
	if err != nil {
		return 0, fmt.Errorf("list the agencies whose ledger waits: %w", err)
	}
	all := 0
	var faults []error
	for _, id := range agencies {
		n, err := o.sealWhole(ctx, id)
		all += n
		if err != nil { // the others' ledgers go on
			faults = append(faults, fmt.Errorf("seal the ledger of agency %s: %w", id, err))
		}
	}
	return all, errors.Join(faults...)
}

// sealWhole seals whatever waits in one agency.
func (o *Office) sealWhole(ctx context.Context, agency assessment.AgencyID) (int, error) {
	for all := 0; ; {
		n, err := o.Seal(ctx, agency)
		all += n
		if err != nil || n < mostSealed {
			return all, err
		}
	}
}

// Seal gives up to 5,000 waiting entries of an agency their places and signs the
// head of the tree. It does nothing while another sealer is at it.
func (o *Office) Seal(ctx context.Context, agency assessment.AgencyID) (int, error) {
	if o.opt.Ledger == nil {
		return 0, errNoLedgerKeys
	}
	sealed := 0
	err := o.in(ctx, agency, func(tx *postgres.Tx, now Moment) (err error) {
		sealed, err = o.seal(ctx, tx, now, false)
		return err
	})
	return sealed, err
}

// seal is Seal; back says that the head may be dated before the one before it.
func (o *Office) seal(ctx context.Context, tx *postgres.Tx, now Moment, back bool) (int, error) {
	if mine, err := tx.Ledger.Turn(ctx); err != nil || !mine {
		return 0, err
	}
	waiting, err := tx.Ledger.Waiting(ctx, 0, mostSealed)
	if err != nil || len(waiting) == 0 {
		return 0, err
	}
	for i, w := range waiting {
		waiting[i] = asVouched(o.opt.Ledger, now.Agency.ID, w)
	}
	last, tree, err := o.takeUp(ctx, tx, now.Agency.ID)
	if err != nil {
		return 0, err
	}
	leaves, nodes, err := grow(tree, now.Agency.ID, waiting)
	if err != nil {
		return 0, err
	}
	if err := tx.Ledger.Keep(ctx, waiting, leaves, nodes); err != nil {
		return 0, fmt.Errorf("keep the leaves: %w", err)
	}
	if back {
		last.At = time.Time{}
	}
	return len(leaves), o.signHead(ctx, tx, now, tree, last.At)
}

// takeUp is the tree as it was sealed last. What is stored must be what was signed:
// a head whose key is not known, or whose root is not that of the stored nodes, is
// never built upon.
func (o *Office) takeUp(ctx context.Context, tx *postgres.Tx, agency assessment.AgencyID) (ledger.Head, *ledger.Tree, error) {
	kept, err := tx.Ledger.Newest(ctx)
	if fault.KindOf(err) == fault.NotFound {
		return ledger.Head{}, ledger.NewTree(), nil
	}
	if err != nil {
		return ledger.Head{}, nil, fmt.Errorf("read the newest head: %w", err)
	}
	head, err := o.openHead(agency, kept)
	if err != nil {
		return head, nil, err
	}
	edge, err := tx.Ledger.Hashes(ctx, ledger.Edge(head.Size))
	if err != nil {
		return head, nil, fmt.Errorf("read the edge of the tree: %w", err)
	}
	tree, err := ledger.Continue(head.Size, edge)
	if err != nil {
		return head, nil, err
	}
	root, err := tree.Root()
	if err != nil {
		return head, nil, err
	}
	if string(root) != string(head.Root) {
		return head, nil, fmt.Errorf("the stored tree is not the one that was signed at %d leaves: run wellshown verify", head.Size)
	}
	return head, tree, nil
}

// LedgerFits refuses where the newest head of an agency was signed by a key that is
// not in the key file: nothing more could be sealed.
func (o *Office) LedgerFits(ctx context.Context) error {
	agencies, err := o.db.AtDoor().Agencies(ctx)
	if err != nil {
		return fmt.Errorf("list agencies: %w", err)
	}
	for _, id := range agencies {
		err := o.db.Reading(ctx, id, func(tx *postgres.Tx) error {
			kept, err := tx.Ledger.Newest(ctx)
			if fault.KindOf(err) == fault.NotFound {
				return nil
			}
			if err != nil {
				return err
			}
			_, err = o.openHead(id, kept)
			return err
		})
		if err != nil {
			return fmt.Errorf("read the ledger of agency %s: %w", id, err)
		}
	}
	return nil
}

// openHead checks a stored head against the keys.
func (o *Office) openHead(agency assessment.AgencyID, kept postgres.SignedHead) (ledger.Head, error) {
	if o.opt.Ledger == nil {
		return ledger.Head{}, errNoLedgerKeys
	}
	head, err := ledger.OpenHead([]byte(kept.Signed), o.opt.Ledger.Verifiers())
	if err != nil {
		return head, fmt.Errorf("the head of %d leaves is not signed by a key of the key file: put back the key file it was signed with: %w", kept.Size, err)
	}
	if head.Agency != string(agency) || head.Size != kept.Size {
		return head, fmt.Errorf("the head kept for %d leaves is that of another tree: run wellshown verify", kept.Size)
	}
	return head, nil
}

func grow(tree *ledger.Tree, agency assessment.AgencyID, waiting []postgres.Waiting) ([]postgres.Sealed, []ledger.Node, error) {
	leaves, above := make([]postgres.Sealed, len(waiting)), []ledger.Node{}
	for i, w := range waiting {
		hash, err := w.Leaf(agency).Hash()
		if err != nil {
			return nil, nil, err
		}
		leaves[i] = postgres.Sealed{Position: tree.Size(), Entry: w.Entry, Hash: hash}
		nodes, err := tree.Append(hash)
		if err != nil {
			return nil, nil, err
		}
		above = append(above, nodes[1:]...) // the first is the leaf itself
	}
	return leaves, above, nil
}

func (o *Office) signHead(ctx context.Context, tx *postgres.Tx, now Moment, tree *ledger.Tree, before time.Time) error {
	root, err := tree.Root()
	if err != nil {
		return err
	}
	at := now.At.Truncate(time.Second)
	if at.Before(before) { // within the slack of the clock
		at = before
	}
	signed, err := ledger.Head{Agency: string(now.Agency.ID), Size: tree.Size(), Root: root, At: at}.Sign(o.opt.Ledger.Signer())
	if err != nil {
		return err
	}
	if err := tx.Ledger.AddHead(ctx, postgres.SignedHead{Size: tree.Size(), Signed: string(signed), SealedAt: at}); err != nil {
		return fmt.Errorf("keep the head: %w", err)
	}
	return nil
}
