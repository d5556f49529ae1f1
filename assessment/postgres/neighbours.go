package postgres

import (
	"context"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
)

// Neighbours keeps agencies elsewhere by the key that they sign with.
type Neighbours struct{ scope }

// Neighbour is an agency elsewhere with what was said of it. It is known by its key and its id
// there together, since one house, with one key, keeps several agencies.
type Neighbour struct {
	ID        assessment.RecordID
	Name      string
	House     string // the id of that agency in its own house
	PublicKey string
	EnteredBy assessment.PersonID
	Enterer   string
	EnteredAt time.Time
	AgreedBy  assessment.PersonID // empty: nobody yet
	Agreer    string
	AgreedAt  *time.Time
	Ender     string
	EndedAt   *time.Time
	EndReason string
}

const neighbourQuery = `
	select n.id, n.name, n.house::text as house, n.public_key, n.entered_by, p.name as enterer, n.entered_at,
		coalesce(a.said_by::text, '') as agreed_by, coalesce(ap.name, '') as agreer, a.said_at as agreed_at,
		coalesce(ep.name, '') as ender, e.said_at as ended_at, coalesce(e.reason, '') as end_reason
	from neighbour n
		join person p on p.agency_id = n.agency_id and p.id = n.entered_by
		left join neighbour_word a on a.agency_id = n.agency_id and a.neighbour_id = n.id and a.word = 'agreed'
		left join person ap on ap.agency_id = a.agency_id and ap.id = a.said_by
		left join neighbour_word e on e.agency_id = n.agency_id and e.neighbour_id = n.id and e.word = 'ended'
		left join person ep on ep.agency_id = e.agency_id and ep.id = e.said_by `

// List lists all, those that were ended last.
func (n Neighbours) List(ctx context.Context) ([]Neighbour, error) {
	return list[Neighbour](ctx, n.scope, neighbourQuery+`order by e.said_at is not null, n.name, n.entered_at, n.id`)
}

// Get is the one with this id.
func (n Neighbours) Get(ctx context.Context, id assessment.RecordID) (Neighbour, error) {
	return get[Neighbour](ctx, n.scope, neighbourQuery+`where n.id = $1`, id)
}

// ByKey lists those with this key and house that somebody has agreed to, the one agreed to last first.
func (n Neighbours) ByKey(ctx context.Context, public, house string) ([]Neighbour, error) {
	return list[Neighbour](ctx, n.scope, neighbourQuery+`where n.public_key = $1 and n.house = $2::uuid and a.said_at is not null order by e.said_at is not null, a.said_at desc, n.id`, public, house)
}

// Lock has whoever says something of neighbours take turns.
func (n Neighbours) Lock(ctx context.Context) error {
	return n.exec(ctx, `select pg_advisory_xact_lock(hashtextextended($1 || ' neighbours', 0))`, string(n.agency))
}

// Enter keeps one.
func (n Neighbours) Enter(ctx context.Context, one Neighbour) error {
	return n.exec(ctx, `insert into neighbour (agency_id, id, name, house, public_key, entered_by, entered_at) values ($1, $2, $3, $4, $5, $6, $7)`,
		n.agency, one.ID, one.Name, one.House, one.PublicKey, one.EnteredBy, one.EnteredAt)
}

// Say keeps that somebody agreed to one ("agreed") or ended it ("ended").
func (n Neighbours) Say(ctx context.Context, id assessment.RecordID, word, reason string, by assessment.PersonID, at time.Time) error {
	return n.exec(ctx, `insert into neighbour_word (agency_id, neighbour_id, word, reason, said_by, said_at) values ($1, $2, $3, $4, $5, $6)`,
		n.agency, id, word, reason, by, at)
}

// Neighbour lists the agencies that know, or knew, this key of that house.
func (d Door) Neighbour(ctx context.Context, public, house string) ([]assessment.AgencyID, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id from door_neighbour($1, $2::uuid)`, public, house)
	if err != nil {
		return nil, refusal(err)
	}
	ids, err := pgx.CollectRows(rows, pgx.RowTo[assessment.AgencyID])
	return ids, refusal(err)
}
