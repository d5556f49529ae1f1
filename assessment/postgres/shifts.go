package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Shift is one of the early shifts after discharge.
type Shift struct {
	ID         assessment.RecordID
	Client     assessment.ClientID
	Person     assessment.PersonID
	Name       string
	Kind       assessment.CaregiverKind
	PersonLeft civil.Date
	StartsAt   time.Time
	EndsAt     time.Time
}

const shiftQuery = `
	select s.id, s.client_id as client, s.person_id as person, p.name, p.kind, p.left_on as person_left, s.starts_at, s.ends_at
	from plan_shift s
	join person p on p.agency_id = s.agency_id and p.id = s.person_id`

// Shifts lists the early shifts of some clients in order.
func (p Plans) Shifts(ctx context.Context, clients ...assessment.ClientID) ([]Shift, error) {
	return list[Shift](ctx, p.scope, shiftQuery+` where s.client_id = any($1::uuid[]) order by s.starts_at, s.ends_at, s.id`, clients)
}

// Shift is the one with this id.
func (p Plans) Shift(ctx context.Context, id assessment.RecordID) (Shift, error) {
	return get[Shift](ctx, p.scope, shiftQuery+` where s.id = $1`, id)
}

// AddShift plans a shift.
func (p Plans) AddShift(ctx context.Context, s Shift) error {
	return p.exec(ctx, `
		insert into plan_shift (agency_id, id, client_id, person_id, starts_at, ends_at)
		values ($1, $2, $3, $4, $5, $6)`, p.agency, s.ID, s.Client, s.Person, s.StartsAt, s.EndsAt)
}

// RemoveShift takes a shift off the plan.
func (p Plans) RemoveShift(ctx context.Context, id assessment.RecordID) error {
	return p.change(ctx, `delete from plan_shift where id = $1`, id)
}
