package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type weeksBody struct {
	ByID
	Body WeeksForm
}

func (e *edge) setWeeks(ctx context.Context, by caller, in *weeksBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetAvailability(ctx, by.Actor, id, office.AvailabilityForm{DaysOff: in.Body.DaysOff, PerDay: strconv.Itoa(in.Body.PerDay), Base: in.Body.Base})
}

type daysOffBody struct{ Body DaysOffForm }

func (e *edge) addDaysOff(ctx context.Context, by caller, in *daysOffBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.Body.Educator)
	if err != nil {
		return nil, err
	}
	return nil, e.office.AddDaysOff(ctx, by.Actor, id, in.Body.From, in.Body.Through)
}

func (e *edge) removeDaysOff(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RemoveDaysOff(ctx, by.Actor, id)
}

type wayBody struct{ Body WayForm }

func (e *edge) setWay(ctx context.Context, by caller, in *wayBody) (*done, error) {
	from, err := assessment.ParseID[assessment.ClientID](in.Body.Client)
	if err != nil {
		return nil, err
	}
	to, err := maybeID[assessment.ClientID](in.Body.Other)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetTravelTime(ctx, by.Actor, office.TravelForm{From: from, To: to, Base: in.Body.Base, Minutes: strconv.Itoa(in.Body.Minutes)})
}

func (e *edge) removeWay(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RemoveTravelTime(ctx, by.Actor, id)
}
