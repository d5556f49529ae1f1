package office

import (
	"bytes"
	"cmp"
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// AgreeForm is the second person's word on a proposal.
type AgreeForm struct {
	Proposal assessment.ProposalID
	Seen     string // the version of the preview that was looked at
	Proof    Proof
}

// AgreeInForce is the second of two who put a draft in force: another licensed educator,
// who has looked at what it changes as of now, and signs. From then on it is in force.
// Where it would change something else by now than was looked at, nothing is done.
func (o *Office) AgreeInForce(ctx context.Context, by assessment.Actor, f AgreeForm) error {
	proof := f.Proof.over("agree", f.Proposal, f.Seen)
	look := func(tx *postgres.Tx, now Moment) (signers, error) {
		p, r, err := o.toAgree(ctx, tx, now, by, f.Proposal)
		if err != nil {
			return signers{}, err
		}
		if _, today := seenSince(f.Seen, now); !today {
			return signers{}, errPreviewed
		}
		return signers{by.Person, []assessment.PersonID{p.ProposedBy}, true}, proof.tell(func() (string, error) { return saysAgree(p, r), nil })
	}
	return o.signingBeside(ctx, by, assessment.PutInForce, proof, look, func(tx *postgres.Tx, now Moment) error {
		p, err := lockProposal(ctx, tx, f.Proposal)
		if err != nil {
			return err
		}
		p, r, err := o.toAgree(ctx, tx, now, by, p.ID)
		if err != nil {
			return err
		}
		since, today := seenSince(f.Seen, now)
		if !today {
			return errPreviewed
		}
		if err := tx.History.LockAll(ctx); err != nil { // so that before and after are told of the same
			return fmt.Errorf("lock all histories: %w", err)
		}
		v, err := o.compared(ctx, tx, now, since, func(tx *postgres.Tx, now Moment) error { return o.putInForce(ctx, tx, now, by, r, p) })
		if err == nil && v.Version != f.Seen {
			err = errPreviewed
		}
		return err
	})
}

// previewAgreeing tells what agreeing now would change.
func (o *Office) previewAgreeing(ctx context.Context, by assessment.Actor, id assessment.ProposalID) (Preview, error) {
	return o.rehearse(ctx, by, assessment.PutInForce, "", func(tx *postgres.Tx, now Moment) error {
		p, r, err := o.toAgree(ctx, tx, now, by, id)
		if err != nil {
			return err
		}
		return o.putInForce(ctx, tx, now, by, r, p)
	})
}

// lockProposal waits for whoever decides on the same proposal or changes its draft.
func lockProposal(ctx context.Context, tx *postgres.Tx, id assessment.ProposalID) (postgres.ForceProposal, error) {
	p, err := tx.Force.Get(ctx, id)
	if err != nil {
		return p, err
	}
	if err := tx.Checklists.LockSkill(ctx, p.SkillID); err != nil {
		return p, err
	}
	return tx.Force.Get(ctx, id)
}

// toAgree is a proposal that waits, with its draft. It refuses whoever may not agree to
// it, and what could not come in force as it was proposed.
func (o *Office) toAgree(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, id assessment.ProposalID) (postgres.ForceProposal, postgres.Revision, error) {
	p, err := openProposal(ctx, tx, id)
	if err != nil {
		return p, postgres.Revision{}, err
	}
	if err := assessment.SecondForForce(p.ProposedBy, by.Person); err != nil {
		return p, postgres.Revision{}, err
	}
	if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
		return p, postgres.Revision{}, err
	}
	if err := secondPerson(ctx, tx, now, by.Person, p.ProposedBy, p.ProposedAt, "You cannot agree to what "+p.Proposer+" has proposed"); err != nil {
		return p, postgres.Revision{}, err
	}
	if err := o.stillProposes(ctx, tx, now, by.Agency, p); err != nil {
		return p, postgres.Revision{}, err
	}
	r, err := tx.Checklists.Revision(ctx, p.RevisionID)
	switch {
	case err != nil:
		return p, r, err
	case !bytes.Equal(r.SHA256, p.SHA256):
		return p, r, fault.Of(fault.Conflict, "%s has saved this draft since it was proposed. Decline it, and have it proposed as it is now.", cmp.Or(r.DraftedBy, "Somebody"))
	case !p.RecheckOn.IsZero() && p.RecheckOn.Before(now.Today):
		return p, r, fault.Of(fault.Refused, "It was to be shown anew by %s, and that day is past. Decline it, and have it proposed with another day.", p.RecheckOn)
	}
	if err := mustBeDraft(r); err != nil {
		return p, r, err
	}
	return p, r, o.mayComeInForce(ctx, tx, r)
}

func openProposal(ctx context.Context, tx *postgres.Tx, id assessment.ProposalID) (postgres.ForceProposal, error) {
	p, err := tx.Force.Get(ctx, id)
	if err == nil && p.Verdict != "" {
		return p, decided(p)
	}
	return p, err
}

func decided(p postgres.ForceProposal) error {
	return fault.Of(fault.Conflict, "This proposal has been decided already: %s by %s.", p.Verdict, p.Ender)
}

// stillProposes refuses what was proposed by somebody who could not propose it any more.
func (o *Office) stillProposes(ctx context.Context, tx *postgres.Tx, now Moment, agency assessment.AgencyID, p postgres.ForceProposal) error {
	who, err := tx.People.Get(ctx, p.ProposedBy)
	if err != nil {
		return err
	}
	first := actorOf(agency, who)
	may := !gone(who.LeftOn, now.Today) && first.May(assessment.PutInForce) == nil
	if may {
		err = o.mustBeLicensed(ctx, tx, first, now)
		may = fault.KindOf(err) != fault.Refused
	}
	if !may {
		return fault.Of(fault.Refused, "%s, who has proposed it, is no licensed educator of yours any more. Decline it, and propose it yourself: somebody else then agrees.", p.Proposer)
	}
	return err
}

// DropProposal ends a proposal without anything coming in force: whoever made it takes it
// back, anybody else who may put in force declines it and says why.
func (o *Office) DropProposal(ctx context.Context, by assessment.Actor, id assessment.ProposalID, reason string) (ProposalView, error) {
	var v ProposalView
	err := o.as(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
		p, err := lockProposal(ctx, tx, id)
		if err != nil {
			return err
		}
		verdict := assessment.ForceDeclined
		if p.ProposedBy == by.Person {
			verdict = assessment.ForceTakenBack
		}
		if p.Verdict != "" {
			return decided(p)
		}
		var faults form
		why := faults.words("reason", reason, 2000)
		if verdict == assessment.ForceDeclined {
			faults.reason(reason, "Say what is to be changed first. "+p.Proposer+" reads it.")
		}
		if err := faults.Err(); err != nil {
			return err
		}
		if err := tx.Force.End(ctx, id, verdict, why, by.Person, now.At); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.PutInForce, "proposal "+string(verdict), string(id)); err != nil {
			return err
		}
		p, err = tx.Force.Get(ctx, id)
		v = viewProposal(p, now)
		return err
	})
	return v, err
}
