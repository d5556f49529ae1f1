package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// still reports in the last transaction of a use case whether what somebody proved
// who they are with before it is good even now. A proof may have to wait for its turn,
// and meanwhile its owner may have ended just that password, PIN or passkey.
type still func(context.Context, *postgres.Tx) (bool, error)

func passwordStill(person assessment.PersonID, proven postgres.Credential) still {
	return func(ctx context.Context, tx *postgres.Tx) (bool, error) {
		kept, err := tx.People.Credential(ctx, person)
		return proven.PasswordHash != "" && kept.PasswordHash == proven.PasswordHash, err
	}
}

func pinStill(person assessment.PersonID, proven postgres.PIN) still {
	return func(ctx context.Context, tx *postgres.Tx) (bool, error) {
		kept, err := tx.PINs.Of(ctx, person)
		return proven.Hash != "" && kept.Hash == proven.Hash && kept.ShutAt == nil, err
	}
}

func passkeyStill(proven postgres.Passkey) still {
	return func(ctx context.Context, tx *postgres.Tx) (bool, error) {
		kept, err := tx.Passkeys.Of(ctx, proven.PersonID)
		k, known := named(kept, proven.CredentialID)
		return known && k.ID == proven.ID && k.DoubtedAt == nil, err
	}
}

// halfStill takes a half of a sign-in away: a new password has ended it, and of all
// who give a code for it at once one is let in.
func halfStill(token string) still {
	return func(ctx context.Context, tx *postgres.Tx) (bool, error) {
		err := tx.OneTimeCodes.TakePending(ctx, tokenHash(token))
		if fault.KindOf(err) == fault.NotFound {
			return false, nil
		}
		return err == nil, err
	}
}

// or is a refusal, where the proof is good no longer.
func (s still) or(ctx context.Context, tx *postgres.Tx, refusal error) error {
	good, err := s(ctx, tx)
	if err == nil && !good {
		return refusal
	}
	return err
}

// asOwner is as for what somebody does to their own account with their password.
// Whoever sets a password waits for the same lock: it comes before or after the whole.
func (o *Office) asOwner(ctx context.Context, by assessment.Actor, proven still, fn func(*postgres.Tx, Moment) error) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.People.Lock(ctx, by.Person); err != nil {
			return err
		}
		err := proven.or(ctx, tx, fault.Of(fault.Conflict, "Your password was changed while this was under way, so it was not done. Enter the new password and try again."))
		if err != nil {
			return err
		}
		return fn(tx, now)
	})
}
