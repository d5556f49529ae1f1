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

// Deed is who does what and when in a transaction: what the ledger says of each
// row that is written in it.
type Deed struct {
	Actor assessment.PersonID // empty: the house itself
	Act   string
	At    time.Time
}

// Entered is the agency of a transaction, and when its ledger was sealed last.
type Entered struct {
	Agency
	SealedAt *time.Time // nil: never
	Settings string
}

// Enter says what is going to be done in the transaction, and tells where.
func (a Agencies) Enter(ctx context.Context, d Deed) (Entered, error) {
	return get[Entered](ctx, a.scope, `
		select id, code, name, zone, demo, created_at,
			(select h.sealed_at from ledger_head h order by h.size desc limit 1) as sealed_at,
			set_config('app.actor', $1, true) || set_config('app.act', $2, true) || set_config('app.at', $3, true) as settings
		from agency`,
		string(d.Actor), d.Act, d.At.UTC().Format(time.RFC3339Nano))
}

// Found makes the agency that the transaction was opened for. Nothing can be
// entered before it is there.
func (a Agencies) Found(ctx context.Context, n Agency, d Deed) error {
	err := a.exec(ctx, `select set_config('app.actor', $1, true), set_config('app.act', $2, true), set_config('app.at', $3, true)`,
		string(d.Actor), d.Act, d.At.UTC().Format(time.RFC3339Nano))
	if err != nil {
		return err
	}
	return a.Add(ctx, n)
}

// Add makes the agency that the transaction was opened for.
func (a Agencies) Add(ctx context.Context, n Agency) error {
	return a.exec(ctx, `
		insert into agency (id, code, name, zone, demo, created_at)
		values ($1, $2, $3, $4, $5, $6)`,
		n.ID, n.Code, n.Name, n.Zone, n.Demo, n.CreatedAt)
}
