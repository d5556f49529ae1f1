package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Visits keeps what visits of educators to homes are planned with, and those planned.
type Visits struct{ scope }

// PlannedVisit is an educator at a home on a day.
type PlannedVisit struct {
	ID        assessment.VisitID
	Client    assessment.ClientID
	Person    assessment.PersonID // the educator
	FallsOn   civil.Date
	PlannedBy assessment.PersonID
	PlannedAt time.Time
}

const visitQuery = `
	select v.id, v.client_id as client, v.person_id as person, v.falls_on, v.planned_by, v.planned_at
	from home_visit v`

// From lists the visits of a day and later ones, in order.
func (v Visits) From(ctx context.Context, on civil.Date) ([]PlannedVisit, error) {
	return list[PlannedVisit](ctx, v.scope, visitQuery+` where v.falls_on >= $1 order by v.falls_on, v.person_id, v.client_id`, on)
}

// Of lists somebody's visits from one day through another, in order.
func (v Visits) Of(ctx context.Context, person assessment.PersonID, from, through civil.Date) ([]PlannedVisit, error) {
	return list[PlannedVisit](ctx, v.scope, visitQuery+` where v.person_id = $1 and v.falls_on between $2 and $3 order by v.falls_on, v.client_id`, person, from, through)
}

// Get is the visit with this id.
func (v Visits) Get(ctx context.Context, id assessment.VisitID) (PlannedVisit, error) {
	return get[PlannedVisit](ctx, v.scope, visitQuery+` where v.id = $1`, id)
}

// Add plans a visit.
func (v Visits) Add(ctx context.Context, n PlannedVisit) error {
	return v.exec(ctx, `
		insert into home_visit (agency_id, id, client_id, person_id, falls_on, planned_by, planned_at)
		values ($1, $2, $3, $4, $5, $6, $7)`, v.agency, n.ID, n.Client, n.Person, n.FallsOn, n.PlannedBy, n.PlannedAt)
}

// Move puts a visit on another day, or has another educator make it.
func (v Visits) Move(ctx context.Context, id assessment.VisitID, by assessment.PersonID, on civil.Date) error {
	return v.change(ctx, `update home_visit set person_id = $2, falls_on = $3 where id = $1`, id, by, on)
}

// Remove takes a visit off the plan.
func (v Visits) Remove(ctx context.Context, id assessment.VisitID) error {
	return v.change(ctx, `delete from home_visit where id = $1`, id)
}

// Lock has whoever changes the plan take turns.
func (v Visits) Lock(ctx context.Context) error { return v.turn(ctx, "visits") }
