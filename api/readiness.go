package api

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/wording"
)

type readinessQuery struct {
	ByID
	At time.Time `query:"at" doc:"The instant asked about. Left out: now." example:"2027-01-15T19:30:00Z"`
}

func (e *edge) readiness(ctx context.Context, by caller, in *readinessQuery) (*answer[Readiness], error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Readiness(ctx, by.Actor, id, in.At)
	if err != nil {
		return nil, err
	}
	return shown(readiness(v)), nil
}

type readinessPaperQuery struct {
	ByID
	At time.Time `query:"at" doc:"The instant asked about. Left out: now." example:"2027-01-15T19:30:00Z"`
	PaperLanguage
}

// PaperLanguage is that of a paper.
type PaperLanguage struct {
	Language string `query:"language" enum:"en,es" doc:"Of the paper; what people typed stays as it is. Left out: English."`
}

func (e *edge) readinessPaper(ctx context.Context, by caller, in *readinessPaperQuery) (*file, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Readiness(ctx, by.Actor, id, in.At, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

func (e *edge) startPlan(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.StartPlan(ctx, by.Actor, id)
}
