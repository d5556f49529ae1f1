package api

import (
	"context"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (e *edge) checks(ctx context.Context, by caller, _ *struct{}) (*answer[Checks], error) {
	v, err := e.office.Checks(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(checks(v)), nil
}

func (e *edge) checkBank(ctx context.Context, by caller, in *byCode) (*answer[CheckBank], error) {
	v, err := e.office.CheckBank(ctx, by.Actor, in.Code)
	if err != nil {
		return nil, err
	}
	return shown(checkBank(v)), nil
}

type questionsQuery struct {
	Code     string `path:"code" doc:"The skill's code." example:"suction"`
	Language string `query:"language" enum:"en,es" default:"en" doc:"The language of the questions. Others than English stand beside their English."`
}

func (e *edge) questionsPaper(ctx context.Context, by caller, in *questionsQuery) (*file, error) {
	body, name, err := e.papers.Questions(ctx, by.Actor, in.Code, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

type checkRuleBody struct {
	Code string `path:"code" doc:"The code." example:"suction"`
	Body CheckRuleForm
}

func (e *edge) setCheckRule(ctx context.Context, by caller, in *checkRuleBody) (*done, error) {
	b, open := in.Body, ""
	if b.Open != 0 {
		open = strconv.Itoa(b.Open)
	}
	return nil, e.office.SetCheckRule(ctx, by.Actor, office.RuleForm{Skill: in.Code, Asked: b.Asked, Length: strconv.Itoa(b.Length), PassMark: b.PassMark, Months: strconv.Itoa(b.Months), WaitHours: strconv.Itoa(b.WaitHours), Tries: strconv.Itoa(b.Tries), OpenFor: open})
}

func (e *edge) takeStarterItems(ctx context.Context, by caller, in *byCode) (*answer[ItemsAdded], error) {
	n, err := e.office.TakeStarterItems(ctx, by.Actor, in.Code)
	if err != nil {
		return nil, err
	}
	return shown(ItemsAdded{n}), nil
}

type itemsBody struct {
	Code string `path:"code" doc:"The code." example:"suction"`
	Body ItemsForm
}

func (e *edge) addItems(ctx context.Context, by caller, in *itemsBody) (*answer[ItemsAdded], error) {
	n, err := e.office.AddItems(ctx, by.Actor, in.Code, in.Body.Items)
	if err != nil {
		return nil, err
	}
	return shown(ItemsAdded{n}), nil
}

type beginCheckBody struct {
	Code string `path:"code" doc:"The code." example:"suction"`
	Body BeginCheckForm
}

func (e *edge) beginCheck(ctx context.Context, by caller, in *beginCheckBody) (*made[Sitting], error) {
	v, err := e.office.OpenCheck(ctx, by.Actor, in.Code, in.Body.Language)
	if err != nil {
		return nil, err
	}
	return added(sitting(v), "sittings", string(v.ID)), nil
}

func (e *edge) sitting(ctx context.Context, by caller, in *ByID) (*answer[Sitting], error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Sitting(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(sitting(v)), nil
}

type answerBody struct {
	ByID
	Place int `path:"place" minimum:"1" maximum:"100" doc:"Of the question, from 1."`
	Body  AnswerForm
}

func (e *edge) answerItem(ctx context.Context, by caller, in *answerBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.AnswerItem(ctx, by.Actor, office.AnswerForm{Sitting: id, Place: in.Place, Chosen: in.Body.Chosen, Value: in.Body.Value, Unit: in.Body.Unit})
}

func (e *edge) handIn(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.HandIn(ctx, by.Actor, id)
}

type presenceBody struct {
	ByID
	Body PresenceForm
}

func (e *edge) sayPresence(ctx context.Context, by caller, in *presenceBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SayPresence(ctx, by.Actor, id, in.Body.Present)
}
