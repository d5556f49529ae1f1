package api

import (
	"context"

	"wellshown/assessment"
)

type newCriterionBody struct {
	ByID
	Body NewCriterion
}

func (e *edge) addCriterion(ctx context.Context, by caller, in *newCriterionBody) (*answer[CriterionID], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	form := in.Body.form()
	form.ID, form.Kind = in.Body.ID, in.Body.Kind
	line, err := e.office.AddCriterion(ctx, by.Actor, id, form)
	if err != nil {
		return nil, err
	}
	return shown(CriterionID{string(line)}), nil
}

type criterionBody struct {
	ByID
	Body CriterionForm
}

func (e *edge) editCriterion(ctx context.Context, by caller, in *criterionBody) (*done, error) {
	id, err := assessment.ParseID[assessment.CriterionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EditCriterion(ctx, by.Actor, id, in.Body.form())
}

func (e *edge) removeCriterion(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.CriterionID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RemoveCriterion(ctx, by.Actor, id)
}
