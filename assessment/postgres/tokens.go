package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Tokens keeps the tokens of programs, each by the SHA-256 of it only.
type Tokens struct{ scope }

// Token is one token, with the names of who made and who revoked it.
type Token struct {
	assessment.Token
	ID        assessment.TokenID
	Name      string
	MadeBy    assessment.PersonID
	Maker     string
	RevokedBy assessment.PersonID // empty: nobody
	Revoker   string
}

const tokens = `
	select t.id, t.name, t.acts, t.reading, t.made_by, m.name as maker, t.made_at, t.expires_at,
		t.revoked_at, coalesce(t.revoked_by::text, '') as revoked_by, coalesce(r.name, '') as revoker, u.used_at
	from api_token t
	join person m on m.agency_id = t.agency_id and m.id = t.made_by
	left join person r on r.agency_id = t.agency_id and r.id = t.revoked_by
	left join api_token_use u on u.agency_id = t.agency_id and u.token_id = t.id`

// Add keeps a new token by its hash.
func (t Tokens) Add(ctx context.Context, n Token, tokenHash []byte) error {
	return t.exec(ctx, `
		insert into api_token (agency_id, id, name, token_hash, acts, reading, made_by, made_at, expires_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`, t.agency, n.ID, n.Name, tokenHash, n.Acts, n.Reading, n.MadeBy, n.MadeAt, n.ExpiresAt)
}

// Find is the token with this hash.
func (t Tokens) Find(ctx context.Context, tokenHash []byte) (Token, error) {
	return get[Token](ctx, t.scope, tokens+` where t.token_hash = $1`, tokenHash)
}

// All lists the agency's tokens, those that were not revoked first, then the newest.
func (t Tokens) All(ctx context.Context) ([]Token, error) {
	return list[Token](ctx, t.scope, tokens+` order by t.revoked_at is not null, t.made_at desc, t.id desc`)
}

// OpenOf lists the tokens that somebody made and nobody has revoked.
func (t Tokens) OpenOf(ctx context.Context, maker assessment.PersonID) ([]Token, error) {
	return list[Token](ctx, t.scope, tokens+` where t.made_by = $1 and t.revoked_at is null order by t.id`, maker)
}

// Revoke ends a token. One that is not there or was revoked before is not found.
func (t Tokens) Revoke(ctx context.Context, id assessment.TokenID, by assessment.PersonID, at time.Time) error {
	return t.change(ctx, `update api_token set revoked_at = $2, revoked_by = $3 where id = $1 and revoked_at is null`, id, at, by)
}

// Touch notes that a token was used.
func (t Tokens) Touch(ctx context.Context, id assessment.TokenID, at time.Time) error {
	return t.exec(ctx, `
		insert into api_token_use (agency_id, token_id, used_at) values ($1, $2, $3)
		on conflict (agency_id, token_id) do update set used_at = greatest(api_token_use.used_at, excluded.used_at)`, t.agency, id, at)
}

// Behind notes that a program is behind a line of the journal.
func (t Tokens) Behind(ctx context.Context, journal string, id assessment.TokenID) error {
	return t.exec(ctx, `insert into program_deed (agency_id, journal_id, token_id) values ($1, $2, $3)`, t.agency, journal, id)
}
