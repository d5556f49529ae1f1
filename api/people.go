package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type peopleQuery struct {
	Find   string `query:"find" maxLength:"200" doc:"A part of the name or the e-mail address."`
	Kind   string `query:"kind" enum:"family,nurse,aide" doc:"Caregivers of this kind."`
	Role   string `query:"role" enum:"administrator,educator,coordinator,caregiver,surveyor" doc:"Who has this role."`
	Client string `query:"client" doc:"Who is on this child's team today."`
	Left   bool   `query:"left" doc:"Also those who have left."`
	After  string `query:"after" maxLength:"2000" doc:"Where the page before ended: its next."`
	Limit  int    `query:"limit" minimum:"1" maximum:"200" doc:"At most so many; 50 unless given."`
}

func (e *edge) people(ctx context.Context, by caller, in *peopleQuery) (*answer[List[Person]], error) {
	client, err := maybeID[assessment.ClientID](in.Client)
	if err != nil {
		return nil, err
	}
	views, next, err := e.office.People(ctx, by.Actor, office.PeopleQuery{Find: in.Find, Kind: in.Kind, Role: in.Role, Client: client,
		Left: in.Left, After: in.After, Limit: in.Limit})
	if err != nil {
		return nil, err
	}
	return listed(views, person, next), nil
}

type newPersonBody struct{ Body NewPerson }

func (e *edge) addPerson(ctx context.Context, by caller, in *newPersonBody) (*made[Person], error) {
	form := in.Body.form()
	form.ID = in.Body.ID
	v, err := e.office.AddPerson(ctx, by.Actor, form)
	if err != nil {
		return nil, err
	}
	return added(person(v), "people", string(v.ID)), nil
}

func (e *edge) person(ctx context.Context, by caller, in *ByID) (*answer[Person], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Person(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(person(v)), nil
}

type personBody struct {
	ByID
	Body ChangedPerson
}

func (e *edge) editPerson(ctx context.Context, by caller, in *personBody) (*answer[Person], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	form := in.Body.form()
	form.Version = in.Body.Version
	v, err := e.office.EditPerson(ctx, by.Actor, id, form)
	if err != nil {
		return nil, err
	}
	return shown(person(v)), nil
}

type departureBody struct {
	ByID
	Body Departure
}

func (e *edge) personLeaves(ctx context.Context, by caller, in *departureBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := day(in.Body.On)
	if err != nil {
		return nil, err
	}
	return nil, e.office.PersonLeaves(ctx, by.Actor, id, on)
}
