package office

import (
	"context"
	"errors"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// HeadView is the newest signed head of the agency's ledger, and what can check it.
type HeadView struct {
	ledger.Head
	Signed string   // the text to keep
	Keys   []string // public halves of the keys, the signing one last
}

// LedgerHead is the newest head of the agency's ledger.
func (o *Office) LedgerHead(ctx context.Context, by assessment.Actor) (HeadView, error) {
	var v HeadView
	if err := o.sealNow(ctx, by, assessment.ReadLedger); err != nil {
		return v, err
	}
	err := o.as(ctx, by, assessment.ReadLedger, func(tx *postgres.Tx, now Moment) (err error) {
		v, err = o.newestHead(ctx, tx, now)
		return err
	})
	return v, err
}

// sealNow seals what waits, so that what was just done is in the answer. That
// another sealer is at it is no fault.
func (o *Office) sealNow(ctx context.Context, by assessment.Actor, act assessment.Act) error {
	if err := by.May(act); err != nil {
		return err
	}
	if _, err := o.Seal(ctx, by.Agency); err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	return nil
}

func (o *Office) newestHead(ctx context.Context, tx *postgres.Tx, now Moment) (HeadView, error) {
	kept, err := tx.Ledger.Newest(ctx)
	if err != nil {
		return HeadView{}, err
	}
	head, err := o.openHead(now.Agency.ID, kept)
	return HeadView{Head: head, Signed: kept.Signed, Keys: o.opt.Ledger.Public()}, err
}

// ExtendsView is what came of holding a head that somebody kept against the ledger.
type ExtendsView struct {
	Kept      ledger.Head
	Now       HeadView
	Extension ledger.Extension
	Extends   bool   // today's ledger holds all that was in the kept one, unchanged
	Why       string // where it does not
}

// Extends holds a head that an outsider kept against today's ledger, which the
// answer shows even where what was kept cannot be read.
func (o *Office) Extends(ctx context.Context, by assessment.Actor, kept string) (ExtendsView, error) {
	var v ExtendsView
	err := o.as(ctx, by, assessment.ReadLedger, func(tx *postgres.Tx, now Moment) (err error) {
		if v.Now, err = o.newestHead(ctx, tx, now); err != nil {
			return err
		}
		v.Kept, err = ledger.OpenHead([]byte(kept), o.opt.Ledger.Verifiers())
		if err != nil || v.Kept.Agency != string(by.Agency) {
			return fault.Of(fault.Refused, "This is no head that this agency's ledger has signed. Paste the whole text as it was kept, from its first line to the signature.")
		}
		v.Extension, v.Why, err = extension(ctx, tx, kept, v.Kept, v.Now)
		return err
	})
	if err != nil || v.Why != "" {
		return v, err
	}
	if _, _, err := v.Extension.Check(o.opt.Ledger.Verifiers()); err != nil {
		v.Why = "History was rewritten: what was in the ledger then is not what is in it now."
	}
	v.Extends = v.Why == ""
	return v, nil
}

func extension(ctx context.Context, tx *postgres.Tx, kept string, head ledger.Head, now HeadView) (ledger.Extension, string, error) {
	e := ledger.Extension{From: kept, To: now.Signed}
	if head.Size > now.Size {
		return e, fmt.Sprintf("History was cut off: there were %d entries then, and there are %d now.", head.Size, now.Size), nil
	}
	needs, err := ledger.NeedsOfConsistency(head.Size, now.Size)
	if err != nil {
		return e, "", err
	}
	paths, err := proofPaths(ctx, tx, needs)
	switch {
	case errors.Is(err, errPartsGone):
		return e, err.Error(), nil
	case err == nil:
		e.Path = paths[0]
	}
	return e, "", err
}
