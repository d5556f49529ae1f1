package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type equipmentBody struct {
	ByID
	Body EquipmentForm
}

func (e *edge) setEquipment(ctx context.Context, by caller, in *equipmentBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.SetEquipment(ctx, by.Actor, id, office.EquipmentForm{Kind: in.Body.Kind, Type: in.Body.Type, From: in.Body.From})
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}
