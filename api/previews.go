package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// seen shows a preview.
func seen(p office.Preview, err error) (*answer[Preview], error) {
	if err != nil {
		return nil, err
	}
	return shown(preview(p)), nil
}

type withdrawalLookBody struct{ Body WithdrawalLook }

func (e *edge) previewWithdrawal(ctx context.Context, by caller, in *withdrawalLookBody) (*answer[Preview], error) {
	person, client, err := whose(in.Body.Person, in.Body.Client)
	if err != nil {
		return nil, err
	}
	form := office.ExceptionForm{Person: person, Skill: in.Body.Skill, Client: client}
	return seen(e.office.PreviewWithdraw(ctx, by.Actor, form, assessment.Until(in.Body.Until), in.Body.Related))
}

func (e *edge) previewEquipment(ctx context.Context, by caller, in *equipmentBody) (*answer[Preview], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	return seen(e.office.PreviewEquipment(ctx, by.Actor, id, office.EquipmentForm{Kind: in.Body.Kind, Type: in.Body.Type, From: in.Body.From}))
}

func (e *edge) previewRequirement(ctx context.Context, by caller, in *requirementBody) (*answer[Preview], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	return seen(e.office.PreviewRequirement(ctx, by.Actor, f))
}

func (e *edge) previewRequirementEnd(ctx context.Context, by caller, in *lastDayBody) (*answer[Preview], error) {
	id, err := assessment.ParseID[assessment.RequirementID](in.ID)
	if err != nil {
		return nil, err
	}
	return seen(e.office.PreviewRequirementEnd(ctx, by.Actor, id, in.Body.Through))
}

func (e *edge) previewLeaving(ctx context.Context, by caller, in *departureBody) (*answer[Preview], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := day(in.Body.On)
	if err != nil {
		return nil, err
	}
	return seen(e.office.PreviewLeaving(ctx, by.Actor, id, on))
}
