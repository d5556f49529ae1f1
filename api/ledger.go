package api

import (
	"context"

	"wellshown/assessment"
)

func (e *edge) ledgerHead(ctx context.Context, by caller, _ *struct{}) (*answer[LedgerHead], error) {
	h, err := e.office.LedgerHead(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(ledgerHead(h)), nil
}

type keptHead struct {
	Head string `query:"head" maxLength:"4000" required:"true" doc:"The whole text of the head as it was signed."`
}

func (e *edge) ledgerExtension(ctx context.Context, by caller, in *keptHead) (*answer[LedgerExtension], error) {
	x, err := e.office.Extends(ctx, by.Actor, in.Head)
	if err != nil {
		return nil, err
	}
	return shown(ledgerExtension(x)), nil
}

func (e *edge) ledgerEntries(ctx context.Context, by caller, in *Paging) (*answer[List[LedgerEntry]], error) {
	found, err := e.office.Entries(ctx, by.Actor, in.After, in.Limit)
	if err != nil {
		return nil, err
	}
	return listed(found.Items, ledgerEntry, found.Next), nil
}

func (e *edge) demonstrationProof(ctx context.Context, by caller, in *ByID) (*answer[Proof], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	p, err := e.office.ProofOfDemonstration(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(proof(p)), nil
}

func (e *edge) certificateProof(ctx context.Context, by caller, in *ByID) (*answer[Proof], error) {
	id, err := assessment.ParseID[assessment.CertificateID](in.ID)
	if err != nil {
		return nil, err
	}
	p, err := e.office.ProofOfCertificate(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(proof(p)), nil
}
