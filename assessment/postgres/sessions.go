package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Sessions keeps who is signed in, and the tries to sign in.
type Sessions struct{ scope }

// Session is a signed-in person. The token is known by its SHA-256 only.
type Session struct {
	Person
	CreatedAt  time.Time
	SeenAt     time.Time
	ExpiresAt  time.Time
	SignedAt   *time.Time // when its owner last signed something in it
	News       int        // what happened to the account before it and was not put away yet
	HasPIN     bool       // that is not shut
	HasPasskey bool       // one that is accepted
}

// Find is the session with this hashed token, with the person and their roles.
func (s Sessions) Find(ctx context.Context, tokenHash []byte) (Session, error) {
	return get[Session](ctx, s.scope, `
		select s.created_at, s.seen_at, s.expires_at, s.signed_at, s.news,
			exists (select from passkey k where k.agency_id = s.agency_id and k.person_id = s.person_id
				and k.removed_at is null and k.doubted_at is null) as has_passkey,
			exists (select from signing_pin n where n.agency_id = s.agency_id and n.person_id = s.person_id and n.shut_at is null) as has_pin,`+personColumns+`
		from session s
		join person p on p.agency_id = s.agency_id and p.id = s.person_id
		where s.token_hash = $1`, tokenHash)
}

// Add opens a session and clears away the person's old ones that have run out.
func (s Sessions) Add(ctx context.Context, n OpenSession, person assessment.PersonID, at, expires time.Time) error {
	if err := s.exec(ctx, `delete from session where person_id = $1 and expires_at <= $2`, person, at); err != nil {
		return err
	}
	return s.exec(ctx, `
		insert into session (agency_id, token_hash, person_id, created_at, seen_at, expires_at, device, news)
		values ($1, $2, $3, $4, $4, $5, $6, $7)`, s.agency, n.TokenHash, person, at, expires, n.Device, n.News)
}

// OpenSession is what its owner can tell a session by.
type OpenSession struct {
	TokenHash []byte
	Device    string // in coarse words
	CreatedAt time.Time
	SeenAt    time.Time
	News      int
}

// Of lists the sessions of a person that have not run out, the last used first.
func (s Sessions) Of(ctx context.Context, person assessment.PersonID, at, seenAfter time.Time) ([]OpenSession, error) {
	return list[OpenSession](ctx, s.scope, `
		select token_hash, device, created_at, seen_at, news from session
		where person_id = $1 and expires_at > $2 and seen_at > $3
		order by seen_at desc, created_at desc, token_hash`, person, at, seenAfter)
}

// Signed notes that the owner signed something in a session, where it is theirs.
func (s Sessions) Signed(ctx context.Context, tokenHash []byte, person assessment.PersonID, at time.Time) error {
	return s.exec(ctx, `update session set signed_at = $3 where token_hash = $1 and person_id = $2`, tokenHash, person, at)
}

// PutAway notes that the owner has read what happened to the account.
func (s Sessions) PutAway(ctx context.Context, person assessment.PersonID) error {
	return s.exec(ctx, `update session set news = 0 where person_id = $1 and news > 0`, person)
}

// Touch notes that the session was used.
func (s Sessions) Touch(ctx context.Context, tokenHash []byte, at time.Time) error {
	return s.exec(ctx, `update session set seen_at = $2 where token_hash = $1`, tokenHash, at)
}

// End ends a session; ending one that is over is no fault.
func (s Sessions) End(ctx context.Context, tokenHash []byte) error {
	return s.exec(ctx, `delete from session where token_hash = $1`, tokenHash)
}

// EndAllOf ends all sessions of a person but the one with this hashed token; nil
// keeps none.
func (s Sessions) EndAllOf(ctx context.Context, person assessment.PersonID, keep []byte) error {
	return s.exec(ctx, `
		delete from session
		where person_id = $1 and ($2::bytea is null or token_hash <> $2)`, person, keep)
}

// Try is one try to prove who somebody is. It counts as failed until it is
// marked as good.
type Try struct {
	ID          string
	Person      assessment.PersonID
	AddressHash []byte
	At          time.Time
	AnyAgency   bool // of a sign-in that named none of the agencies that know the address
}

// AddTry notes a try.
func (s Sessions) AddTry(ctx context.Context, t Try) error {
	return s.exec(ctx, `
		insert into sign_in_try (agency_id, id, person_id, address_hash, at, ok, any_agency)
		values ($1, $2, $3, $4, $5, false, $6)`, s.agency, t.ID, t.Person, t.AddressHash, t.At, t.AnyAgency)
}

// MarkGood marks a try as good.
func (s Sessions) MarkGood(ctx context.Context, try string) error {
	return s.exec(ctx, `update sign_in_try set ok = true where id = $1`, try)
}

// RecentFailures counts failed tries of a person from an address after an
// instant. Tries of the same person take turns until the end of the transaction,
// so that many at once cannot each be the first.
func (s Sessions) RecentFailures(ctx context.Context, person assessment.PersonID, addressHash []byte, after time.Time) (int, error) {
	if err := s.turn(ctx, "tries "+string(person)); err != nil {
		return 0, err
	}
	type row struct{ Count int }
	r, err := get[row](ctx, s.scope, `
		select count(*)::int as count from sign_in_try
		where person_id = $1 and address_hash = $2 and at > $3 and not ok`, person, addressHash, after)
	return r.Count, err
}

// FailuresSince counts failed tries of a person after an instant, wherever they
// came from. Those of sign-ins that named no agency are left out: most were meant for
// another one.
func (s Sessions) FailuresSince(ctx context.Context, person assessment.PersonID, after time.Time) (int, error) {
	type row struct{ Count int }
	r, err := get[row](ctx, s.scope, `select count(*)::int as count from sign_in_try where person_id = $1 and at > $2 and not ok and not any_agency`, person, after)
	return r.Count, err
}

// ForgetTries removes the tries of a person up to an instant.
func (s Sessions) ForgetTries(ctx context.Context, person assessment.PersonID, through time.Time) error {
	return s.exec(ctx, `delete from sign_in_try where person_id = $1 and at <= $2`, person, through)
}

// OldFailure is how many tries of a person have failed since they last signed in.
type OldFailure struct {
	Person assessment.PersonID
	Untold int
}

// OldFailures lists whose failed tries go back to an instant, with how many there are
// through a later one.
func (s Sessions) OldFailures(ctx context.Context, backTo, through time.Time, signedIn string) ([]OldFailure, error) {
	return list[OldFailure](ctx, s.scope, `
		select t.person_id as person, (count(*) filter (where t.at > coalesce(
			(select max(j.at) from journal j where j.subject = t.person_id and j.kind = $3), '-infinity')))::int as untold
		from sign_in_try t
		where t.at <= $2 and not t.ok and not t.any_agency
		group by t.person_id
		having min(t.at) <= $1
		order by t.person_id`, backTo, through, signedIn)
}

// ForgetToldTries removes the tries up to an instant that nobody is told of.
func (s Sessions) ForgetToldTries(ctx context.Context, through time.Time) error {
	return s.exec(ctx, `delete from sign_in_try where at <= $1 and (ok or any_agency)`, through)
}

// EndRunOut removes the sessions that have run out.
func (s Sessions) EndRunOut(ctx context.Context, at time.Time) error {
	return s.exec(ctx, `delete from session where expires_at <= $1`, at)
}
