package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type forceLookBody struct {
	ByID
	Body ForceLook
}

func (e *edge) previewInForce(ctx context.Context, by caller, in *forceLookBody) (*answer[Preview], error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	return seen(e.office.PreviewInForce(ctx, by.Actor, office.PreviewForm{Revision: id, Version: in.Body.Version, RecheckBy: in.Body.RecheckBy}))
}

type forceProposalBody struct {
	ByID
	Body ForceProposal
}

func (e *edge) proposeInForce(ctx context.Context, by caller, in *forceProposalBody) (*answer[Proposal], error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.ProposeInForce(ctx, by.Actor, office.PutInForceForm{Revision: id, Version: in.Body.Version, Statement: in.Body.Statement, RecheckBy: in.Body.RecheckBy,
		Seen: in.Body.Seen, Proof: in.Body.proof()})
	if err != nil {
		return nil, err
	}
	return shown(proposal(v)), nil
}

func (e *edge) proposals(ctx context.Context, by caller, _ *struct{}) (*answer[List[Proposal]], error) {
	all, err := e.office.Proposals(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(all, func(w office.WaitingProposal) Proposal { return proposal(w.ProposalView) }, ""), nil
}

func (e *edge) proposal(ctx context.Context, by caller, in *ByID) (*answer[ProposalInFull], error) {
	id, err := assessment.ParseID[assessment.ProposalID](in.ID)
	if err != nil {
		return nil, err
	}
	d, err := e.office.Proposal(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(proposalInFull(d)), nil
}

type agreementBody struct {
	ByID
	Body Agreement
}

func (e *edge) agreeInForce(ctx context.Context, by caller, in *agreementBody) (*done, error) {
	id, err := assessment.ParseID[assessment.ProposalID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.AgreeInForce(ctx, by.Actor, office.AgreeForm{Proposal: id, Seen: in.Body.Seen, Proof: in.Body.proof()})
}

type droppingBody struct {
	ByID
	Body Dropping
}

func (e *edge) dropProposal(ctx context.Context, by caller, in *droppingBody) (*done, error) {
	id, err := assessment.ParseID[assessment.ProposalID](in.ID)
	if err != nil {
		return nil, err
	}
	_, err = e.office.DropProposal(ctx, by.Actor, id, in.Body.Reason)
	return nil, err
}
