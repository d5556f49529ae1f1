package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/wording"
)

func (e *edge) transcript(ctx context.Context, by caller, in *idOnDay) (*answer[Transcript], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Transcript(ctx, by.Actor, id, on)
	if err != nil {
		return nil, err
	}
	return shown(transcript(v)), nil
}

func (e *edge) handoverFile(ctx context.Context, by caller, in *ByID) (*file, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Handover(ctx, by.Actor, id)
	return drawn(jsonText, body, name, err)
}

type transcriptPaperQuery struct {
	ByID
	OnDay
	PaperLanguage
}

func (e *edge) transcriptPaper(ctx context.Context, by caller, in *transcriptPaperQuery) (*file, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	on, err := in.day()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Transcript(ctx, by.Actor, id, on, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}
