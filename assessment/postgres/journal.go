package postgres

import (
	"context"
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

// Add writes one line.
func (j Journal) Add(ctx context.Context, r JournalRow) error {
	return j.exec(ctx, `
		insert into journal (agency_id, id, at, actor_id, act, kind, subject)
		values ($1, $2, $3, nullif($4, '')::uuid, $5, $6, nullif($7, '')::uuid)`,
		j.agency, r.ID, r.At, r.Actor, r.Act, r.Kind, r.Subject)
}
