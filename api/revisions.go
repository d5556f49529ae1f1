package api

import (
	"context"

	"wellshown/assessment"
)

func (e *edge) revision(ctx context.Context, by caller, in *ByID) (*answer[RevisionInFull], error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Checklist(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(RevisionInFull{revision(v.RevisionView), checklist(v.Checklist)}), nil
}

type comparisonQuery struct {
	ByID
	With string `query:"with" required:"true" doc:"The id of the older revision."`
}

func (e *edge) compare(ctx context.Context, by caller, in *comparisonQuery) (*answer[Comparison], error) {
	newer, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	older, err := assessment.ParseID[assessment.RevisionID](in.With)
	if err != nil {
		return nil, err
	}
	a, b, changes, err := e.office.Compare(ctx, by.Actor, older, newer)
	if err != nil {
		return nil, err
	}
	return shown(Comparison{revision(a.RevisionView), revision(b.RevisionView), each(changes, change)}), nil
}

func (e *edge) discardDraft(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.DiscardDraft(ctx, by.Actor, id)
}

type signingBody struct {
	ByID
	Body Signing
}

func (e *edge) retire(ctx context.Context, by caller, in *signingBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.Retire(ctx, by.Actor, id, in.Body.proof())
}

func (e *edge) blank(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.RevisionID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Blank(ctx, by.Actor, id)
	return drawn(pdf, body, name, err)
}
