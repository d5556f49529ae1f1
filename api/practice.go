package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

type inServiceQuery struct {
	Person string `query:"person" doc:"Only this one: an id."`
}

func (e *edge) inService(ctx context.Context, by caller, in *inServiceQuery) (*answer[InService], error) {
	person, err := maybeID[assessment.PersonID](in.Person)
	if err != nil {
		return nil, err
	}
	v, err := e.office.InService(ctx, by.Actor, person)
	if err != nil {
		return nil, err
	}
	return shown(inService(v)), nil
}

type inServiceBody struct{ Body InServiceForm }

func (e *edge) addSession(ctx context.Context, by caller, in *inServiceBody) (*done, error) {
	b := in.Body
	f := office.InServiceForm{ID: b.ID, HeldOn: b.HeldOn, Hours: b.Hours, Topic: b.Topic, Trainer: b.Trainer, Counts: b.Counts, Orientation: b.Orientation}
	for _, text := range b.People {
		id, err := assessment.ParseID[assessment.PersonID](text)
		if err != nil {
			return nil, err
		}
		f.People = append(f.People, id)
	}
	_, err := e.office.AddSession(ctx, by.Actor, f)
	return nil, err
}

type plainReasonBody struct {
	ByID
	Body PlainReason
}

func (e *edge) takeSessionBack(ctx context.Context, by caller, in *plainReasonBody) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeSessionBack(ctx, by.Actor, id, in.Body.Reason)
}

type hiredBody struct {
	ByID
	Body HiredForm
}

func (e *edge) setHired(ctx context.Context, by caller, in *hiredBody) (*done, error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetHired(ctx, by.Actor, id, in.Body.On)
}

type supervisionQuery struct {
	Aide   string `query:"aide" doc:"Only of this one: an id."`
	Client string `query:"client" doc:"Only with this child: an id."`
}

func (e *edge) supervision(ctx context.Context, by caller, in *supervisionQuery) (*answer[Supervision], error) {
	aide, err := maybeID[assessment.PersonID](in.Aide)
	if err != nil {
		return nil, err
	}
	client, err := maybeID[assessment.ClientID](in.Client)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Supervision(ctx, by.Actor, aide, client)
	if err != nil {
		return nil, err
	}
	return shown(supervision(v)), nil
}

type supervisionBody struct{ Body SupervisionForm }

func (e *edge) addSupervision(ctx context.Context, by caller, in *supervisionBody) (*done, error) {
	b := in.Body
	aide, client, err := whose(b.Aide, b.Client)
	if err != nil {
		return nil, err
	}
	supervisor, err := assessment.ParseID[assessment.PersonID](b.Supervisor)
	if err != nil {
		return nil, err
	}
	_, err = e.office.AddSupervision(ctx, by.Actor, office.SupervisionForm{ID: b.ID, Client: client, Aide: aide, Supervisor: supervisor, On: b.On, How: b.How, Watched: b.Watched, Why: b.Why, Found: b.Found, Deficient: b.Deficient})
	return nil, err
}

func (e *edge) takeSupervisionBack(ctx context.Context, by caller, in *ByID) (*done, error) {
	id, err := assessment.ParseID[assessment.RecordID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.TakeSupervisionBack(ctx, by.Actor, id)
}

type skilledCareBody struct {
	ByID
	Body SkilledCareForm
}

func (e *edge) setSkilledCare(ctx context.Context, by caller, in *skilledCareBody) (*done, error) {
	id, err := assessment.ParseID[assessment.ClientID](in.ID)
	if err != nil {
		return nil, err
	}
	return nil, e.office.SetSkilledCare(ctx, by.Actor, id, office.SkilledCareForm{From: in.Body.From, Skilled: in.Body.Skilled, Episodes: in.Body.Episodes})
}
