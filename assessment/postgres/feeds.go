package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Feeds keeps private calendars, each by the SHA-256 of its secret only.
type Feeds struct{ scope }

// Feed is a private calendar that was not revoked.
type Feed struct {
	ID     assessment.FeedID
	Person assessment.PersonID // who made it
	Whole  bool                // of the agency; else their own
	MadeAt time.Time
}

const feedQuery = `select id, person_id as person, whole, made_at from feed where revoked_at is null`

// Add keeps a new calendar by the hash of its secret.
func (f Feeds) Add(ctx context.Context, n Feed, secretHash []byte) error {
	return f.exec(ctx, `insert into feed (agency_id, id, person_id, whole, secret_hash, made_at) values ($1, $2, $3, $4, $5, $6)`, f.agency, n.ID, n.Person, n.Whole, secretHash, n.MadeAt)
}

// Find is the calendar whose secret has this hash.
func (f Feeds) Find(ctx context.Context, secretHash []byte) (Feed, error) {
	return get[Feed](ctx, f.scope, feedQuery+` and secret_hash = $1`, secretHash)
}

// Of lists somebody's calendars: none, one of their own, one of the agency, or both.
func (f Feeds) Of(ctx context.Context, person assessment.PersonID) ([]Feed, error) {
	return list[Feed](ctx, f.scope, feedQuery+` and person_id = $1 order by whole`, person)
}

// Revoke ends somebody's calendar; none is not found.
func (f Feeds) Revoke(ctx context.Context, person assessment.PersonID, whole bool, by assessment.PersonID, at time.Time) error {
	return f.change(ctx, `update feed set revoked_at = $3, revoked_by = $4 where person_id = $1 and whole = $2 and revoked_at is null`, person, whole, at, by)
}
