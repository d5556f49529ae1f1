package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Roster keeps shifts, weekly patterns of them, and the rest between two.
type Roster struct{ scope }

// RosterShift is a shift of the roster.
type RosterShift struct {
	ID        assessment.ShiftID
	Client    assessment.ClientID
	Person    assessment.PersonID // empty: nobody is on it
	Kind      assessment.CaregiverKind
	StartsAt  time.Time
	EndsAt    time.Time
	ShortRest string // why they have less rest than is asked; empty: they have it
	AddedBy   assessment.PersonID
	AddedAt   time.Time
}

// Planned is the shift as the core knows it.
func (s RosterShift) Planned() assessment.Shift {
	return assessment.Shift{ID: s.ID, Client: s.Client, Person: s.Person, Kind: s.Kind, Starts: s.StartsAt, Ends: s.EndsAt}
}

const rosterShiftQuery = `
	select s.id, s.client_id as client, coalesce(s.person_id::text, '') as person, s.kind, s.starts_at, s.ends_at, s.short_rest, s.added_by, s.added_at
	from shift s`

// RosterFilter narrows shifts and patterns; empty fields are no condition.
type RosterFilter struct {
	Client assessment.ClientID
	Person assessment.PersonID
}

// Shifts lists single shifts that have an instant from one up to another, in order.
func (r Roster) Shifts(ctx context.Context, f RosterFilter, from, to time.Time) ([]RosterShift, error) {
	return list[RosterShift](ctx, r.scope, rosterShiftQuery+`
		where s.starts_at < $2 and s.ends_at > $1 and s.starts_at > $1 - interval '25 hours'
			and ($3 = '' or s.client_id = nullif($3, '')::uuid) and ($4 = '' or s.person_id = nullif($4, '')::uuid)
		order by s.starts_at, s.ends_at, s.id`, from, to, string(f.Client), string(f.Person))
}

// Shift is the single shift with this id.
func (r Roster) Shift(ctx context.Context, id assessment.ShiftID) (RosterShift, error) {
	return get[RosterShift](ctx, r.scope, rosterShiftQuery+` where s.id = $1`, id)
}

// LockShift is Shift, with others who lock it kept waiting.
func (r Roster) LockShift(ctx context.Context, id assessment.ShiftID) (RosterShift, error) {
	return get[RosterShift](ctx, r.scope, rosterShiftQuery+` where s.id = $1 for no key update of s`, id)
}

// AddShift puts a shift on the roster.
func (r Roster) AddShift(ctx context.Context, s RosterShift) error {
	return r.exec(ctx, `
		insert into shift (agency_id, id, client_id, person_id, kind, starts_at, ends_at, short_rest, added_by, added_at)
		values ($1, $2, $3, nullif($4, '')::uuid, $5, $6, $7, $8, $9, $10)`,
		r.agency, s.ID, s.Client, string(s.Person), s.Kind, s.StartsAt, s.EndsAt, s.ShortRest, s.AddedBy, s.AddedAt)
}

// SaveShift changes a shift; whose it is stays.
func (r Roster) SaveShift(ctx context.Context, s RosterShift) error {
	return r.change(ctx, `
		update shift set person_id = nullif($2, '')::uuid, kind = $3, starts_at = $4, ends_at = $5, short_rest = $6
		where id = $1`, s.ID, string(s.Person), s.Kind, s.StartsAt, s.EndsAt, s.ShortRest)
}

// RemoveShift takes a shift off the roster.
func (r Roster) RemoveShift(ctx context.Context, id assessment.ShiftID) error {
	return r.change(ctx, `delete from shift where id = $1`, id)
}

// EarlyShifts lists the early shifts of ways home that have an instant from one up to
// another, of every client, in order.
func (p Plans) EarlyShifts(ctx context.Context, from, to time.Time) ([]Shift, error) {
	return list[Shift](ctx, p.scope, shiftQuery+` where s.starts_at < $2 and s.ends_at > $1 and s.starts_at > $1 - interval '25 hours' order by s.starts_at, s.ends_at, s.id`, from, to)
}

// LockShift is Shift, with others who lock it kept waiting.
func (p Plans) LockShift(ctx context.Context, id assessment.RecordID) (Shift, error) {
	return get[Shift](ctx, p.scope, shiftQuery+` where s.id = $1 for no key update of s`, id)
}

// GiveShift has somebody else take an early shift.
func (p Plans) GiveShift(ctx context.Context, id assessment.RecordID, to assessment.PersonID) error {
	return p.change(ctx, `update plan_shift set person_id = $2 where id = $1`, id, to)
}

// Rest is how long lies between two shifts of one person at least, as it was set last.
type Rest struct {
	ID    assessment.RecordID
	Hours int // 0: none asked
	SetBy assessment.PersonID
	SetAt time.Time
}

// Rest is what is asked now; 0 where nobody has said.
func (r Roster) Rest(ctx context.Context) (time.Duration, error) {
	row, err := get[struct{ Hours int }](ctx, r.scope, `select coalesce((select hours from shift_rest order by set_at desc, id desc limit 1), 0)::int as hours`)
	return time.Duration(row.Hours) * time.Hour, err
}

// SetRest says what is asked from now on.
func (r Roster) SetRest(ctx context.Context, n Rest) error {
	return r.exec(ctx, `insert into shift_rest (agency_id, id, hours, set_by, set_at) values ($1, $2, nullif($3::int, 0), $4, $5)`, r.agency, n.ID, n.Hours, n.SetBy, n.SetAt)
}

// Lock has whoever puts somebody on a shift take turns, so that of two at once the
// later one sees both.
func (r Roster) Lock(ctx context.Context) error {
	return r.exec(ctx, `select pg_advisory_xact_lock(hashtextextended('roster ' || $1, 0))`, string(r.agency))
}
