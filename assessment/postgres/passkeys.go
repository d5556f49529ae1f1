package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Passkeys keeps the public halves of passkeys, and the challenges that they are
// asked to answer.
type Passkeys struct{ scope }

// Passkey is one passkey of a person.
type Passkey struct {
	ID             assessment.RecordID
	PersonID       assessment.PersonID
	Name           string
	CredentialID   []byte
	PublicKey      []byte
	SignCount      int64
	UserVerified   bool
	BackupEligible bool
	BackedUp       bool
	Transports     []string
	AAGUID         []byte `db:"aaguid"`
	Format         string
	Attestation    string
	AddedAt        time.Time
	UsedAt         *time.Time
	DoubtedAt      *time.Time // its counter went back: it is no longer accepted
}

// Handle is the random name that a person has in their passkeys: the one given,
// if they have none yet.
func (p Passkeys) Handle(ctx context.Context, person assessment.PersonID, drawn []byte) ([]byte, error) {
	err := p.exec(ctx, `
		insert into passkey_owner (agency_id, person_id, handle) values ($1, $2, $3)
		on conflict (agency_id, person_id) do nothing`, p.agency, person, drawn)
	if err != nil {
		return nil, err
	}
	return p.HandleOf(ctx, person)
}

// HandleOf is the name of who has one already.
func (p Passkeys) HandleOf(ctx context.Context, person assessment.PersonID) ([]byte, error) {
	r, err := get[struct{ Handle []byte }](ctx, p.scope, `select handle from passkey_owner where person_id = $1`, person)
	return r.Handle, err
}

// Of lists a person's passkeys, the oldest first.
func (p Passkeys) Of(ctx context.Context, person assessment.PersonID) ([]Passkey, error) {
	return list[Passkey](ctx, p.scope, `
		select id, person_id, name, credential_id, public_key, sign_count, user_verified, backup_eligible, backed_up, transports,
			aaguid, format, attestation, added_at, used_at, doubted_at
		from passkey where person_id = $1 and removed_at is null order by added_at, id`, person)
}

// Lock makes those who use a person's passkeys take turns until the end of the
// transaction, so that each sees the counter that the one before has left.
func (p Passkeys) Lock(ctx context.Context, person assessment.PersonID) error {
	return p.turn(ctx, "passkeys "+string(person))
}

// Add keeps a new passkey.
func (p Passkeys) Add(ctx context.Context, k Passkey) error {
	return p.exec(ctx, `
		insert into passkey (agency_id, id, person_id, name, credential_id, public_key, sign_count, user_verified, backup_eligible,
			backed_up, transports, aaguid, format, attestation, added_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)`,
		p.agency, k.ID, k.PersonID, k.Name, k.CredentialID, k.PublicKey, k.SignCount, k.UserVerified, k.BackupEligible,
		k.BackedUp, k.Transports, k.AAGUID, k.Format, k.Attestation, k.AddedAt)
}

// Used keeps what a passkey said of itself when it was used.
func (p Passkeys) Used(ctx context.Context, k Passkey, at time.Time) error {
	return p.change(ctx, `update passkey set sign_count = $2, user_verified = $3, backed_up = $4, used_at = $5 where id = $1`,
		k.ID, k.SignCount, k.UserVerified, k.BackedUp, at)
}

// Doubt notes that a passkey's counter went back.
func (p Passkeys) Doubt(ctx context.Context, id assessment.RecordID, at time.Time) error {
	return p.change(ctx, `update passkey set doubted_at = coalesce(doubted_at, $2) where id = $1`, id, at)
}

// Remove takes a person's passkey away.
func (p Passkeys) Remove(ctx context.Context, person assessment.PersonID, id assessment.RecordID, at time.Time) error {
	return refusal(p.change(ctx, `update passkey set removed_at = $3 where id = $2 and person_id = $1 and removed_at is null`, person, id, at))
}

// Challenge is what a passkey is to answer, known by the SHA-256 of its bytes.
type Challenge struct {
	ChallengeHash []byte
	Person        assessment.PersonID // empty: whoever signs in
	Purpose       string              // sign-in, registration or signature
	Bound         []byte              // hash of what is signed
	State         string
	ExpiresAt     time.Time
}

// AddChallenge keeps a challenge, and clears away those that have run out.
func (p Passkeys) AddChallenge(ctx context.Context, c Challenge, at time.Time) error {
	if err := p.ForgetChallenges(ctx, at); err != nil {
		return err
	}
	return p.exec(ctx, `
		insert into passkey_challenge (agency_id, challenge_hash, person_id, purpose, bound, state, expires_at)
		values ($1, $2, nullif($3, '')::uuid, $4, $5, $6, $7)`,
		p.agency, c.ChallengeHash, string(c.Person), c.Purpose, c.Bound, c.State, c.ExpiresAt)
}

// ForgetChallenges clears away those that have run out.
func (p Passkeys) ForgetChallenges(ctx context.Context, at time.Time) error {
	return p.exec(ctx, `delete from passkey_challenge where expires_at <= $1`, at)
}

// EndChallengesOf takes away all that a person's passkeys were asked.
func (p Passkeys) EndChallengesOf(ctx context.Context, person assessment.PersonID) error {
	return p.exec(ctx, `delete from passkey_challenge where person_id = $1`, person)
}

// TakeChallenge takes a challenge away: of all who answer it, one gets it.
func (p Passkeys) TakeChallenge(ctx context.Context, hash []byte) (Challenge, error) {
	return get[Challenge](ctx, p.scope, `
		delete from passkey_challenge where challenge_hash = $1
		returning challenge_hash, coalesce(person_id::text, '') as person, purpose, bound, state, expires_at`, hash)
}
