package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// OneTimeCodes keeps the sealed secrets of one-time codes, the recovery codes, and
// the sign-ins that wait for one.
type OneTimeCodes struct{ scope }

// OneTimeCode is what a person's codes are made from.
type OneTimeCode struct {
	Sealed      string
	LastStep    int64 // the last step that was used; none at or before it is accepted
	SetAt       time.Time
	ConfirmedAt *time.Time // codes are asked for only from then on
}

// Of is a person's secret; "not found" where they have none.
func (c OneTimeCodes) Of(ctx context.Context, person assessment.PersonID) (OneTimeCode, error) {
	return get[OneTimeCode](ctx, c.scope, `select sealed, last_step, set_at, confirmed_at from one_time_code where person_id = $1`, person)
}

// Keys names the keys that the agency's secrets are sealed with.
func (c OneTimeCodes) Keys(ctx context.Context) ([]string, error) {
	rows, err := list[struct{ Key string }](ctx, c.scope, `select distinct split_part(sealed, '.', 1) as key from one_time_code order by 1`)
	var names []string
	for _, r := range rows {
		names = append(names, r.Key)
	}
	return names, err
}

// Begin keeps a new secret that is not confirmed yet, in place of another such.
// "Not found" where one is confirmed.
func (c OneTimeCodes) Begin(ctx context.Context, person assessment.PersonID, sealed string, at time.Time) error {
	return refusal(c.change(ctx, `
		insert into one_time_code (agency_id, person_id, sealed, last_step, set_at) values ($1, $2, $3, 0, $4)
		on conflict (agency_id, person_id) do update set sealed = $3, last_step = 0, set_at = $4
			where one_time_code.confirmed_at is null`, c.agency, person, sealed, at))
}

// Confirm has codes asked for from now on.
func (c OneTimeCodes) Confirm(ctx context.Context, person assessment.PersonID, at time.Time) error {
	return refusal(c.change(ctx, `update one_time_code set confirmed_at = $2 where person_id = $1 and confirmed_at is null`, person, at))
}

// Use marks a step as used: of all who give its code, one does. "Not found" for
// the others.
func (c OneTimeCodes) Use(ctx context.Context, person assessment.PersonID, step int64) error {
	return refusal(c.change(ctx, `update one_time_code set last_step = $2 where person_id = $1 and last_step < $2`, person, step))
}

// Reseal keeps the same secret under another key.
func (c OneTimeCodes) Reseal(ctx context.Context, person assessment.PersonID, sealed string) error {
	return refusal(c.change(ctx, `update one_time_code set sealed = $2 where person_id = $1`, person, sealed))
}

// End forgets a person's secret and recovery codes; none is no fault.
func (c OneTimeCodes) End(ctx context.Context, person assessment.PersonID) error {
	if err := c.exec(ctx, `delete from recovery_code where person_id = $1`, person); err != nil {
		return err
	}
	return c.exec(ctx, `delete from one_time_code where person_id = $1`, person)
}

// SetRecovery puts new recovery codes, by their hashes, in place of all before.
func (c OneTimeCodes) SetRecovery(ctx context.Context, person assessment.PersonID, hashes [][]byte) error {
	if err := c.exec(ctx, `delete from recovery_code where person_id = $1`, person); err != nil {
		return err
	}
	return c.exec(ctx, `insert into recovery_code (agency_id, person_id, code_hash) select $1, $2, unnest($3::bytea[])`, c.agency, person, hashes)
}

// UseRecovery uses a recovery code up. "Not found" where it is none, or was used.
func (c OneTimeCodes) UseRecovery(ctx context.Context, person assessment.PersonID, hash []byte, at time.Time) error {
	return refusal(c.change(ctx, `update recovery_code set used_at = $3 where person_id = $1 and code_hash = $2 and used_at is null`, person, hash, at))
}

// RecoveryLeft counts the recovery codes that were not used yet.
func (c OneTimeCodes) RecoveryLeft(ctx context.Context, person assessment.PersonID) (int, error) {
	type row struct{ Count int }
	r, err := get[row](ctx, c.scope, `select count(*)::int as count from recovery_code where person_id = $1 and used_at is null`, person)
	return r.Count, err
}

// AddPending keeps a sign-in that waits for a code, and clears away old ones.
func (c OneTimeCodes) AddPending(ctx context.Context, tokenHash []byte, person assessment.PersonID, at, expires time.Time) error {
	if err := c.ForgetPending(ctx, at); err != nil {
		return err
	}
	return c.exec(ctx, `insert into sign_in_pending (agency_id, token_hash, person_id, expires_at) values ($1, $2, $3, $4)`,
		c.agency, tokenHash, person, expires)
}

// ForgetPending clears away those that have run out.
func (c OneTimeCodes) ForgetPending(ctx context.Context, at time.Time) error {
	return c.exec(ctx, `delete from sign_in_pending where expires_at <= $1`, at)
}

// Pending is who waits behind a hashed token; "not found" once it has run out.
func (c OneTimeCodes) Pending(ctx context.Context, tokenHash []byte, at time.Time) (assessment.PersonID, error) {
	r, err := get[struct{ PersonID assessment.PersonID }](ctx, c.scope, `
		select person_id from sign_in_pending where token_hash = $1 and expires_at > $2`, tokenHash, at)
	return r.PersonID, err
}

// TakePending ends the wait: of all who try at once, one does.
func (c OneTimeCodes) TakePending(ctx context.Context, tokenHash []byte) error {
	return refusal(c.change(ctx, `delete from sign_in_pending where token_hash = $1`, tokenHash))
}

// EndPendingOf ends all waits of a person.
func (c OneTimeCodes) EndPendingOf(ctx context.Context, person assessment.PersonID) error {
	return c.exec(ctx, `delete from sign_in_pending where person_id = $1`, person)
}
