package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type standingQuery struct {
	OnDay
	Person string `query:"person" required:"true" doc:"Whose: an id."`
	Skill  string `query:"skill" required:"true" maxLength:"200" doc:"In which skill: its code."`
	Client string `query:"client" doc:"For which child: an id. Needed where the skill is held for each child."`
}

func (e *edge) standing(ctx context.Context, by caller, in *standingQuery) (*answer[Standing], error) {
	person, client, err := whose(in.Person, in.Client)
	if err != nil {
		return nil, err
	}
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Standing(ctx, by.Actor, person, in.Skill, client, on)
	if err != nil {
		return nil, err
	}
	return shown(standing(v)), nil
}

type idOnDay struct {
	ByID
	OnDay
}

func (e *edge) standingsOf(ctx context.Context, by caller, in *idOnDay) (*answer[PersonStandings], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	v, err := e.office.StandingsOf(ctx, by.Actor, id, on)
	if err != nil {
		return nil, err
	}
	return shown(personStandings(v)), nil
}

type gridQuery struct {
	OnDay
	Client string `query:"client" doc:"Only this child's team, and what concerns the child: an id."`
	Kind   string `query:"kind" enum:"family,nurse,aide" doc:"Only caregivers of this kind."`
	Skill  string `query:"skill" maxLength:"200" doc:"Only this skill: its code."`
	Find   string `query:"find" maxLength:"200" doc:"A part of the name."`
}

func (e *edge) grid(ctx context.Context, by caller, in *gridQuery) (*answer[Grid], error) {
	client, err := maybeID[assessment.ClientID](in.Client)
	if err != nil {
		return nil, err
	}
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Grid(ctx, by.Actor, office.GridQuery{On: on, Client: client, Kind: assessment.CaregiverKind(in.Kind), Skill: in.Skill, Find: in.Find})
	if err != nil {
		return nil, err
	}
	return shown(grid(v)), nil
}
