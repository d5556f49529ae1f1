package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Agency is the tenant.
type Agency struct {
	ID        assessment.AgencyID
	Code      string
	Name      string
	Zone      string // IANA name
	Demo      bool
	CreatedAt time.Time
}

// Agencies keeps the agency of the transaction.
type Agencies struct{ scope }

// Get is the agency of the transaction.
func (a Agencies) Get(ctx context.Context) (Agency, error) {
	return get[Agency](ctx, a.scope, `
		select id, code, name, zone, demo, created_at
		from agency`)
}

// Add makes the agency that the transaction was opened for.
func (a Agencies) Add(ctx context.Context, n Agency) error {
	return a.exec(ctx, `
		insert into agency (id, code, name, zone, demo, created_at)
		values ($1, $2, $3, $4, $5, $6)`,
		n.ID, n.Code, n.Name, n.Zone, n.Demo, n.CreatedAt)
}
