package office

import (
	"bytes"
	"context"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PreviewForm says what coming into force is to be seen beforehand.
type PreviewForm struct {
	Revision  assessment.RevisionID
	Version   string // of the text that was read
	RecheckBy string // YYYY-MM-DD; empty: no recheck is demanded
}

// PreviewInForce tells what putting a draft in force today would change. It asks for what
// proposing it asks for, but for a statement and a signature.
func (o *Office) PreviewInForce(ctx context.Context, by assessment.Actor, f PreviewForm) (Preview, error) {
	return o.previewInForce(ctx, by, PutInForceForm{Revision: f.Revision, Version: f.Version, RecheckBy: f.RecheckBy})
}

func (o *Office) previewInForce(ctx context.Context, by assessment.Actor, f PutInForceForm) (Preview, error) {
	return o.rehearse(ctx, by, assessment.PutInForce, f.Seen, func(tx *postgres.Tx, now Moment) error {
		var faults form
		recheck := faults.recheck(f.RecheckBy, now)
		if err := faults.Err(); err != nil {
			return err
		}
		p, r, err := o.toPropose(ctx, tx, now, by, f, recheck)
		if err != nil {
			return err
		}
		p.Statement = lookedAt
		if err := tx.Force.Propose(ctx, p); err != nil {
			return err
		}
		second := by // who will agree is not known yet, and nothing rests on it
		if second.Person, err = somebodyElse(ctx, tx, by.Person); err != nil {
			return err
		}
		return o.putInForce(ctx, tx, now, second, r, p)
	})
}

// somebodyElse is anybody of the agency but one: a rehearsal needs a second person, who
// leaves no trace.
func somebodyElse(ctx context.Context, tx *postgres.Tx, but assessment.PersonID) (assessment.PersonID, error) {
	people, err := tx.People.List(ctx, postgres.PeopleFilter{IncludeLeft: true})
	if err != nil {
		return "", err
	}
	for _, p := range people {
		if p.ID != but {
			return p.ID, nil
		}
	}
	return "", fault.Of(fault.Refused, "It takes two people to put a checklist in force, and there is nobody else in your agency yet. Add another licensed educator under People first.")
}

// ProposeInForce is the first of two who put a draft in force: a licensed educator who has
// read it and looked at what it changes, and signs for it. It decides nothing before
// somebody else has agreed.
func (o *Office) ProposeInForce(ctx context.Context, by assessment.Actor, f PutInForceForm) (ProposalView, error) {
	var v ProposalView
	proof := f.Proof.over(f)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		recheck, err := f.check(now)
		if err != nil {
			return "", err
		}
		_, r, err := o.toPropose(ctx, tx, now, by, f, recheck)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) { return f.says(r, recheck), nil })
	}
	if err := o.seenInForce(ctx, by, f, look); err != nil {
		return v, err
	}
	err := o.signing(ctx, by, assessment.PutInForce, proof, look, func(tx *postgres.Tx, now Moment) error {
		recheck, err := f.check(now)
		if err != nil {
			return err
		}
		if _, err := o.lockDraft(ctx, tx, f.Revision); err != nil {
			return err
		}
		p, _, err := o.toPropose(ctx, tx, now, by, f, recheck)
		if err != nil {
			return err
		}
		if err := tx.Force.Propose(ctx, p); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.PutInForce, "proposal", string(p.ID)); err != nil {
			return err
		}
		p, err = tx.Force.Get(ctx, p.ID)
		v = viewProposal(p, now)
		return err
	})
	return v, err
}

// seenInForce refuses whoever has not looked at what it changes as it is now; what can be
// refused without that comes first.
func (o *Office) seenInForce(ctx context.Context, by assessment.Actor, f PutInForceForm, look func(*postgres.Tx, Moment) (assessment.PersonID, error)) error {
	err := o.before(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
		_, err := look(tx, now)
		return err
	})
	if err != nil {
		return err
	}
	preview, err := o.previewInForce(ctx, by, f)
	if err == nil && preview.Version != f.Seen {
		err = errPreviewed
	}
	return err
}

// toPropose is a proposal as it would be kept, and its draft. It refuses whoever may not
// propose it, and a draft that may not come in force or that somebody has proposed.
func (o *Office) toPropose(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f PutInForceForm, recheck civil.Date) (postgres.ForceProposal, postgres.Revision, error) {
	var p postgres.ForceProposal
	if err := o.mustBeLicensed(ctx, tx, by, now); err != nil {
		return p, postgres.Revision{}, err
	}
	r, err := tx.Checklists.Revision(ctx, f.Revision)
	if err != nil {
		return p, r, err
	}
	if err := f.mayStillSign(r); err != nil {
		return p, r, err
	}
	if err := notProposed(ctx, tx, r); err != nil {
		return p, r, err
	}
	if err := o.mayComeInForce(ctx, tx, r); err != nil {
		return p, r, err
	}
	p = postgres.ForceProposal{SkillID: r.SkillID, RevisionID: r.ID, Number: r.Number, Code: r.Code, Title: r.Title, SHA256: bytes.Clone(r.SHA256),
		Statement: strings.TrimSpace(f.Statement), RecheckOn: recheck, ProposedBy: by.Person, Proposer: by.Name, ProposedAt: now.At}
	p.ID, err = newID[assessment.ProposalID](o, now.At)
	return p, r, err
}

// waitingOf is the proposal of a revision that waits for a second person; the zero one
// where none does.
func waitingOf(ctx context.Context, tx *postgres.Tx, id assessment.RevisionID) (postgres.ForceProposal, error) {
	all, err := tx.Force.Of(ctx, id)
	for _, p := range all {
		if p.Verdict == "" {
			return p, err
		}
	}
	return postgres.ForceProposal{}, err
}
