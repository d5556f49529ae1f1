package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// GiveRole gives a role from now on.
func (p People) GiveRole(ctx context.Context, id assessment.PersonID, r assessment.Role, by assessment.PersonID, at time.Time) error {
	return p.exec(ctx, `
		insert into person_role (agency_id, person_id, role, given_at, given_by)
		values ($1, $2, $3, $4, nullif($5, '')::uuid)`, p.agency, id, r, at, string(by))
}

// EndRole ends a role that is held now.
func (p People) EndRole(ctx context.Context, id assessment.PersonID, r assessment.Role, by assessment.PersonID, at time.Time) error {
	return p.change(ctx, `
		update person_role
		set ended_at = $3, ended_by = $4
		where person_id = $1 and role = $2 and ended_at is null`, id, r, at, by)
}

// OtherAdministrators counts who but this person administers the agency and is
// not about to leave. Others who ask wait until the end of the transaction, so that no two can each
// rely on the other to stay.
func (p People) OtherAdministrators(ctx context.Context, than assessment.PersonID) (int, error) {
	if err := p.turn(ctx, "administrators"); err != nil {
		return 0, err
	}
	type row struct{ Count int }
	r, err := get[row](ctx, p.scope, `
		select count(*)::int as count
		from person_role r
		join person p on p.agency_id = r.agency_id and p.id = r.person_id
		where r.role = 'administrator' and r.ended_at is null and r.person_id <> $1 and p.left_on is null`, than)
	return r.Count, err
}

// Credential is what proves who somebody is.
type Credential struct {
	PasswordHash string // argon2id, as a PHC string; empty: they cannot sign in
	MustChange   bool
}

// SetPassword sets a password, or puts another in its place.
func (p People) SetPassword(ctx context.Context, id assessment.PersonID, c Credential, at time.Time) error {
	return p.exec(ctx, `
		insert into credential (agency_id, person_id, password_hash, set_at, must_change)
		values ($1, $2, $3, $4, $5)
		on conflict (agency_id, person_id) do update
		set password_hash = excluded.password_hash, set_at = excluded.set_at, must_change = excluded.must_change`,
		p.agency, id, c.PasswordHash, at, c.MustChange)
}

// Credential is that of a person; somebody without a password has the zero one.
func (p People) Credential(ctx context.Context, id assessment.PersonID) (Credential, error) {
	return get[Credential](ctx, p.scope, `
		select coalesce(c.password_hash, '') as password_hash, coalesce(c.must_change, false) as must_change
		from person p
		left join credential c on c.agency_id = p.agency_id and c.person_id = p.id
		where p.id = $1`, id)
}
