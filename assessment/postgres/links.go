package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Links keeps the single-use links by which people choose a password themselves,
// and who vouched for them.
type Links struct{ scope }

// Link is a single-use link. The token is known by its SHA-256 only.
type Link struct {
	ID        string
	PersonID  assessment.PersonID
	Purpose   assessment.LinkPurpose
	IssuedBy  assessment.PersonID
	Issuer    string // name
	IssuedAt  time.Time
	ExpiresAt time.Time
	EndedAt   *time.Time // replaced by a newer one
	UsedAt    *time.Time
	ProvenBy  string // the second secret that was shown with it; empty: none
	VouchedBy assessment.PersonID
	Voucher   string // name
	VouchedAt *time.Time
}

// OpenAt reports whether the link can be used at an instant. It cannot before it
// was made: that clock was set back.
func (l Link) OpenAt(at time.Time) bool {
	return l.UsedAt == nil && l.EndedAt == nil && !at.Before(l.IssuedAt) && at.Before(l.ExpiresAt)
}

const links = `
	select l.id::text, l.person_id, l.purpose, l.issued_by, i.name as issuer, l.issued_at, l.expires_at, l.ended_at, l.used_at, l.proven_by,
		coalesce(v.vouched_by::text, '') as vouched_by, coalesce(p.name, '') as voucher, v.vouched_at
	from secret_link l
	join person i on i.agency_id = l.agency_id and i.id = l.issued_by
	left join vouching v on v.agency_id = l.agency_id and v.link_id = l.id
	left join person p on p.agency_id = v.agency_id and p.id = v.vouched_by`

// Add keeps a new link by the hash of its token, and ends those that the person
// has not used.
func (l Links) Add(ctx context.Context, n Link, tokenHash []byte) error {
	err := l.exec(ctx, `
		update secret_link set ended_at = greatest($2, issued_at)
		where person_id = $1 and used_at is null and ended_at is null`, n.PersonID, n.IssuedAt)
	if err != nil {
		return err
	}
	return l.exec(ctx, `
		insert into secret_link (agency_id, id, person_id, purpose, token_hash, issued_by, issued_at, expires_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`, l.agency, n.ID, n.PersonID, n.Purpose, tokenHash, n.IssuedBy, n.IssuedAt, n.ExpiresAt)
}

// ByToken is the link with this hashed token.
func (l Links) ByToken(ctx context.Context, tokenHash []byte) (Link, error) {
	return get[Link](ctx, l.scope, links+` where l.token_hash = $1`, tokenHash)
}

// Use uses a link up. One that was used or ended meanwhile is not found.
func (l Links) Use(ctx context.Context, id string, at time.Time, provenBy string) error {
	return l.change(ctx, `
		update secret_link set used_at = $2, proven_by = $3
		where id = $1 and used_at is null and ended_at is null`, id, at, provenBy)
}

// End ends a link that was not used. One that was used or ended meanwhile is not found.
func (l Links) End(ctx context.Context, id string, at time.Time) error {
	return l.change(ctx, `
		update secret_link set ended_at = greatest($2, issued_at)
		where id = $1 and used_at is null and ended_at is null`, id, at)
}

// Of lists the links of a person, newest first.
func (l Links) Of(ctx context.Context, person assessment.PersonID) ([]Link, error) {
	return list[Link](ctx, l.scope, links+` where l.person_id = $1 order by l.issued_at desc, l.purpose = 'reset' desc, l.id desc`, person)
}

// Used lists all links that people came to their secrets by, the one used last
// first. Of two at one instant a reset comes first: an invitation never follows it.
func (l Links) Used(ctx context.Context) ([]Link, error) {
	return list[Link](ctx, l.scope, links+` where l.used_at is not null order by l.used_at desc, l.purpose = 'reset' desc, l.issued_at desc, l.id desc`)
}

// Unvouched lists the resets that people's secrets come from and that nobody has
// vouched for, oldest first.
func (l Links) Unvouched(ctx context.Context) ([]Link, error) {
	return list[Link](ctx, l.scope, links+`
		where l.purpose = 'reset' and v.vouched_at is null and l.proven_by = '' and l.id in (
			select distinct on (u.person_id) u.id from secret_link u where u.used_at is not null
			order by u.person_id, u.used_at desc, u.purpose = 'reset' desc, u.issued_at desc, u.id desc)
		order by l.used_at, l.id`)
}

// Vouch keeps who has seen that it was them who used a link.
func (l Links) Vouch(ctx context.Context, id string, by assessment.PersonID, at time.Time) error {
	return l.exec(ctx, `
		insert into vouching (agency_id, link_id, vouched_by, vouched_at)
		values ($1, $2, $3, $4)`, l.agency, id, by, at)
}
