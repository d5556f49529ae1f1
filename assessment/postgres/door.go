package postgres

import (
	"context"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
)

// Door answers the few questions that come before the agency is known. It sees
// no sheet and no standing.
type Door struct{ db *DB }

// AtDoor opens the door.
func (db *DB) AtDoor() Door { return Door{db} }

// SignIn is one person with this e-mail address and what proves who they are.
type SignIn struct {
	AgencyID     assessment.AgencyID
	AgencyCode   string
	PersonID     assessment.PersonID
	PasswordHash string
}

// SignIns lists who has this e-mail address, in every agency.
func (d Door) SignIns(ctx context.Context, email string) ([]SignIn, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id, agency_code, person_id, password_hash from door_sign_in($1)`, email)
	if err != nil {
		return nil, refusal(err)
	}
	found, err := pgx.CollectRows(rows, pgx.RowToStructByName[SignIn])
	return found, refusal(err)
}

// Agency is the agency with this code.
func (d Door) Agency(ctx context.Context, code string) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_agency($1)`, code)
}

// Session is the agency that holds the session with this hashed token.
func (d Door) Session(ctx context.Context, tokenHash []byte) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_session($1)`, tokenHash)
}

// Owner is a person of an agency.
type Owner struct {
	AgencyID assessment.AgencyID
	PersonID assessment.PersonID
}

// PasskeyOwner is who has this random name in their passkeys.
func (d Door) PasskeyOwner(ctx context.Context, handle []byte) (Owner, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id, person_id from door_passkey($1)`, handle)
	if err != nil {
		return Owner{}, refusal(err)
	}
	v, err := pgx.CollectExactlyOneRow(rows, pgx.RowToStructByName[Owner])
	return v, refusal(err)
}

// Pending is the agency that holds this half of a sign-in.
func (d Door) Pending(ctx context.Context, tokenHash []byte) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_pending($1)`, tokenHash)
}

// Token is the agency that made the token with this hash.
func (d Door) Token(ctx context.Context, tokenHash []byte) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_token($1)`, tokenHash)
}

// Feed is the agency whose private calendar has the secret with this hash, and was not
// revoked.
func (d Door) Feed(ctx context.Context, secretHash []byte) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_feed($1)`, secretHash)
}

// Link is the agency that made the link with this hashed token.
func (d Door) Link(ctx context.Context, tokenHash []byte) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_link($1)`, tokenHash)
}

// Certificate is the agency that issued the certificate with this check code.
func (d Door) Certificate(ctx context.Context, code string) (assessment.AgencyID, error) {
	return one[assessment.AgencyID](ctx, d, `select agency_id from door_certificate($1)`, code)
}

// Agencies lists all agencies by code, for the rebuild of the index.
func (d Door) Agencies(ctx context.Context) ([]assessment.AgencyID, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id from door_agencies()`)
	if err != nil {
		return nil, refusal(err)
	}
	ids, err := pgx.CollectRows(rows, pgx.RowTo[assessment.AgencyID])
	return ids, refusal(err)
}

// LedgerOwner is an agency of which there is a row in any table.
type LedgerOwner struct {
	ID   assessment.AgencyID
	Code string // empty: its own row is gone
}

// Ledgers lists every agency that there is anything of, by code, for whoever verifies.
func (d Door) Ledgers(ctx context.Context) ([]LedgerOwner, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id as id, coalesce(agency_code, '') as code from public.door_ledgers()`)
	if err != nil {
		return nil, refusal(err)
	}
	found, err := pgx.CollectRows(rows, pgx.RowToStructByName[LedgerOwner])
	return found, refusal(err)
}

func one[T any](ctx context.Context, d Door, sql string, arg any) (T, error) {
	rows, err := d.db.pool.Query(ctx, sql, arg)
	if err != nil {
		var none T
		return none, refusal(err)
	}
	v, err := pgx.CollectExactlyOneRow(rows, pgx.RowTo[T])
	return v, refusal(err)
}
