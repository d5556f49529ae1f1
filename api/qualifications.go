package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) qualifications(ctx context.Context, by caller, in *ByID) (*answer[Qualifications], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.Qualifications(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(Qualifications{Licences: each(v.Licences, licence), Cards: each(v.Cards, card), Appointments: each(v.Appointments, appointment)}), nil
}

type licenceBody struct {
	ByID
	Body LicenceForm
}

func (e *edge) recordLicence(ctx context.Context, by caller, in *licenceBody) (*answer[Licence], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.RecordLicence(ctx, by.Actor, id, office.LicenceForm{Kind: in.Body.Kind, Number: in.Body.Number, Through: in.Body.Through})
	if err != nil {
		return nil, err
	}
	return shown(licence(v)), nil
}

type cardBody struct {
	ByID
	Body CardForm
}

func (e *edge) recordCard(ctx context.Context, by caller, in *cardBody) (*answer[Card], error) {
	id, err := assessment.ParseID[assessment.PersonID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.RecordCard(ctx, by.Actor, id, office.CardForm{Issuer: in.Body.Issuer, IssuedOn: in.Body.IssuedOn,
		CourseOn: in.Body.CourseOn, PrintedEnd: in.Body.PrintedEnd})
	if err != nil {
		return nil, err
	}
	return shown(card(v)), nil
}
