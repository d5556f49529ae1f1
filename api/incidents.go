package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type incidentsQuery struct {
	Person  string `query:"person" doc:"About whom: an id."`
	From    string `query:"from" format:"date" doc:"Happened on this day or later."`
	Through string `query:"through" format:"date" doc:"Happened on this day or before."`
}

func (e *edge) incidents(ctx context.Context, by caller, in *incidentsQuery) (*answer[List[Incident]], error) {
	q := office.IncidentQuery{}
	var err error
	if q.Person, err = maybeID[assessment.PersonID](in.Person); err != nil {
		return nil, err
	}
	if q.From, err = day(in.From); err != nil {
		return nil, err
	}
	if q.Through, err = day(in.Through); err != nil {
		return nil, err
	}
	found, err := e.office.Incidents(ctx, by.Actor, q)
	if err != nil {
		return nil, err
	}
	return listed(found, incident, ""), nil
}

type incidentBody struct{ Body IncidentForm }

func (e *edge) recordIncident(ctx context.Context, by caller, in *incidentBody) (*made[IncidentID], error) {
	person, client, err := whose(in.Body.Person, in.Body.Client)
	if err != nil {
		return nil, err
	}
	id, err := e.office.RecordIncident(ctx, by.Actor, office.IncidentForm{ID: in.Body.ID, Person: person, Skill: in.Body.Skill, Client: client, Happened: in.Body.Happened, Seen: in.Body.Seen,
		Withdraws: in.Body.Withdraws, Proof: in.Body.proof()})
	if err != nil {
		return nil, err
	}
	return added(IncidentID{string(id)}, "incidents", string(id)), nil
}

func (e *edge) incident(ctx context.Context, by caller, in *ByID) (*answer[IncidentNow], error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.IncidentDesk(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(incidentNow(v)), nil
}

type incidentClosingBody struct {
	ByID
	Body IncidentClosing
}

func (e *edge) closeIncident(ctx context.Context, by caller, in *incidentClosingBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	record, err := assessment.ParseID[assessment.DemonstrationID](in.Body.Record)
	if err != nil {
		return nil, err
	}
	return nil, e.office.CloseIncident(ctx, by.Actor, office.CloseIncidentForm{ID: id, Record: record, Note: in.Body.Note, Proof: in.Body.proof()})
}

func (e *edge) takeIncidentBack(ctx context.Context, by caller, in *signedReasonBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeIncidentBack(ctx, by.Actor, id, in.Body.Reason, in.Body.proof())
}

func (e *edge) practice(ctx context.Context, by caller, _ *struct{}) (*answer[Practice], error) {
	p, err := e.office.Practice(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return shown(Practice{IncidentWithdraws: string(p.IncidentWithdraws), IncidentByItself: p.IncidentByItself, InService: p.InService, InServiceHours: office.HoursOf(p.InServiceRule.Minutes),
		InServiceYear: string(p.InServiceRule.Year), OrientationCounts: p.InServiceRule.Orientation, Supervision: p.Supervision}), nil
}

type practiceBody struct{ Body Practice }

func (e *edge) setPractice(ctx context.Context, by caller, in *practiceBody) (*done, error) {
	p := in.Body
	return nil, e.office.SetPractice(ctx, by.Actor, office.PracticeForm{IncidentWithdraws: p.IncidentWithdraws, IncidentByItself: p.IncidentByItself, InService: p.InService, InServiceHours: p.InServiceHours,
		InServiceYear: p.InServiceYear, OrientationCounts: p.OrientationCounts, Supervision: p.Supervision})
}
