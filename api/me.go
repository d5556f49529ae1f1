package api

import (
	"context"
	"slices"

	"wellshown/assessment"
)

func (e *edge) me(ctx context.Context, by caller, _ *struct{}) (*answer[Me], error) {
	v, err := e.office.Me(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	var may []string
	for _, act := range assessment.Acts() {
		if by.Reach(act) != assessment.Nothing {
			may = append(may, string(act))
		}
	}
	slices.Sort(may)
	return shown(Me{Person: person(v), Agency: string(by.Agency), May: texts(may)}), nil
}

type ownPasswordBody struct{ Body OwnPassword }

func (e *edge) changePassword(ctx context.Context, by caller, in *ownPasswordBody) (*done, error) {
	return nil, e.office.ChangePassword(ctx, by.Actor, in.Body.Old, in.Body.New, by.token)
}
