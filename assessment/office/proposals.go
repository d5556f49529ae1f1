package office

import (
	"context"
	"encoding/hex"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ProposalView is a proposal to put a revision in force, with what became of it.
type ProposalView struct {
	ID         assessment.ProposalID
	Revision   assessment.RevisionID
	Skill      assessment.SkillID
	Code       string
	Title      string
	Number     int
	Version    string // of the text that was proposed, as a RevisionView tells it
	Statement  string
	RecheckBy  civil.Date // zero: no recheck is demanded
	ProposedBy PersonRef
	ProposedAt time.Time               // on the agency's clocks
	Verdict    assessment.ForceVerdict // empty: it waits for a second person
	Reason     string                  // why it was declined
	EndedBy    PersonRef               // who agreed, declined or took it back
	EndedAt    time.Time               // zero while it waits
}

func viewProposal(p postgres.ForceProposal, now Moment) ProposalView {
	v := ProposalView{ID: p.ID, Revision: p.RevisionID, Skill: p.SkillID, Code: p.Code, Title: p.Title, Number: p.Number, Version: hex.EncodeToString(p.SHA256),
		Statement: p.Statement, RecheckBy: p.RecheckOn, ProposedBy: PersonRef{ID: p.ProposedBy, Name: p.Proposer}, ProposedAt: p.ProposedAt.In(now.Zone),
		Verdict: p.Verdict, Reason: p.Reason, EndedBy: PersonRef{ID: p.EndedBy, Name: p.Ender}}
	if p.EndedAt != nil {
		v.EndedAt = p.EndedAt.In(now.Zone)
	}
	return v
}

// WaitingProposal is a proposal for whoever looks at what waits.
type WaitingProposal struct {
	ProposalView
	Mine bool // whoever looks has made it: it waits for somebody else
}

// Proposals lists what waits for a second person, the oldest first, to whoever may put
// checklists in force.
func (o *Office) Proposals(ctx context.Context, by assessment.Actor) ([]WaitingProposal, error) {
	var all []WaitingProposal
	err := o.before(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
		var err error
		all, err = waitingProposals(ctx, tx, now, by)
		return err
	})
	return all, err
}

// waitingProposals is none to whoever may not put in force.
func waitingProposals(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) ([]WaitingProposal, error) {
	if by.May(assessment.PutInForce) != nil {
		return nil, nil
	}
	open, err := tx.Force.Open(ctx)
	if err != nil {
		return nil, err
	}
	var all []WaitingProposal
	for _, p := range open {
		all = append(all, WaitingProposal{viewProposal(p, now), p.ProposedBy == by.Person})
	}
	slices.SortStableFunc(all, func(a, b WaitingProposal) int { // what somebody else has made comes first
		switch {
		case a.Mine == b.Mine:
			return 0
		case b.Mine:
			return -1
		}
		return 1
	})
	return all, nil
}

// ProposalDesk is a proposal with all that whoever decides on it has to know.
type ProposalDesk struct {
	ProposalView
	Checklist assessment.Checklist // as it was proposed; the zero one where the draft is another one by now
	Replaces  RevisionView         // empty: nothing
	Mine      bool                 // whoever looks has made it
	MayNot    string               // why they cannot agree to it now; empty: they can
	Preview   Preview              // what agreeing now would change; empty where they cannot
	Licence   string               // of whoever would sign
	Now       time.Time            // when they would
}

// Proposal is one proposal.
func (o *Office) Proposal(ctx context.Context, by assessment.Actor, id assessment.ProposalID) (ProposalDesk, error) {
	var d ProposalDesk
	err := o.before(ctx, by, assessment.PutInForce, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.Force.Get(ctx, id)
		if err != nil {
			return err
		}
		d = ProposalDesk{ProposalView: viewProposal(p, now), Mine: p.ProposedBy == by.Person, Now: now.At.In(now.Zone)}
		if p.Verdict != "" {
			return nil
		}
		_, r, err := o.toAgree(ctx, tx, now, by, id)
		switch kind := fault.KindOf(err); {
		case err == nil:
		case kind == fault.Refused || kind == fault.Conflict:
			d.MayNot = asSaid(err)
		default:
			return err
		}
		if r.ID == "" {
			if r, err = tx.Checklists.Revision(ctx, p.RevisionID); err != nil {
				return err
			}
		}
		return o.readProposed(ctx, tx, now, by, r, &d)
	})
	if err != nil || d.Verdict != "" || d.MayNot != "" {
		return d, err
	}
	d.Preview, err = o.previewAgreeing(ctx, by, id)
	return d, err
}

func (o *Office) readProposed(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, r postgres.Revision, d *ProposalDesk) error {
	list, err := o.listOf(ctx, tx, r)
	if err != nil {
		return err
	}
	if hex.EncodeToString(r.SHA256) == d.Version {
		d.Checklist = *list
	}
	if d.Licence, err = printedLicence(ctx, tx, now, by.Person); err != nil {
		return err
	}
	d.Replaces, err = inForceOf(ctx, tx, r.SkillID)
	return err
}

// inForceOf is the revision of a skill that is in force; the empty one where none is.
func inForceOf(ctx context.Context, tx *postgres.Tx, skill assessment.SkillID) (RevisionView, error) {
	all, err := tx.Checklists.Revisions(ctx, skill)
	for _, r := range all {
		if r.State == assessment.InForce {
			return viewRevision(r), err
		}
	}
	return RevisionView{}, err
}
