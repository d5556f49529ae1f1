package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Appointment is one as it is kept, with who agreed and whether it was ended.
type Appointment struct {
	ID         assessment.AppointmentID
	Person     assessment.PersonID
	Name       string
	Skills     []string
	FromOn     civil.Date
	ThroughOn  civil.Date
	Founding   bool
	Evidence   string
	Proposed   assessment.PersonID
	Proposer   string // name
	ProposedAt time.Time
	Agreed     assessment.PersonID // empty until agreed
	Agreer     string              // name
	AgreedAt   *time.Time
	EndedAt    *time.Time
	EndReason  string
}

const appointmentQuery = `
	select x.id, x.person_id as person, n.name, x.skills, x.from_on, x.through_on, x.founding, x.evidence,
		x.proposed_by as proposed, b.name as proposer, x.proposed_at,
		coalesce(a.agreed_by::text, '') as agreed, coalesce(g.name, '') as agreer, a.agreed_at,
		e.ended_at, coalesce(e.reason, '') as end_reason
	from appointment x
	join person n on n.agency_id = x.agency_id and n.id = x.person_id
	join person b on b.agency_id = x.agency_id and b.id = x.proposed_by
	left join appointment_agreement a on a.agency_id = x.agency_id and a.appointment_id = x.id
	left join person g on g.agency_id = a.agency_id and g.id = a.agreed_by
	left join appointment_end e on e.agency_id = x.agency_id and e.appointment_id = x.id`

// Appointment is the one with this id.
func (q Qualifications) Appointment(ctx context.Context, id assessment.AppointmentID) (Appointment, error) {
	return get[Appointment](ctx, q.scope, appointmentQuery+` where x.id = $1`, id)
}

// Appointments lists those of a person, or of everybody for the empty id, the
// newest first.
func (q Qualifications) Appointments(ctx context.Context, person assessment.PersonID) ([]Appointment, error) {
	return list[Appointment](ctx, q.scope, appointmentQuery+`
		where ($1 = '' or x.person_id = nullif($1, '')::uuid)
		order by x.proposed_at desc, x.id desc`, string(person))
}

// Propose adds an appointment that nobody has agreed to yet.
func (q Qualifications) Propose(ctx context.Context, a assessment.Appointment, at time.Time) error {
	return q.exec(ctx, `
		insert into appointment (agency_id, id, person_id, skills, from_on, through_on, founding, evidence, proposed_by, proposed_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		q.agency, a.ID, a.Person, a.Skills, a.From, a.Through, a.Founding, a.Evidence, a.Proposed, at)
}

// Agree adds the second person's word.
func (q Qualifications) Agree(ctx context.Context, id assessment.AppointmentID, by assessment.PersonID, at time.Time) error {
	return q.exec(ctx, `
		insert into appointment_agreement (agency_id, appointment_id, agreed_by, agreed_at)
		values ($1, $2, $3, $4)`, q.agency, id, by, at)
}

// End ends an appointment before its last day.
func (q Qualifications) End(ctx context.Context, id assessment.AppointmentID, by assessment.PersonID, reason string, at time.Time) error {
	return q.exec(ctx, `
		insert into appointment_end (agency_id, appointment_id, ended_by, ended_at, reason)
		values ($1, $2, $3, $4, $5)`, q.agency, id, by, at, reason)
}
