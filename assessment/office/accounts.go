package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// ChangePassword puts a new password in place of one's own and ends all other
// sessions; the one with keepToken goes on.
func (o *Office) ChangePassword(ctx context.Context, by assessment.Actor, old, new, keepToken string) error {
	if err := o.mayChange(ctx, by, old, new); err != nil {
		return err
	}
	ok, kept, err := o.proveSignedIn(ctx, by, by.Person, old)
	if err != nil {
		return err
	}
	if !ok {
		return faultAt("old", "This is not your password now.")
	}
	hash, err := o.hash(ctx, new)
	if err != nil {
		return err
	}
	return o.asOwner(ctx, by, passwordStill(by.Person, kept), func(tx *postgres.Tx, now Moment) error {
		return o.setPassword(ctx, tx, now, by, by.Person, postgres.Credential{PasswordHash: hash}, tokenHash(keepToken), "password")
	})
}

func (o *Office) mayChange(ctx context.Context, by assessment.Actor, old, new string) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) error {
		p, err := tx.People.Get(ctx, by.Person)
		if err != nil {
			return err
		}
		var f form
		f.Take("new", checkPassword(new, p.Name, p.Email))
		if old == new {
			f.Add("new", "This is the password you have. Choose another.")
		}
		return f.Err()
	})
}

// setPassword keeps a password, which came about as the journal's kind says. Tries
// with the one before no longer count, the PIN that went with it ends, and so do what
// was begun with it and the sessions that were opened with it, but the one kept. The
// lock comes first: whoever was proven by the one before and is about to open a session
// has done so by then, or finds another password.
func (o *Office) setPassword(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, person assessment.PersonID, c postgres.Credential, keep []byte, kind string) error {
	if _, err := tx.People.Lock(ctx, person); err != nil {
		return err
	}
	if err := tx.People.SetPassword(ctx, person, c, now.At); err != nil {
		return fmt.Errorf("keep a password: %w", err)
	}
	if err := o.tellFailures(ctx, tx, now, by.Agency, person); err != nil {
		return err
	}
	if err := tx.Sessions.ForgetTries(ctx, person, now.At); err != nil {
		return err
	}
	if err := tx.PINs.End(ctx, person); err != nil {
		return err
	}
	if err := tx.Sessions.EndAllOf(ctx, person, keep); err != nil {
		return err
	}
	if err := tx.OneTimeCodes.EndPendingOf(ctx, person); err != nil {
		return err
	}
	if err := tx.Passkeys.EndChallengesOf(ctx, person); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.OwnAccount, kind, string(person))
}

// faultAt is one fault at one field.
func faultAt(field, says string) error {
	var f form
	f.Add(field, "%s", says)
	return f.Err()
}
