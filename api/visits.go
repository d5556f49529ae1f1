package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type visitsQuery struct {
	Weeks    int    `query:"weeks" minimum:"0" maximum:"26" doc:"How many weeks ahead. Left out: 8."`
	Educator string `query:"educator" doc:"Only the visits of this one, by id."`
}

func (q visitsQuery) read() (office.VisitQuery, error) {
	educator, err := maybeID[assessment.PersonID](q.Educator)
	return office.VisitQuery{Weeks: q.Weeks, Educator: educator}, err
}

func (e *edge) listVisits(ctx context.Context, by caller, in *visitsQuery) (*answer[Visits], error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	v, err := e.office.Visits(ctx, by.Actor, q)
	if err != nil {
		return nil, err
	}
	return shown(visits(v)), nil
}

func (e *edge) visitsCalendar(ctx context.Context, by caller, in *visitsQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.VisitsICS(ctx, by.Actor, q)
	return drawn(ical, body, name, err)
}

func (e *edge) visitsPaper(ctx context.Context, by caller, in *visitsQuery) (*file, error) {
	q, err := in.read()
	if err != nil {
		return nil, err
	}
	body, name, err := e.papers.Visits(ctx, by.Actor, q)
	return drawn(pdf, body, name, err)
}

type visitBody struct{ Body VisitForm }

func (e *edge) planVisit(ctx context.Context, by caller, in *visitBody) (*made[VisitThen], error) {
	client, err := assessment.ParseID[assessment.ClientID](in.Body.Client)
	if err != nil {
		return nil, err
	}
	educator, err := assessment.ParseID[assessment.PersonID](in.Body.Educator)
	if err != nil {
		return nil, err
	}
	v, err := e.office.PlanVisit(ctx, by.Actor, office.VisitForm{ID: in.Body.ID, Client: client, Educator: educator, On: in.Body.On})
	if err != nil {
		return nil, err
	}
	return added(visitThen(v), "visits", string(v.Visit.ID)), nil
}

type keptVisitsBody struct{ Body KeptVisits }

func (e *edge) keepVisits(ctx context.Context, by caller, in *keptVisitsBody) (*done, error) {
	return nil, e.office.KeepVisits(ctx, by.Actor, office.KeepVisitsForm{Weeks: in.Body.Weeks, Version: in.Body.Version, Visits: in.Body.Visits})
}

type visitQuery struct {
	ByID
	On       string `query:"on" format:"date" doc:"Where it might be moved to. Left out: where it is."`
	Educator string `query:"educator" doc:"Who might make it, by id. Left out: whoever does."`
}

func (e *edge) visit(ctx context.Context, by caller, in *visitQuery) (*answer[VisitThen], error) {
	id, err := assessment.ParseID[assessment.VisitID](in.ID)
	if err != nil {
		return nil, err
	}
	educator, err := maybeID[assessment.PersonID](in.Educator)
	if err != nil {
		return nil, err
	}
	v, err := e.office.VisitDesk(ctx, by.Actor, id, office.VisitMove{On: in.On, Educator: educator})
	if err != nil {
		return nil, err
	}
	return shown(visitThen(v)), nil
}

type movedVisitBody struct {
	ByID
	Body VisitMoved
}

func (e *edge) moveVisit(ctx context.Context, by caller, in *movedVisitBody) (*done, error) {
	id, err := assessment.ParseID[assessment.VisitID](in.ID)
	if err != nil {
		return nil, err
	}
	educator, err := assessment.ParseID[assessment.PersonID](in.Body.Educator)
	if err != nil {
		return nil, err
	}
	return nil, e.office.MoveVisit(ctx, by.Actor, id, office.VisitMove{On: in.Body.On, Educator: educator, Version: in.Body.Version})
}

func (e *edge) cancelVisit(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.VisitID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.CancelVisit(ctx, by.Actor, id)
}
