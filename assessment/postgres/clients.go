package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Clients keeps the children, what is ordered for them and their equipment.
type Clients struct{ scope }

// Client is a child, by short code and first name.
type Client struct {
	ID        assessment.ClientID
	Code      string
	FirstName string
	LeftOn    civil.Date // first day on which the agency no longer looks after them; zero while it does
	SinceOn   civil.Date // first day on which it does; zero: not said
}

const clientColumns = ` c.id, c.code, c.first_name, c.left_on, c.since_on `

// Get is the client with this id.
func (c Clients) Get(ctx context.Context, id assessment.ClientID) (Client, error) {
	return get[Client](ctx, c.scope, `select`+clientColumns+`from client c where c.id = $1`, id)
}

// Lock is Get, with others who lock the client kept waiting until the end of the
// transaction.
func (c Clients) Lock(ctx context.Context, id assessment.ClientID) (Client, error) {
	return get[Client](ctx, c.scope, `select`+clientColumns+`from client c where c.id = $1 for no key update`, id)
}

// ClientFilter narrows a list of clients; empty fields are no condition.
type ClientFilter struct {
	Find        string                // a part of the code or the first name
	TeamOf      assessment.PersonID   // those whom this person looks after on the day On
	Among       []assessment.ClientID // these, or those of TeamOf; nil: no condition
	On          civil.Date
	IncludeLeft bool // also those who are gone on the day On
}

// List lists clients by first name and code.
func (c Clients) List(ctx context.Context, f ClientFilter) ([]Client, error) {
	return list[Client](ctx, c.scope, `
		select`+clientColumns+`
		from client c
		where ($1 = '' or position(lower($1) in lower(c.first_name)) > 0 or position(lower($1) in lower(c.code)) > 0)
			and (($2 = '' and $5::uuid[] is null) or c.id = any($5) or exists (select from care_team t
				where t.agency_id = c.agency_id and t.client_id = c.id and t.person_id = nullif($2, '')::uuid
					and t.from_on <= $3 and (t.through_on is null or t.through_on >= $3)))
			and ($4 or c.left_on is null or c.left_on > $3)
		order by lower(c.first_name), c.code`, f.Find, string(f.TeamOf), f.On, f.IncludeLeft, f.Among)
}

// Add adds a client.
func (c Clients) Add(ctx context.Context, n Client, at time.Time) error {
	return c.exec(ctx, `
		insert into client (agency_id, id, code, first_name, created_at, since_on)
		values ($1, $2, $3, $4, $5, $6)`, c.agency, n.ID, n.Code, n.FirstName, at, n.SinceOn)
}

// Save changes a client.
func (c Clients) Save(ctx context.Context, n Client) error {
	return c.change(ctx, `
		update client set code = $2, first_name = $3, left_on = $4, since_on = $5
		where id = $1`, n.ID, n.Code, n.FirstName, n.LeftOn, n.SinceOn)
}

// Parameter is one value ordered for a client: a number with its unit, or words;
// neither unsets it.
type Parameter struct {
	ID    assessment.RecordID
	Name  string
	Value string // an exact number; empty: words
	Unit  string
	Words string
	SetAt time.Time
	SetBy assessment.PersonID
	By    string // name
}

// Parameters lists what was ordered as of an instant, by name: the newest row of
// each, unset ones left out.
func (c Clients) Parameters(ctx context.Context, client assessment.ClientID, at time.Time) ([]Parameter, error) {
	return list[Parameter](ctx, c.scope, `
		select n.id, n.name, coalesce(n.value, '') as value, n.unit, coalesce(n.words, '') as words, n.set_at, n.set_by, coalesce(p.name, '') as by
		from (
			select distinct on (name) *
			from client_parameter
			where client_id = $1 and set_at <= $2
			order by name, set_at desc, id desc) n
		left join person p on p.agency_id = n.agency_id and p.id = n.set_by
		where n.value is not null or n.words is not null
		order by n.name`, client, at)
}

// ParametersOfAll is Parameters of every client.
func (c Clients) ParametersOfAll(ctx context.Context, at time.Time) (map[assessment.ClientID][]Parameter, error) {
	type row struct {
		Client assessment.ClientID
		Parameter
	}
	rows, err := list[row](ctx, c.scope, `
		select n.client_id as client, n.id, n.name, coalesce(n.value, '') as value, n.unit, coalesce(n.words, '') as words, n.set_at, n.set_by, '' as by
		from (
			select distinct on (client_id, name) *
			from client_parameter
			where set_at <= $1
			order by client_id, name, set_at desc, id desc) n
		where n.value is not null or n.words is not null
		order by n.client_id, n.name`, at)
	all := map[assessment.ClientID][]Parameter{}
	for _, r := range rows {
		all[r.Client] = append(all[r.Client], r.Parameter)
	}
	return all, err
}

// SetParameter adds a value; from now on it is the newest of its name.
func (c Clients) SetParameter(ctx context.Context, client assessment.ClientID, n Parameter) error {
	return c.exec(ctx, `
		insert into client_parameter (agency_id, id, client_id, name, value, unit, words, set_at, set_by)
		values ($1, $2, $3, $4, nullif($5, ''), $6, nullif($7, ''), $8, $9)`,
		c.agency, n.ID, client, n.Name, n.Value, n.Unit, n.Words, n.SetAt, n.SetBy)
}

// Equipment is which type of a kind of equipment a client has from a day on.
type Equipment struct {
	ID         assessment.RecordID
	Kind       string
	Type       string // empty: none any more
	FromOn     civil.Date
	RecordedAt time.Time
}

// Equipment lists every change of a client's equipment, oldest first; of two for
// one day the one written down later comes last.
func (c Clients) Equipment(ctx context.Context, client assessment.ClientID) ([]Equipment, error) {
	return list[Equipment](ctx, c.scope, `
		select id, kind, type, from_on, recorded_at
		from client_equipment where client_id = $1
		order by from_on, recorded_at, id`, client)
}

// SetEquipment adds a change of a client's equipment.
func (c Clients) SetEquipment(ctx context.Context, client assessment.ClientID, n Equipment, by assessment.PersonID) error {
	return c.exec(ctx, `
		insert into client_equipment (agency_id, id, client_id, kind, type, from_on, recorded_at, recorded_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		c.agency, n.ID, client, n.Kind, n.Type, n.FromOn, n.RecordedAt, by)
}
