package office

import (
	"bytes"
	"context"
	"errors"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/passkey"
	"wellshown/assessment/postgres"
)

// What a passkey is asked for. An answer to one is none to another.
const (
	forSignIn       = "sign-in"
	forRegistration = "registration"
	forSignature    = "signature"
)

// questionFor is how long a question stands.
const questionFor = 5 * time.Minute

// nobody is the agency under which questions are kept whose agency is not known
// yet. No agency has its id: those are never all zeros (RFC 9562, section 5.9).
const nobody assessment.AgencyID = "00000000-0000-0000-0000-000000000000"

func notAccepted() error {
	return fault.Of(fault.Refused, "This passkey was not accepted, and nothing was done. Try again, or use your password.")
}

// notTheirs says why, and names nobody: whoever asks may not be signed in.
func notTheirs() error {
	return fault.Of(fault.Refused, "This passkey was not accepted: it is somebody else’s, or it was removed here. Nothing was done. Whoever’s turn it is uses a passkey or password of their own.")
}

func notAskedAnyMore() error {
	return fault.Of(fault.Refused, "This was answered already, or the page was open for longer than five minutes. Nothing was done. Try again.")
}

func doubted() error {
	return fault.Of(fault.Refused, "This passkey is no longer accepted: its counter went back, so there may be a copy of it. Nothing was done. Use your password, remove the passkey under your account, and add it anew.")
}

func (o *Office) keepQuestion(ctx context.Context, tx *postgres.Tx, at time.Time, q passkey.Question, c postgres.Challenge) error {
	c.ChallengeHash, c.State, c.ExpiresAt = q.Hash, q.State, at.Add(questionFor)
	if c.Bound == nil {
		c.Bound = []byte{}
	}
	return tx.Passkeys.AddChallenge(ctx, c, at)
}

// takeQuestion takes away the question that an answer is for. It is gone whatever
// becomes of the answer, so that none is given twice.
func (o *Office) takeQuestion(ctx context.Context, agency assessment.AgencyID, hash []byte, purpose string) (postgres.Challenge, error) {
	var asked postgres.Challenge
	err := o.aside(ctx, agency, func(tx *postgres.Tx) (err error) {
		asked, err = tx.Passkeys.TakeChallenge(ctx, hash)
		return err
	})
	switch {
	case fault.KindOf(err) == fault.NotFound:
		return asked, notAskedAnyMore()
	case err != nil:
		return asked, err
	case asked.Purpose != purpose:
		return asked, notAccepted()
	case !o.now().Before(asked.ExpiresAt):
		return asked, notAskedAnyMore()
	}
	return asked, nil
}

// passkeyOwner is a person with those of their passkeys that are accepted, and all
// that are kept.
func (o *Office) passkeyOwner(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (passkey.Owner, []postgres.Passkey, error) {
	p, err := tx.People.Get(ctx, person)
	if err != nil {
		return passkey.Owner{}, nil, err
	}
	handle, err := tx.Passkeys.HandleOf(ctx, person)
	if err != nil {
		return passkey.Owner{}, nil, err
	}
	kept, err := tx.Passkeys.Of(ctx, person)
	owner := passkey.Owner{Handle: handle, Name: p.Email, Shown: p.Name + ", " + now.Agency.Name}
	for _, k := range kept {
		if k.DoubtedAt == nil {
			owner.Keys = append(owner.Keys, keyOf(k))
		}
	}
	return owner, kept, err
}

// useKey proves a person's answer and keeps what it says of the passkey. A refusal
// is noted, and one for a counter that went back is the end of the passkey. After that
// nothing is noted any more: answers to it are not proven, and whoever makes some up
// could fill its owner's account.
func (o *Office) useKey(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, state string, a passkey.Answer) (still, error) {
	var refused error
	var proven postgres.Passkey
	err := o.own(ctx, agency, person, func(tx *postgres.Tx, now Moment) error {
		refused = nil
		if err := tx.Passkeys.Lock(ctx, person); err != nil {
			return err
		}
		owner, kept, err := o.passkeyOwner(ctx, tx, now, person)
		if err != nil {
			return err
		}
		used, known := named(kept, a.CredentialID)
		proven = used
		if known && used.DoubtedAt != nil {
			refused = doubted()
			return nil
		}
		key, err := o.party.Prove(owner, state, a)
		switch {
		case known && errors.Is(err, passkey.ErrWentBack):
			refused = doubted()
			return o.doubt(ctx, tx, now, used)
		case err != nil || !known:
			if refused = notAccepted(); !known {
				refused = notTheirs()
			}
			return o.note(ctx, tx, now, assessment.Actor{}, assessment.OwnAccount, passkeyRefused, string(person))
		}
		used.SignCount, used.UserVerified, used.BackedUp = int64(key.SignCount), key.UserVerified, key.BackedUp
		return tx.Passkeys.Used(ctx, used, now.At)
	})
	if err != nil {
		return nil, err
	}
	return passkeyStill(proven), refused
}

func (o *Office) doubt(ctx context.Context, tx *postgres.Tx, now Moment, k postgres.Passkey) error {
	if err := tx.Passkeys.Doubt(ctx, k.ID, now.At); err != nil {
		return err
	}
	return o.note(ctx, tx, now, assessment.Actor{}, assessment.OwnAccount, passkeyDoubted, string(k.PersonID))
}

func named(kept []postgres.Passkey, credential []byte) (postgres.Passkey, bool) {
	for _, k := range kept {
		if bytes.Equal(k.CredentialID, credential) {
			return k, true
		}
	}
	return postgres.Passkey{}, false
}
