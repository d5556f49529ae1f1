package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) tokens(ctx context.Context, by caller, _ *struct{}) (*answer[List[Token]], error) {
	d, err := e.office.Tokens(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(d.Tokens, programToken, ""), nil
}

type tokenBody struct{ Body TokenForm }

func (e *edge) makeToken(ctx context.Context, by caller, in *tokenBody) (*answer[NewToken], error) {
	f := office.TokenForm{Name: in.Body.Name, Acts: in.Body.Acts, Reading: in.Body.Reading}
	if in.Body.Days > 0 {
		f.Days = strconv.Itoa(in.Body.Days)
	}
	v, err := e.office.MakeToken(ctx, by.Actor, f)
	if err != nil {
		return nil, err
	}
	return shown(NewToken{Token: programToken(v.TokenView), Secret: v.Secret}), nil
}

func (e *edge) revokeToken(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.TokenID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.RevokeToken(ctx, by.Actor, id)
}
