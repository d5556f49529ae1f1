package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (e *edge) sheets(ctx context.Context, by caller, _ *struct{}) (*answer[List[SheetHead]], error) {
	found, err := e.office.Sheets(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(found, sheetHead, ""), nil
}

type sheetBody struct {
	ByID
	Body SheetForm
}

func (e *edge) openSheet(ctx context.Context, by caller, in *sheetBody) (*answer[Sheet], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	learner, err := maybeID[assessment.PersonID](in.Body.Learner)
	if err != nil {
		return nil, err
	}
	client, err := maybeID[assessment.ClientID](in.Body.Client)
	if err != nil {
		return nil, err
	}
	form := office.OpenForm{ID: string(id), Learner: learner, Skill: in.Body.Skill, Client: client, Place: in.Body.Place, Real: in.Body.Real, Formal: in.Body.Formal,
		FromPaper: in.Body.FromPaper, PaperRevision: in.Body.PaperRevision}
	if in.Body.PerformedAt != nil {
		if in.Body.PerformedAt.IsZero() { // which the office takes for "now"
			return nil, fault.Of(fault.Invalid, "performed_at is before anybody was there. Leave it out for now.")
		}
		form.PerformedAt = *in.Body.PerformedAt
	}
	v, err := e.office.Open(ctx, by.Actor, form)
	if err != nil {
		return nil, err
	}
	return shown(sheetInFull(v)), nil
}

func (e *edge) sheet(ctx context.Context, by caller, in *ByID) (*answer[Sheet], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Sheet(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(sheetInFull(v)), nil
}

func (e *edge) discard(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.Discard(ctx, by.Actor, id)
}

type stopBody struct {
	ByID
	Body Stop
}

func (e *edge) stop(ctx context.Context, by caller, in *stopBody) (*answer[Sheet], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Stop(ctx, by.Actor, id, true, in.Body.Reason)
	if err != nil {
		return nil, err
	}
	return shown(sheet(v)), nil
}

func (e *edge) goOn(ctx context.Context, by caller, in *ByID) (*answer[Sheet], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Stop(ctx, by.Actor, id, false, "")
	if err != nil {
		return nil, err
	}
	return shown(sheet(v)), nil
}

func (e *edge) record(ctx context.Context, by caller, in *ByID) (*made[Demonstration], error) {
	id, err := assessment.ParseID[assessment.DemonstrationID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Record(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return added(demonstration(v), "demonstrations", string(v.ID)), nil
}
