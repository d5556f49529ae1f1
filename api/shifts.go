package api

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type shiftBody struct {
	ByID
	Body ShiftForm
}

func (e *edge) planShift(ctx context.Context, by caller, in *shiftBody) (*answer[Shift], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	person, err := maybeID[assessment.PersonID](in.Body.Person)
	if err != nil {
		return nil, err
	}
	v, err := e.office.PlanShift(ctx, by.Actor, id, office.ShiftForm{Person: person, Starts: in.Body.Starts.Format(time.RFC3339Nano), Ends: in.Body.Ends.Format(time.RFC3339Nano)})
	if err != nil {
		return nil, err
	}
	return shown(shift(v)), nil
}

func (e *edge) removeShift(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RemoveShift(ctx, by.Actor, id)
}
