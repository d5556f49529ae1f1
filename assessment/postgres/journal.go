package postgres

import (
	"context"
	"strings"
	"time"

	"wellshown/assessment"
)

// Journal keeps who did what to what and when. It holds ids and no names.
type Journal struct{ scope }

// JournalRow is one line of the journal.
type JournalRow struct {
	ID      string
	At      time.Time
	Actor   assessment.PersonID // empty: the house itself
	Act     string
	Kind    string
	Subject string // id; empty where it concerns the agency
}

// AccountRow is one line about an account, with the name of who did it.
type AccountRow struct {
	At    time.Time
	Actor assessment.PersonID // empty: the house itself
	Name  string
	Kind  string
}

// aboutAccount is what concerns the account of $1; $2 are all acts on the accounts
// of others. The act of keeping one's own account stands in the text, so that the
// index of just those lines is found.
var aboutAccount = strings.ReplaceAll(`
	from journal j
	left join person p on p.agency_id = j.agency_id and p.id = j.actor_id
	where (j.subject = $1 and (j.act = OWN or j.act = any($2)) or j.actor_id = $1 and j.act = OWN)`,
	"OWN", "'"+strings.ReplaceAll(string(assessment.OwnAccount), "'", "''")+"'")

// OfAccount lists what happened to the account of a person, newest first.
func (j Journal) OfAccount(ctx context.Context, person assessment.PersonID, others []assessment.Act, most int) ([]AccountRow, error) {
	return list[AccountRow](ctx, j.scope, `
		select j.at, coalesce(j.actor_id::text, '') as actor, coalesce(p.name, '') as name, j.kind`+aboutAccount+`
		order by j.at desc, j.id desc limit $3`, person, others, most)
}

// Unseen counts what happened to the account of a person after an instant and was
// not done by them, or is of a kind that others can do who use their session.
func (j Journal) Unseen(ctx context.Context, person assessment.PersonID, others []assessment.Act, anybody []string, after time.Time) (int, error) {
	type row struct{ Count int }
	r, err := get[row](ctx, j.scope, `select count(*)::int as count`+aboutAccount+` and j.at > $3 and (j.actor_id is distinct from $1 or j.kind = any($4))`, person, others, after, anybody)
	return r.Count, err
}

// LastOf is when something of a kind last happened to an account; the zero time
// where it never did.
func (j Journal) LastOf(ctx context.Context, person assessment.PersonID, kind string) (time.Time, error) {
	type row struct{ At *time.Time }
	r, err := get[row](ctx, j.scope, `select max(at) as at from journal where subject = $1 and kind = $2`, person, kind)
	if err != nil || r.At == nil {
		return time.Time{}, err
	}
	return *r.At, nil
}

// Kinds are the kinds of what was done by an act, oldest first.
func (j Journal) Kinds(ctx context.Context, act string) ([]string, error) {
	rows, err := list[struct{ Kind string }](ctx, j.scope, `select kind from journal where act = $1 order by at, id`, act)
	var kinds []string
	for _, r := range rows {
		kinds = append(kinds, r.Kind)
	}
	return kinds, err
}

// Add writes one line.
func (j Journal) Add(ctx context.Context, r JournalRow) error {
	return j.exec(ctx, `
		insert into journal (agency_id, id, at, actor_id, act, kind, subject)
		values ($1, $2, $3, nullif($4, '')::uuid, $5, $6, nullif($7, '')::uuid)`,
		j.agency, r.ID, r.At, r.Actor, r.Act, r.Kind, r.Subject)
}
