package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) erasures(ctx context.Context, by caller, _ *struct{}) (*answer[Erasures], error) {
	d, err := e.office.Erasures(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(Erasures{Years: d.Retention.Years, Reason: d.Retention.Reason, Items: each(d.Erasures, erasure), Over: each(d.Over, erasable)}), nil
}

type erasureBody struct{ Body ErasureForm }

func (e *edge) askErasure(ctx context.Context, by caller, in *erasureBody) (*answer[Erasure], error) {
	f := office.ErasureForm{ID: in.Body.ID, Reason: in.Body.Reason}
	var err error
	if in.Body.Person != "" {
		if f.Person, err = assessment.ParseID[assessment.PersonID](in.Body.Person); err != nil {
			return nil, err
		}
	}
	if in.Body.Client != "" {
		if f.Client, err = assessment.ParseID[assessment.ClientID](in.Body.Client); err != nil {
			return nil, err
		}
	}
	v, err := e.office.AskErasure(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(erasure(v)), nil
}

type erasureSigned struct {
	ByID
	Body Signing
}

func (e *edge) carryOutErasure(ctx context.Context, by caller, in *erasureSigned) (*done, error) {
	id, err := assessment.ParseID[assessment.ErasureID](in.ID)
	if err != nil {
		return nil, err
	}
	_, err = e.office.CarryOutErasure(ctx, by.Actor, id, in.Body.proof())
	return nil, err
}

func (e *edge) dropErasure(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.ErasureID](in.ID)
	if err != nil {
		return nil, err
	}
	_, err = e.office.DropErasure(ctx, by.Actor, id)
	return nil, err
}

type retentionBody struct{ Body RetentionForm }

func (e *edge) setRetention(ctx context.Context, by caller, in *retentionBody) (*done, error) {
	f := office.RetentionForm{Reason: in.Body.Reason}
	if in.Body.Years != 0 {
		f.Years = strconv.Itoa(in.Body.Years)
	}
	return nil, e.office.SetRetention(ctx, by.Actor, f)
}
