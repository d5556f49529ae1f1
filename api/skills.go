package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) skills(ctx context.Context, by caller, _ *struct{}) (*answer[List[Skill]], error) {
	views, _, err := e.office.Skills(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(views, skill, ""), nil
}

func (e *edge) starters(ctx context.Context, by caller, _ *struct{}) (*answer[List[Starter]], error) {
	_, starters, err := e.office.Skills(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	show := func(s office.Starter) Starter { return Starter(s) }
	return listed(starters, show, ""), nil
}

type byCode struct {
	Code string `path:"code" doc:"The code." example:"suction"`
}

func (e *edge) adoptStarter(ctx context.Context, by caller, in *byCode) (*made[Revision], error) {
	v, err := e.office.AdoptStarter(ctx, by.Actor, in.Code)
	if err != nil {
		return nil, err
	}
	return added(revision(v), "revisions", string(v.ID)), nil
}

func (e *edge) draftRevision(ctx context.Context, by caller, in *ByID) (*made[Revision], error) {
	id, err := assessment.ParseID[assessment.SkillID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.DraftRevision(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return added(revision(v), "revisions", string(v.ID)), nil
}
