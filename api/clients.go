package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type clientsQuery struct {
	Find string `query:"find" maxLength:"200" doc:"A part of the code or the first name."`
}

func (e *edge) clients(ctx context.Context, by caller, in *clientsQuery) (*answer[List[Client]], error) {
	views, err := e.office.Clients(ctx, by.Actor, in.Find)
	if err != nil {
		return nil, err
	}
	return listed(views, client, ""), nil
}

type newClientBody struct{ Body ClientForm }

func (e *edge) addClient(ctx context.Context, by caller, in *newClientBody) (*made[Client], error) {
	v, err := e.office.AddClient(ctx, by.Actor, office.ClientForm{Code: in.Body.Code, FirstName: in.Body.FirstName, Since: in.Body.Since})
	if err != nil {
		return nil, err
	}
	return added(client(v), "clients", string(v.ID)), nil
}

func (e *edge) client(ctx context.Context, by caller, in *ByID) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Client(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}

type clientBody struct {
	ByID
	Body ClientForm
}

func (e *edge) editClient(ctx context.Context, by caller, in *clientBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.EditClient(ctx, by.Actor, id, office.ClientForm{Code: in.Body.Code, FirstName: in.Body.FirstName, Since: in.Body.Since})
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}

type clientDepartureBody struct {
	ByID
	Body ClientDeparture
}

func (e *edge) clientLeaves(ctx context.Context, by caller, in *clientDepartureBody) (*answer[Client], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := day(in.Body.On)
	if err != nil {
		return nil, err
	}
	v, err := e.office.ClientLeaves(ctx, by.Actor, id, on)
	if err != nil {
		return nil, err
	}
	return shown(client(v)), nil
}
