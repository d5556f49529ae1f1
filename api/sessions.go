package api

import (
	"context"
	"errors"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

type signInBody struct{ Body SignIn }

func (e *edge) signIn(ctx context.Context, by caller, in *signInBody) (*answer[Session], error) {
	token, actor, err := e.office.SignIn(ctx, office.SignInForm{Agency: in.Body.Agency, Email: in.Body.Email, Password: in.Body.Password, Code: in.Body.Code, Address: by.address})
	if errors.As(err, new(office.CodeAsked)) {
		return nil, fault.Of(fault.Unauthenticated, "This account asks for a one-time code as well. Send it as code, with the password.")
	}
	if err != nil {
		return nil, err
	}
	return shown(Session{Token: token, Person: Named{string(actor.Person), actor.Name}, Agency: string(actor.Agency), Roles: texts(actor.Roles)}), nil
}

func (e *edge) signOut(ctx context.Context, by caller, _ *struct{}) (*done, error) {
	if by.token == "" {
		return nil, fault.Of(fault.Refused, "This session is not one of a token. Sign out where you signed in.")
	}
	return nil, e.office.SignOut(ctx, by.token)
}
