package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Teams keeps who looks after which child from when to when.
type Teams struct{ scope }

// Member is a stretch of days for which somebody is on a child's team.
type Member struct {
	ID         assessment.RecordID
	Client     assessment.ClientID
	Code       string // of the client
	FirstName  string // of the client
	ClientLeft civil.Date
	Person     assessment.PersonID
	Name       string
	Kind       assessment.CaregiverKind
	Relation   string
	PersonLeft civil.Date
	FromOn     civil.Date
	ThroughOn  civil.Date // zero: until further notice
}

// TeamFilter narrows a list of members; empty fields are no condition.
type TeamFilter struct {
	Client assessment.ClientID
	Person assessment.PersonID
}

const memberQuery = `
	select t.id, t.client_id as client, c.code, c.first_name, c.left_on as client_left,
		t.person_id as person, p.name, p.kind, p.relation, p.left_on as person_left, t.from_on, t.through_on
	from care_team t
	join client c on c.agency_id = t.agency_id and c.id = t.client_id
	join person p on p.agency_id = t.agency_id and p.id = t.person_id`

// List lists members, past and planned ones too, by name and first day.
func (t Teams) List(ctx context.Context, f TeamFilter) ([]Member, error) {
	return list[Member](ctx, t.scope, memberQuery+`
		where ($1 = '' or t.client_id = nullif($1, '')::uuid) and ($2 = '' or t.person_id = nullif($2, '')::uuid)
		order by lower(p.name), p.id, t.from_on, t.id`, string(f.Client), string(f.Person))
}

// PeopleOf are all who are, were or will be on the team of one of some clients.
func (t Teams) PeopleOf(ctx context.Context, clients []assessment.ClientID) ([]assessment.PersonID, error) {
	rows, err := list[struct{ ID assessment.PersonID }](ctx, t.scope, `select distinct t.person_id as id from care_team t where t.client_id = any($1) order by 1`, clients)
	var people []assessment.PersonID
	for _, r := range rows {
		people = append(people, r.ID)
	}
	return people, err
}

// Get is the stretch with this id.
func (t Teams) Get(ctx context.Context, id assessment.RecordID) (Member, error) {
	return get[Member](ctx, t.scope, memberQuery+` where t.id = $1`, id)
}

// Add puts somebody on a team.
func (t Teams) Add(ctx context.Context, m Member, by assessment.PersonID, at time.Time) error {
	return t.exec(ctx, `
		insert into care_team (agency_id, id, client_id, person_id, from_on, through_on, added_at, added_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		t.agency, m.ID, m.Client, m.Person, m.FromOn, m.ThroughOn, at, by)
}

// End sets the last day on the team.
func (t Teams) End(ctx context.Context, id assessment.RecordID, through civil.Date) error {
	return t.change(ctx, `update care_team set through_on = $2 where id = $1`, id, through)
}

// Has reports whether somebody is on a child's team on a day.
func (t Teams) Has(ctx context.Context, client assessment.ClientID, person assessment.PersonID, on civil.Date) (bool, error) {
	type row struct{ Has bool }
	r, err := get[row](ctx, t.scope, `
		select exists (select from care_team
			where client_id = $1 and person_id = $2 and from_on <= $3 and (through_on is null or through_on >= $3)) as has`,
		client, person, on)
	return r.Has, err
}
