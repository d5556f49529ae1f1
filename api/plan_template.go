package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) planTemplate(ctx context.Context, by caller, _ *struct{}) (*answer[PlanTemplate], error) {
	v, err := e.office.PlanTemplate(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(planTemplate(v)), nil
}

func (e *edge) ownTemplate(ctx context.Context, by caller, _ *struct{}) (*done, error) {
	return nil, e.office.OwnTemplate(ctx, by.Actor)
}

func (e *edge) dropTemplate(ctx context.Context, by caller, _ *struct{}) (*done, error) {
	return nil, e.office.DropTemplate(ctx, by.Actor)
}

type newTemplateLineBody struct{ Body NewTemplateLine }

func (e *edge) addTemplateLine(ctx context.Context, by caller, in *newTemplateLineBody) (*answer[CriterionID], error) {
	form := in.Body.templateForm()
	form.ID, form.Kind = in.Body.ID, in.Body.Kind
	id, err := e.office.AddTemplateLine(ctx, by.Actor, form)
	if err != nil {
		return nil, err
	}
	return shown(CriterionID{string(id)}), nil
}

type templateLineBody struct {
	ByID
	Body TemplateLineForm
}

func (e *edge) editTemplateLine(ctx context.Context, by caller, in *templateLineBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PlanLineID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EditTemplateLine(ctx, by.Actor, id, in.Body.templateForm())
}

func (e *edge) removeTemplateLine(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.PlanLineID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RemoveTemplateLine(ctx, by.Actor, id)
}

type planDaysBody struct {
	ByID
	Body PlanDays
}

func (e *edge) setPlanDays(ctx context.Context, by caller, in *planDaysBody) (*done, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetPlanDays(ctx, by.Actor, id, office.PlanDaysForm{Meeting: in.Body.Meeting, Home: in.Body.Home})
}

type planSignatureBody struct {
	ByID
	Body PlanSignatureForm
}

func (e *edge) signPlan(ctx context.Context, by caller, in *planSignatureBody) (*done, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SignPlan(ctx, by.Actor, office.PlanSignForm{ID: in.Body.ID, Client: id, Version: in.Body.Version, Proof: in.Body.proof()})
}
