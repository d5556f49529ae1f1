package api

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type evidenceBody struct {
	ByID
	Body EvidenceForm
}

func (e *edge) addEvidence(ctx context.Context, by caller, in *evidenceBody) (*done, error) {
	id, err := assessment.ParseID[assessment.CriterionID](in.ID)
	if err != nil {
		return nil, err
	}
	form := office.EvidenceForm{ID: in.Body.ID, Criterion: id, Word: in.Body.Word, Item: in.Body.Item, Note: in.Body.Note}
	if in.Body.At != nil {
		form.At = in.Body.At.Format(time.RFC3339Nano)
	}
	return nil, e.office.AddEvidence(ctx, by.Actor, form)
}

type criterionWaiverBody struct {
	ByID
	Body CriterionWaiver
}

func (e *edge) waiveCriterion(ctx context.Context, by caller, in *criterionWaiverBody) (*done, error) {
	id, err := assessment.ParseID[assessment.CriterionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.WaiveCriterion(ctx, by.Actor, id, in.Body.Item, in.Body.Reason)
}

func (e *edge) endCriterionWaiver(ctx context.Context, by caller, in *criterionWaiverBody) (*done, error) {
	id, err := assessment.ParseID[assessment.CriterionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndWaiver(ctx, by.Actor, id, in.Body.Item, in.Body.Reason)
}
