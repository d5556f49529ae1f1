package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Availability is how an educator's weeks are.
type Availability struct {
	Person  assessment.PersonID
	DaysOff []int16 // each week: 1 is Monday, 7 is Sunday
	PerDay  int     // visits at most
	Base    assessment.RecordID
	SetBy   assessment.PersonID
	SetAt   time.Time
}

// Availabilities lists those that were set.
func (v Visits) Availabilities(ctx context.Context) ([]Availability, error) {
	return list[Availability](ctx, v.scope, `
		select person_id as person, days_off, per_day, coalesce(base_id::text, '') as base, set_by, set_at
		from visit_availability order by person_id`)
}

// SetAvailability says how somebody's weeks are from now on.
func (v Visits) SetAvailability(ctx context.Context, a Availability) error {
	return v.exec(ctx, `
		insert into visit_availability (agency_id, person_id, days_off, per_day, base_id, set_by, set_at)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7)
		on conflict (agency_id, person_id) do update
		set days_off = excluded.days_off, per_day = excluded.per_day, base_id = excluded.base_id, set_by = excluded.set_by, set_at = excluded.set_at`,
		v.agency, a.Person, a.DaysOff, a.PerDay, string(a.Base), a.SetBy, a.SetAt)
}

// DaysOff are days on which somebody makes no visits.
type DaysOff struct {
	ID        assessment.RecordID
	Person    assessment.PersonID
	FromOn    civil.Date
	ThroughOn civil.Date
	AddedBy   assessment.PersonID
	AddedAt   time.Time
}

// DaysOff lists those that are not over on a day, in order.
func (v Visits) DaysOff(ctx context.Context, on civil.Date) ([]DaysOff, error) {
	return list[DaysOff](ctx, v.scope, `
		select id, person_id as person, from_on, through_on, added_by, added_at
		from visit_days_off where through_on >= $1 order by from_on, through_on, id`, on)
}

// AddDaysOff writes days off down.
func (v Visits) AddDaysOff(ctx context.Context, d DaysOff) error {
	return v.exec(ctx, `
		insert into visit_days_off (agency_id, id, person_id, from_on, through_on, added_by, added_at)
		values ($1, $2, $3, $4, $5, $6, $7)`, v.agency, d.ID, d.Person, d.FromOn, d.ThroughOn, d.AddedBy, d.AddedAt)
}

// RemoveDaysOff takes days off away again.
func (v Visits) RemoveDaysOff(ctx context.Context, id assessment.RecordID) error {
	return v.change(ctx, `delete from visit_days_off where id = $1`, id)
}

// VisitBase is a place that educators start from.
type VisitBase struct {
	ID      assessment.RecordID
	Name    string
	AddedBy assessment.PersonID
	AddedAt time.Time
}

// Bases lists the places by name.
func (v Visits) Bases(ctx context.Context) ([]VisitBase, error) {
	return list[VisitBase](ctx, v.scope, `select id, name, added_by, added_at from visit_base order by lower(name), id`)
}

// AddBase names a place.
func (v Visits) AddBase(ctx context.Context, b VisitBase) error {
	return v.exec(ctx, `insert into visit_base (agency_id, id, name, added_by, added_at) values ($1, $2, $3, $4, $5)`, v.agency, b.ID, b.Name, b.AddedBy, b.AddedAt)
}

// TravelTime is how long the way between a home and another, or a home and a base, is.
type TravelTime struct {
	ID      assessment.RecordID
	Client  assessment.ClientID
	Other   assessment.ClientID // empty: a base
	Base    assessment.RecordID // empty: a home
	Minutes int
	SetBy   assessment.PersonID
	SetAt   time.Time
}

// TravelTimes lists all that are known.
func (v Visits) TravelTimes(ctx context.Context) ([]TravelTime, error) {
	return list[TravelTime](ctx, v.scope, `
		select id, client_id as client, coalesce(other_client_id::text, '') as other, coalesce(base_id::text, '') as base, minutes, set_by, set_at
		from travel_time order by client_id, other_client_id, base_id`)
}

// SetTravelTime puts the length of a way in place of what was known of it. Of two homes
// the smaller id stands first.
func (v Visits) SetTravelTime(ctx context.Context, w TravelTime) error {
	if err := v.exec(ctx, `
		delete from travel_time where client_id = $1 and other_client_id is not distinct from nullif($2, '')::uuid and base_id is not distinct from nullif($3, '')::uuid`,
		w.Client, string(w.Other), string(w.Base)); err != nil {
		return err
	}
	return v.exec(ctx, `
		insert into travel_time (agency_id, id, client_id, other_client_id, base_id, minutes, set_by, set_at)
		values ($1, $2, $3, nullif($4, '')::uuid, nullif($5, '')::uuid, $6, $7, $8)`,
		v.agency, w.ID, w.Client, string(w.Other), string(w.Base), w.Minutes, w.SetBy, w.SetAt)
}

// RemoveTravelTime forgets how long a way is.
func (v Visits) RemoveTravelTime(ctx context.Context, id assessment.RecordID) error {
	return v.change(ctx, `delete from travel_time where id = $1`, id)
}
