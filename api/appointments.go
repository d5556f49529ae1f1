package api

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

func (e *edge) appointments(ctx context.Context, by caller, _ *struct{}) (*answer[List[Appointment]], error) {
	views, err := e.office.Appointments(ctx, by.Actor)
	if err != nil {
		return nil, err
	}
	return listed(views, appointment, ""), nil
}

type appointmentBody struct{ Body AppointmentForm }

func (e *edge) proposeAppointment(ctx context.Context, by caller, in *appointmentBody) (*answer[Appointment], error) {
	person, err := maybeID[assessment.PersonID](in.Body.Person)
	if err != nil {
		return nil, err
	}
	v, err := e.office.ProposeAppointment(ctx, by.Actor, office.AppointmentForm{Person: person, Skills: in.Body.Skills, From: in.Body.From,
		Through: in.Body.Through, Founding: in.Body.Founding, Evidence: in.Body.Evidence})
	if err != nil {
		return nil, err
	}
	return shown(appointment(v)), nil
}

func (e *edge) agreeAppointment(ctx context.Context, by caller, in *ByID) (*answer[Appointment], error) {
	id, err := assessment.ParseID[assessment.AppointmentID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.AgreeAppointment(ctx, by.Actor, id)
	if err != nil {
		return nil, err
	}
	return shown(appointment(v)), nil
}

type reasonBody struct {
	ByID
	Body Reason
}

func (e *edge) endAppointment(ctx context.Context, by caller, in *reasonBody) (*answer[Appointment], error) {
	id, err := assessment.ParseID[assessment.AppointmentID](in.ID)
	if err != nil {
		return nil, err
	}
	v, err := e.office.EndAppointment(ctx, by.Actor, id, in.Body.Reason)
	if err != nil {
		return nil, err
	}
	return shown(appointment(v)), nil
}
