package api

import (
	"time"

	"wellshown/assessment/office"
)

// Licence is a right to practise, as the agency has checked it.
type Licence struct {
	ID         string    `json:"id" format:"uuid"`
	Kind       string    `json:"kind" example:"RN"`
	Number     string    `json:"number"`
	Through    string    `json:"through,omitempty" format:"date" doc:"Last day; left out where it does not end."`
	Current    bool      `json:"current" doc:"Whether it covers today."`
	RecordedAt time.Time `json:"recorded_at"`
	RecordedBy string    `json:"recorded_by"`
}

// LicenceForm is a licence to be put on file.
type LicenceForm struct {
	Kind    string `json:"kind" maxLength:"1000" example:"RN"`
	Number  string `json:"number" maxLength:"1000"`
	Through string `json:"through,omitempty" format:"date" doc:"Last day; left out where it does not end."`
}

// Card is a resuscitation card, as the agency has seen it.
type Card struct {
	ID         string    `json:"id" format:"uuid"`
	Issuer     string    `json:"issuer"`
	IssuedOn   string    `json:"issued_on,omitempty" format:"date"`
	CourseOn   string    `json:"course_on,omitempty" format:"date"`
	PrintedEnd string    `json:"printed_end,omitempty" format:"date"`
	Through    string    `json:"through" format:"date" doc:"Last day as it counts: two years to the end of the month, or the printed end if that is earlier."`
	Current    bool      `json:"current" doc:"Whether it covers today."`
	RecordedAt time.Time `json:"recorded_at"`
	RecordedBy string    `json:"recorded_by"`
}

// CardForm is a card to be put on file. One of its three days must be given.
type CardForm struct {
	Issuer     string `json:"issuer" maxLength:"1000"`
	IssuedOn   string `json:"issued_on,omitempty" format:"date"`
	CourseOn   string `json:"course_on,omitempty" format:"date"`
	PrintedEnd string `json:"printed_end,omitempty" maxLength:"20" doc:"As printed, such as 06/2027, or as YYYY-MM-DD."`
}

// Appointment says who may observe which skills, from a day through a day.
type Appointment struct {
	ID         string   `json:"id" format:"uuid"`
	Person     Named    `json:"person"`
	Skills     []string `json:"skills" doc:"Codes."`
	From       string   `json:"from" format:"date"`
	Through    string   `json:"through" format:"date"`
	Founding   bool     `json:"founding" doc:"Whether it stands in for their own competency."`
	Evidence   string   `json:"evidence"`
	ProposedBy Named    `json:"proposed_by"`
	ProposedOn string   `json:"proposed_on" format:"date"`
	AgreedBy   string   `json:"agreed_by,omitempty" doc:"Left out until a second person has agreed. Until then it does not count."`
	AgreedOn   string   `json:"agreed_on,omitempty" format:"date"`
	EndedOn    string   `json:"ended_on,omitempty" format:"date" doc:"First day on which it no longer counts."`
	EndReason  string   `json:"end_reason,omitempty"`
	Pending    bool     `json:"pending" doc:"It waits for the second person."`
	Open       bool     `json:"open" doc:"It counts today or will."`
}

// AppointmentForm proposes an appointment.
type AppointmentForm struct {
	Person   string   `json:"person" doc:"An id."`
	Skills   []string `json:"skills" maxItems:"200" doc:"Codes."`
	From     string   `json:"from" format:"date"`
	Through  string   `json:"through" format:"date"`
	Founding bool     `json:"founding,omitempty" doc:"Stands in for their own competency: how an agency's first observers come to be. It ends within 12 months."`
	Evidence string   `json:"evidence" maxLength:"4000" doc:"Where and by whom they were found able to judge this."`
}

// Qualifications is all on file about one person's right to do and to judge.
type Qualifications struct {
	Licences     []Licence     `json:"licences"`
	Cards        []Card        `json:"cards"`
	Appointments []Appointment `json:"appointments"`
}

// Reason is why something is done. It stays with the record.
type Reason struct {
	Reason string `json:"reason" maxLength:"4000" doc:"Why. It stays with the record."`
}

func licence(v office.LicenceView) Licence {
	return Licence{ID: string(v.ID), Kind: v.Kind, Number: v.Number, Through: v.Through.String(), Current: v.Current,
		RecordedAt: v.RecordedAt.UTC(), RecordedBy: v.RecordedBy}
}

func card(v office.CardView) Card {
	return Card{ID: string(v.ID), Issuer: v.Issuer, IssuedOn: v.IssuedOn.String(), CourseOn: v.CourseOn.String(), PrintedEnd: v.PrintedEnd.String(),
		Through: v.Through.String(), Current: v.Current, RecordedAt: v.RecordedAt.UTC(), RecordedBy: v.RecordedBy}
}

func appointment(v office.AppointmentView) Appointment {
	return Appointment{ID: string(v.ID), Person: Named{string(v.Person), v.Name}, Skills: texts(v.Skills), From: v.From.String(), Through: v.Through.String(),
		Founding: v.Founding, Evidence: v.Evidence, ProposedBy: Named{string(v.Proposed), v.ProposedBy}, ProposedOn: v.ProposedOn.String(),
		AgreedBy: v.AgreedBy, AgreedOn: v.AgreedOn.String(), EndedOn: v.EndedOn.String(), EndReason: v.EndReason, Pending: v.Pending, Open: v.Open}
}
