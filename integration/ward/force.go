package ward

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// PutInForce puts a draft in force as people do it: the first educator looks at what it
// changes, proposes it and signs; the second looks at it too, agrees and signs.
func (w *Ward) PutInForce(f office.PutInForceForm) {
	w.tb.Helper()
	f.Proof = Proof
	if err := TwoPutInForce(w.tb.Context(), w.Office, w.Educators[0], w.Educators[1], f, Proof); err != nil {
		w.tb.Fatal(err)
	}
}

// TwoPutInForce is PutInForce by anybody, who may be refused: first proposes with the proof
// of the form, second agrees with theirs.
func TwoPutInForce(ctx context.Context, o *office.Office, first, second assessment.Actor, f office.PutInForceForm, theirs office.Proof) error {
	p, err := Propose(ctx, o, first, f)
	if err != nil {
		return err
	}
	return Agree(ctx, o, second, p.ID, theirs)
}

// Propose looks at what a draft changes and proposes it.
func Propose(ctx context.Context, o *office.Office, by assessment.Actor, f office.PutInForceForm) (office.ProposalView, error) {
	seen, err := o.PreviewInForce(ctx, by, office.PreviewForm{Revision: f.Revision, Version: f.Version, RecheckBy: f.RecheckBy})
	if err != nil {
		return office.ProposalView{}, fmt.Errorf("look at what revision %s changes: %w", f.Revision, err)
	}
	f.Seen = seen.Version
	p, err := o.ProposeInForce(ctx, by, f)
	if err != nil {
		return p, fmt.Errorf("propose revision %s: %w", f.Revision, err)
	}
	return p, nil
}

// Agree looks at what a proposal changes and agrees to it.
func Agree(ctx context.Context, o *office.Office, by assessment.Actor, id assessment.ProposalID, proof office.Proof) error {
	d, err := o.Proposal(ctx, by, id)
	if err != nil {
		return fmt.Errorf("look at proposal %s: %w", id, err)
	}
	if err := o.AgreeInForce(ctx, by, office.AgreeForm{Proposal: id, Seen: d.Preview.Version, Proof: proof}); err != nil {
		return fmt.Errorf("agree to proposal %s: %w", id, err)
	}
	return nil
}
