package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) requirements(ctx context.Context, by caller, _ *struct{}) (*answer[List[Requirement]], error) {
	views, err := e.office.Requirements(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(views, requirement, ""), nil
}

type requirementBody struct{ Body RequirementForm }

func (e *edge) setRequirement(ctx context.Context, by caller, in *requirementBody) (*answer[Requirement], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.SetRequirement(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(requirement(v)), nil
}

func (r RequirementForm) read() (office.RequirementForm, error) {
	client, err := maybeID[assessment.ClientID](r.Client)
	return office.RequirementForm{Skill: r.Skill, Kind: r.Kind, Client: client, EquipmentKind: r.EquipmentKind, From: r.From, Through: r.Through}, err
}

type lastDayBody struct {
	ByID
	Body LastDay
}

func (e *edge) endRequirement(ctx context.Context, by caller, in *lastDayBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RequirementID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndRequirement(ctx, by.Actor, id, in.Body.Through)
}
