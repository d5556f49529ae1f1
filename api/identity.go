package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) makeLink(ctx context.Context, by caller, in *ByID) (*answer[NewLink], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.MakeLink(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(NewLink{Person: named(v.Person), Purpose: string(v.Purpose), URL: v.URL, ExpiresAt: v.ExpiresAt.UTC()}), nil
}

type takenLinkBody struct{ Body TakenLink }

func (e *edge) takeLink(ctx context.Context, by caller, in *takenLinkBody) (*done, error) {
	return nil, e.office.TakeLink(ctx, office.LinkForm{Token: in.Body.Token, Password: in.Body.Password, Code: in.Body.Code, Address: by.address})
}

func (e *edge) identity(ctx context.Context, by caller, in *ByID) (*answer[Identity], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Identity(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(identity(v)), nil
}

type vouchBody struct {
	ByID
	Body Signing
}

func (e *edge) vouch(ctx context.Context, by caller, in *vouchBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.Vouch(ctx, by.Actor, id, in.Body.proof())
}

func (e *edge) myAccount(ctx context.Context, by caller, _ *struct{}) (*answer[Account], error) {
	v, err := e.office.Account(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(account(v)), nil
}

type newPINBody struct{ Body NewPIN }

func (e *edge) setPIN(ctx context.Context, by caller, in *newPINBody) (*done, error) {
	return nil, e.office.SetPIN(ctx, by.Actor, in.Body.Password, in.Body.PIN)
}

func (e *edge) endPIN(ctx context.Context, by caller, _ *struct{}) (*done, error) {
	return nil, e.office.EndPIN(ctx, by.Actor)
}

// ByHandle names one of one's own sessions.
type ByHandle struct {
	Handle string `path:"handle" maxLength:"100" doc:"As the account lists it."`
}

func (e *edge) endSession(ctx context.Context, by caller, in *ByHandle) (*done, error) {
	return nil, e.office.EndSession(ctx, by.Actor, in.Handle)
}

func (e *edge) endOtherSessions(ctx context.Context, by caller, _ *struct{}) (*done, error) {
	return nil, e.office.EndOtherSessions(ctx, by.Actor)
}

func (e *edge) myExport(ctx context.Context, by caller, _ *struct{}) (*file, error) {
	text, err := e.office.Export(ctx, by.Actor)
	return drawn(jsonText, text, "what-is-held-about-me.json", err)
}
