package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) ownDevices(ctx context.Context, by caller, _ *struct{}) (*answer[List[Device]], error) {
	found, err := e.office.Devices(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(found, device, ""), nil
}

type deviceBody struct{ Body DeviceForm }

func (e *edge) enrolDevice(ctx context.Context, by caller, in *deviceBody) (*answer[Device], error) {
	v, err := e.office.EnrolDevice(ctx, by.Actor, office.DeviceForm{ID: in.Body.ID, Name: in.Body.Name, PublicKey: in.Body.PublicKey})
	if err != nil {
		return nil, err
	}
	return shown(device(v)), nil
}

func (e *edge) revokeDevice(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.DeviceID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RevokeDevice(ctx, by.Actor, id)
}

type holdingBody struct {
	ByID
	Body Holding
}

func (e *edge) tellHolding(ctx context.Context, by caller, in *holdingBody) (*done, error) {
	id, err := assessment.ParseID[assessment.DeviceID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TellHolding(ctx, by.Actor, id, office.HoldingForm{Finished: in.Body.Finished, Refused: in.Body.Refused, Open: in.Body.Open})
}
