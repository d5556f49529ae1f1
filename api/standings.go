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

// GridFilter is what of the grid is asked for.
type GridFilter struct {
	OnDay
	Client   string `query:"client" doc:"Only this child's team, and what concerns the child: an id."`
	Kind     string `query:"kind" enum:"family,nurse,aide" doc:"Only caregivers of this kind."`
	Skill    string `query:"skill" maxLength:"200" doc:"Only this skill: its code."`
	Find     string `query:"find" maxLength:"200" doc:"A part of the name."`
	Observer string `query:"observer" doc:"Only those whose latest demonstration by that day this educator observed: an id."`
	Standing string `query:"standing" enum:"not started,learning,current,due,lapsed,withdrawn,waived" doc:"Only those who stand so in a skill that is shown."`
}

func (q GridFilter) read() (office.GridQuery, error) {
	asked := office.GridQuery{Kind: assessment.CaregiverKind(q.Kind), Skill: q.Skill, Find: q.Find, Standing: assessment.StandingWord(q.Standing)}
	var err error
	if asked.Client, err = maybeID[assessment.ClientID](q.Client); err != nil {
		return asked, err
	}
	if asked.Observer, err = maybeID[assessment.PersonID](q.Observer); err != nil {
		return asked, err
	}
	asked.On, err = q.day()
	return asked, err
}

type gridPage struct {
	GridFilter
	After string `query:"after" maxLength:"100" doc:"Where the page begins: what the page before gave as next. Left out: the first page."`
	Limit int    `query:"limit" minimum:"1" maximum:"5000" doc:"At most so many people; all unless given."`
}

func (e *edge) grid(ctx context.Context, by caller, in *gridPage) (*answer[Grid], error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	if q.After, err = maybeID[assessment.PersonID](in.After); err != nil {
		return nil, err
	}
	q.Limit = in.Limit
	v, err := e.office.Grid(ctx, by.Actor, q)
	if err != nil {
		return nil, err
	}
	return shown(grid(v)), nil
}

func (e *edge) gridTable(ctx context.Context, by caller, in *GridFilter) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.StandingsCSV(ctx, by.Actor, q)
	return drawn(csv, body, name, err)
}

func (e *edge) gridSheet(ctx context.Context, by caller, in *GridFilter) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.StandingsXLSX(ctx, by.Actor, q)
	return drawn(xlsx, body, name, err)
}
