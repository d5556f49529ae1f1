package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// PackQuery says for which device a pack is asked.
type PackQuery struct {
	Device string `query:"device" required:"true" doc:"Which of one's own devices takes it along: an id."`
}

func (e *edge) pack(ctx context.Context, by caller, in *PackQuery) (*answer[Pack], error) {
	id, err := assessment.ParseID[assessment.DeviceID](in.Device)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Pack(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(pack(v)), nil
}

type sentBody struct {
	ByID
	Body SheetSent
}

func (e *edge) receiveSheet(ctx context.Context, by caller, in *sentBody) (*answer[SheetReceived], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	device, err := assessment.ParseID[assessment.DeviceID](in.Body.Device)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Receive(ctx, by.Actor, office.ReceiveForm{ID: id, Device: device, Sheet: in.Body.Sheet, Signature: in.Body.Signature, SentAt: in.Body.SentAt})
	if err != nil {
		return nil, err
	}
	return shown(received(v)), nil
}
