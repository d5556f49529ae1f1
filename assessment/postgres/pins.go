package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// PINs keeps what people sign with besides their password.
type PINs struct{ scope }

// PIN is that of a person, as it is kept.
type PIN struct {
	Hash   string // argon2id, as a PHC string; empty: they have none
	SetAt  time.Time
	ShutAt *time.Time // since when it is guessed at too often
	Wrong  int        // tries in a row that are not known to be right
}

// Of is the PIN of a person; the zero one where they have none.
func (p PINs) Of(ctx context.Context, person assessment.PersonID) (PIN, error) {
	found, err := get[PIN](ctx, p.scope, `
		select p.pin_hash as hash, p.set_at, p.shut_at, coalesce(t.wrong, 0)::int as wrong
		from signing_pin p
		left join signing_pin_try t on t.agency_id = p.agency_id and t.person_id = p.person_id
		where p.person_id = $1`, person)
	if fault.KindOf(err) == fault.NotFound {
		return PIN{}, nil
	}
	return found, err
}

// Set sets a PIN, or puts another in its place, with no wrong try yet.
func (p PINs) Set(ctx context.Context, person assessment.PersonID, hash string, at time.Time) error {
	if err := p.End(ctx, person); err != nil {
		return err
	}
	return p.exec(ctx, `insert into signing_pin (agency_id, person_id, pin_hash, set_at) values ($1, $2, $3, $4)`, p.agency, person, hash, at)
}

// End takes a PIN away; where there is none that is no fault.
func (p PINs) End(ctx context.Context, person assessment.PersonID) error {
	return p.exec(ctx, `delete from signing_pin where person_id = $1`, person)
}

// Wrong notes how many tries in a row were wrong.
func (p PINs) Wrong(ctx context.Context, person assessment.PersonID, tries int) error {
	return p.exec(ctx, `
		insert into signing_pin_try (agency_id, person_id, wrong) values ($1, $2, $3)
		on conflict (agency_id, person_id) do update set wrong = excluded.wrong`, p.agency, person, tries)
}

// Lock makes tries of one person's PIN take turns until the end of the transaction.
func (p PINs) Lock(ctx context.Context, person assessment.PersonID) error {
	return p.turn(ctx, "pin "+string(person))
}

// Shut shuts a PIN until another one is set.
func (p PINs) Shut(ctx context.Context, person assessment.PersonID, at time.Time) error {
	return p.exec(ctx, `update signing_pin set shut_at = $2 where person_id = $1 and shut_at is null`, person, at)
}
