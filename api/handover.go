package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) neighbours(ctx context.Context, by caller, _ *struct{}) (*answer[Neighbours], error) {
	v, err := e.office.Neighbours(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(neighbours(v)), nil
}

type neighbourBody struct{ Body NeighbourForm }

func (e *edge) enterNeighbour(ctx context.Context, by caller, in *neighbourBody) (*done, error) {
	return nil, e.office.EnterNeighbour(ctx, by.Actor, office.NeighbourForm{Name: in.Body.Name, Line: in.Body.Line})
}

type neighbourAgreementBody struct {
	ByID
	Body NeighbourAgreement
}

func (e *edge) agreeNeighbour(ctx context.Context, by caller, in *neighbourAgreementBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.AgreeNeighbour(ctx, by.Actor, id, in.Body.Compared)
}

type neighbourEndBody struct {
	ByID
	Body Reason
}

func (e *edge) endNeighbour(ctx context.Context, by caller, in *neighbourEndBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndNeighbour(ctx, by.Actor, id, in.Body.Reason)
}

type signedFileBody struct {
	RawBody []byte `contentType:"application/octet-stream"`
}

// checkFile answers anybody who holds a file. Nothing of it is kept.
func (e *edge) checkFile(ctx context.Context, _ caller, in *signedFileBody) (*answer[CheckedFile], error) {
	c, err := e.office.CheckHandover(ctx, in.RawBody)
	if err != nil {
		return nil, err
	}
	return shown(checkedFile(c)), nil
}

type takeInBody struct {
	ByID
	Body TakeInForm
}

func (e *edge) takeInFile(ctx context.Context, by caller, in *takeInBody) (*answer[TakenIn], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	client, err := maybeID[assessment.ClientID](in.Body.Client)
	if err != nil {
		return nil, err
	}
	t, err := e.office.TakeInHandover(ctx, by.Actor, office.TakeInForm{Person: id, Client: client, Same: in.Body.Same, Named: in.Body.Named, File: []byte(in.Body.File)})
	if err != nil {
		return nil, err
	}
	return shown(TakenIn{t.From, t.New, t.There, texts(t.Left)}), nil
}
