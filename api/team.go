package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type memberBody struct {
	ByID
	Body MemberForm
}

func (e *edge) addToTeam(ctx context.Context, by caller, in *memberBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	person, err := maybeID[assessment.PersonID](in.Body.Person)
	if err != nil {
		return nil, err
	}
	v, err := e.office.AddToTeam(ctx, by.Actor, id, office.TeamForm{Person: person, From: in.Body.From, Through: in.Body.Through})
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}

type lastOnTeamBody struct {
	ByID
	Stretch string `path:"stretch" doc:"The id of the stretch of days."`
	Body    LastDay
}

func (e *edge) endOnTeam(ctx context.Context, by caller, in *lastOnTeamBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	stretch, err := assessment.ParseID[assessment.RecordID](in.Stretch)
	if err != nil {
		return nil, err
	}
	v, err := e.office.EndOnTeam(ctx, by.Actor, id, stretch, in.Body.Through)
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}
