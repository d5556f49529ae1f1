package api

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

func (e *edge) clientRoster(ctx context.Context, by caller, in *ByID) (*answer[ClientRoster], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.ClientRoster(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(clientRoster(v)), nil
}

type rosterShiftBody struct {
	ByID
	Body RosterShiftForm
}

func (f RosterShiftForm) read() (office.RosterShiftForm, error) {
	read := office.RosterShiftForm{ID: f.ID, Version: f.Version, Kind: f.Kind, Starts: f.Starts.Format(time.RFC3339Nano), Ends: f.Ends.Format(time.RFC3339Nano), ShortRest: f.ShortRest}
	var err error
	read.Person, err = maybeID[assessment.PersonID](f.Person)
	return read, err
}

func (e *edge) addRosterShift(ctx context.Context, by caller, in *rosterShiftBody) (*answer[OnRoster], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	if f.Client, err = assessment.ParseID[assessment.ClientID](in.ID); err != nil {
		return nil, err
	}
	id, err := e.office.AddRosterShift(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(OnRoster{string(id)}), nil
}

func (e *edge) changeRosterShift(ctx context.Context, by caller, in *rosterShiftBody) (*done, error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	return nil, e.office.ChangeRosterShift(ctx, by.Actor, assessment.ShiftID(in.ID), f)
}

type readVersionBody struct {
	ByID
	Body ReadVersion
}

func (e *edge) removeRosterShift(ctx context.Context, by caller, in *readVersionBody) (*done, error) {
	return nil, e.office.RemoveRosterShift(ctx, by.Actor, assessment.ShiftID(in.ID), in.Body.Version)
}

type patternBody struct {
	ByID
	Body PatternForm
}

func (f PatternForm) read() (office.PatternForm, error) {
	read := office.PatternForm{ID: f.ID, Version: f.Version, Kind: f.Kind, Weekdays: f.Weekdays, From: f.From, Until: f.Until, FromOn: f.FromOn, ThroughOn: f.ThroughOn, ShortRest: f.ShortRest}
	var err error
	read.Person, err = maybeID[assessment.PersonID](f.Person)
	return read, err
}

func (e *edge) addPattern(ctx context.Context, by caller, in *patternBody) (*answer[OnRoster], error) {
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	if f.Client, err = assessment.ParseID[assessment.ClientID](in.ID); err != nil {
		return nil, err
	}
	id, err := e.office.AddPattern(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(OnRoster{string(id)}), nil
}

func (e *edge) changePattern(ctx context.Context, by caller, in *patternBody) (*answer[OnRoster], error) {
	id, err := assessment.ParseID[assessment.PatternID](in.ID)
	if err != nil {
		return nil, err
	}
	f, err := in.Body.read()
	if err != nil {
		return nil, err
	}
	goesOn, err := e.office.ChangePattern(ctx, by.Actor, id, f)
	if err != nil {
		return nil, err
	}
	return shown(OnRoster{string(goesOn)}), nil
}

func (e *edge) endPattern(ctx context.Context, by caller, in *readVersionBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PatternID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.EndPattern(ctx, by.Actor, id, in.Body.Version)
}

type patternDayBody struct {
	ByID
	Body PatternDayForm
}

func (e *edge) setPatternDay(ctx context.Context, by caller, in *patternDayBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PatternID](in.ID)
	if err != nil {
		return nil, err
	}
	b := in.Body
	f := office.PatternDayForm{Version: b.Version, On: b.On, LeftOut: b.LeftOut, From: b.From, Until: b.Until, ShortRest: b.ShortRest}
	if f.Person, err = maybeID[assessment.PersonID](b.Person); err != nil {
		return nil, err
	}
	return nil, e.office.SetPatternDay(ctx, by.Actor, id, f)
}

type thatDayBody struct {
	ByID
	Body ThatDay
}

func (e *edge) liftPatternDay(ctx context.Context, by caller, in *thatDayBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PatternID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := civil.Parse(in.Body.On)
	if err != nil {
		return nil, err
	}
	return nil, e.office.LiftPatternDay(ctx, by.Actor, id, on)
}
