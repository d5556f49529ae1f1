package api

import (
	"context"

	"wellshown/assessment"
)

func (e *edge) surveyAccesses(ctx context.Context, by caller, _ *struct{}) (*answer[List[SurveyAccess]], error) {
	d, err := e.office.Access(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(d.Given, surveyAccess, ""), nil
}

func (e *edge) ownSurveyAccess(ctx context.Context, by caller, _ *struct{}) (*answer[List[SurveyAccess]], error) {
	d, err := e.office.MySurvey(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(d.Given, surveyAccess, ""), nil
}

type surveyAccessBody struct{ Body SurveyAccessForm }

func (e *edge) giveSurveyAccess(ctx context.Context, by caller, in *surveyAccessBody) (*answer[SurveyAccess], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.GiveAccess(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(surveyAccess(v)), nil
}

func (e *edge) endSurveyAccess(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[string](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndAccess(ctx, by.Actor, id)
}
