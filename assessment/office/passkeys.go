package office

import (
	"context"
	"errors"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/passkey"
	"wellshown/assessment/postgres"
)

// PasskeyView is one passkey as its owner sees it.
type PasskeyView struct {
	ID      assessment.RecordID
	Name    string
	AddedAt time.Time
	UsedAt  *time.Time
	Doubted *time.Time // its counter went back then, and it is no longer accepted
}

// PasskeysOffered is nil where passkeys can be used, and else says why not.
func (o *Office) PasskeysOffered() error {
	if o.noParty == nil {
		return nil
	}
	var number passkey.NoName
	var open passkey.NotSealed
	switch {
	case errors.As(o.noParty, &number):
		return fault.Of(fault.Refused, "There are no passkeys here: browsers know passkeys for a name, and the service is reached at the number %s. Whoever runs the service can change that (BASE_URL).", number.Host)
	case errors.As(o.noParty, &open):
		return fault.Of(fault.Refused, "There are no passkeys here: browsers know passkeys over TLS only, and the service is reached at %s. Whoever runs the service can change that (BASE_URL).", open.At)
	}
	return fault.Of(fault.Refused, "There are no passkeys here: %v. Whoever runs the service can change that (BASE_URL).", o.noParty)
}

// Passkeys lists one's own passkeys, the oldest first.
func (o *Office) Passkeys(ctx context.Context, by assessment.Actor) ([]PasskeyView, error) {
	var all []PasskeyView
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) error {
		all = nil
		kept, err := tx.Passkeys.Of(ctx, by.Person)
		for _, k := range kept {
			all = append(all, PasskeyView{k.ID, k.Name, k.AddedAt, k.UsedAt, k.DoubtedAt})
		}
		return err
	})
	return all, err
}

// mostPasskeys bounds what one person can have kept.
const mostPasskeys = 20

// BeginPasskey asks for one's password and gives what the browser is asked for a
// new passkey.
func (o *Office) BeginPasskey(ctx context.Context, by assessment.Actor, password string) (string, error) {
	if err := o.PasskeysOffered(); err != nil {
		return "", err
	}
	proven, err := o.ownPassword(ctx, by, password)
	if err != nil {
		return "", err
	}
	drawn, err := o.bytes(32)
	if err != nil {
		return "", err
	}
	var asked passkey.Question
	err = o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) error {
		if err := ownForGood(ctx, tx, now, by.Person); err != nil {
			return err
		}
		if _, err := tx.Passkeys.Handle(ctx, by.Person, drawn); err != nil {
			return err
		}
		owner, kept, err := o.passkeyOwner(ctx, tx, now, by.Person)
		if err != nil {
			return err
		}
		if err := roomFor(kept); err != nil {
			return err
		}
		if asked, err = o.party.AskNew(owner); err != nil {
			return err
		}
		return o.keepQuestion(ctx, tx, now.At, asked, postgres.Challenge{Person: by.Person, Purpose: forRegistration})
	})
	return asked.Options, err
}

func roomFor(kept []postgres.Passkey) error {
	if len(kept) >= mostPasskeys {
		return fault.Of(fault.Refused, "You have %d passkeys. Remove one that you no longer use first.", len(kept))
	}
	return nil
}

// AddPasskey keeps a new passkey, if what the browser answered is genuine. What was
// looked at when the browser was asked is looked at again: other questions may have been
// answered since, and the account may have been reset.
func (o *Office) AddPasskey(ctx context.Context, by assessment.Actor, name, answer string) error {
	if err := o.PasskeysOffered(); err != nil {
		return err
	}
	var f form
	name = f.line("name", name, 60, "Give the passkey a name, such as the device it is on.")
	if err := f.Err(); err != nil {
		return err
	}
	read, err := passkey.ReadNew(answer)
	if err != nil {
		return notAccepted()
	}
	proven, err := o.passwordNow(ctx, by)
	if err != nil {
		return err
	}
	asked, err := o.takeQuestion(ctx, by.Agency, read.Hash, forRegistration)
	if err != nil {
		return err
	}
	if asked.Person != by.Person {
		return notAccepted()
	}
	return o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) error {
		if err := ownForGood(ctx, tx, now, by.Person); err != nil {
			return err
		}
		if err := tx.Passkeys.Lock(ctx, by.Person); err != nil {
			return err
		}
		owner, kept, err := o.passkeyOwner(ctx, tx, now, by.Person)
		if err != nil {
			return err
		}
		if err := roomFor(kept); err != nil {
			return err
		}
		key, err := o.party.New(owner, asked.State, read)
		if err != nil {
			return notAccepted()
		}
		id, err := newID[assessment.RecordID](o, now.At)
		if err != nil {
			return err
		}
		if err := tx.Passkeys.Add(ctx, keptKey(key, id, by.Person, name, now.At)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "passkey added", string(by.Person))
	})
}

// passwordNow is the password that somebody has now, for what they do not prove it for
// again. A new one deletes their questions, so one that is there afterwards was asked
// under this password or a later one.
func (o *Office) passwordNow(ctx context.Context, by assessment.Actor) (still, error) {
	var kept postgres.Credential
	err := o.reading(ctx, by.Agency, func(tx *postgres.Tx, _ Moment) (err error) {
		kept, err = tx.People.Credential(ctx, by.Person)
		return err
	})
	return passwordStill(by.Person, kept), err
}

// RemovePasskey takes one of one's own passkeys away, for a proof of who asks.
func (o *Office) RemovePasskey(ctx context.Context, by assessment.Actor, id assessment.RecordID, password string) error {
	proven, err := o.ownPassword(ctx, by, password)
	if err != nil {
		return err
	}
	return o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Passkeys.Remove(ctx, by.Person, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "passkey removed", string(by.Person))
	})
}

func keptKey(k passkey.Key, id assessment.RecordID, person assessment.PersonID, name string, at time.Time) postgres.Passkey {
	return postgres.Passkey{ID: id, PersonID: person, Name: name, CredentialID: k.CredentialID, PublicKey: k.PublicKey, SignCount: int64(k.SignCount),
		UserVerified: k.UserVerified, BackupEligible: k.BackupEligible, BackedUp: k.BackedUp, Transports: append([]string{}, k.Transports...),
		AAGUID: append([]byte{}, k.AAGUID...), Format: k.Format, Attestation: k.Attestation, AddedAt: at}
}

func keyOf(p postgres.Passkey) passkey.Key {
	return passkey.Key{CredentialID: p.CredentialID, PublicKey: p.PublicKey, AAGUID: p.AAGUID, SignCount: uint32(p.SignCount),
		UserVerified: p.UserVerified, BackupEligible: p.BackupEligible, BackedUp: p.BackedUp, Transports: p.Transports,
		Format: p.Format, Attestation: p.Attestation}
}
