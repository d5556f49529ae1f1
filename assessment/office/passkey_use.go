package office

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/passkey"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// BeginPasskeySignIn gives what the browser of whoever wants to sign in is asked.
func (o *Office) BeginPasskeySignIn(ctx context.Context) (string, error) {
	if err := o.PasskeysOffered(); err != nil {
		return "", err
	}
	asked, err := o.party.AskAnybody()
	if err != nil {
		return "", err
	}
	return asked.Options, o.writing(ctx, nobody, func(tx *postgres.Tx) error {
		return o.keepQuestion(ctx, tx, o.now(), asked, postgres.Challenge{Purpose: forSignIn})
	})
}

// SignInByPasskey opens a session for the owner of a passkey. It stands for both
// factors: who has the device, and proved to the device that it is theirs.
func (o *Office) SignInByPasskey(ctx context.Context, answer string) (string, assessment.Actor, error) {
	none := assessment.Actor{}
	if err := o.PasskeysOffered(); err != nil {
		return "", none, err
	}
	read, err := passkey.Read(answer)
	if err != nil {
		return "", none, notAccepted()
	}
	asked, err := o.takeQuestion(ctx, nobody, read.Hash, forSignIn)
	if err != nil {
		return "", none, err
	}
	owner, err := o.db.AtDoor().PasskeyOwner(ctx, read.Handle)
	if fault.KindOf(err) == fault.NotFound {
		return "", none, fault.Of(fault.Refused, "This passkey is not known here; it may have been removed. Sign in with your password.")
	}
	if err != nil {
		return "", none, err
	}
	proven, err := o.useKey(ctx, owner.AgencyID, owner.PersonID, asked.State, read)
	if err != nil {
		return "", none, err
	}
	return o.openSession(ctx, owner.AgencyID, owner.PersonID, proven)
}

// AskPasskey stands in a proof in place of a passkey's answer: the signer wants to
// be asked. The question comes as a PasskeyAsked.
const AskPasskey = "ask"

// NoPasskey stands in a proof in place of a passkey's answer: the signer was asked,
// and went back without signing.
const NoPasskey = "back"

// PasskeyAsked is what the browser of a signer is asked, in place of a signature
// that is not made yet. It is bound to the signer, the act and what is signed, and
// the same form comes again with the answer.
type PasskeyAsked struct {
	Options string
	Signer  string // their name
	Licence string // that the signature stands with; empty: none
	At      time.Time
	Zone    *time.Location
	Act     assessment.Act
	Says    string        // what is signed, in words
	Phrase  phrase.Phrase // the same for a reader of another language; nothing where a family does not sign it
	Speaks  string        // BCP 47 tag of the signer's language
}

func (PasskeyAsked) Error() string { return "a passkey is asked for" }

// signed is what a signature is for: all that was typed, and the hash of the record
// where there is one. Says is shown to who signs with a passkey; a Bare signature
// stands without a licence.
type signed struct {
	What   []any
	Body   []byte
	Says   string        `json:"-"`
	Phrase phrase.Phrase `json:"-"`
	Bare   bool          `json:"-"`
}

// bound is the hash that a passkey's question is bound to.
func (s signed) bound(signer assessment.PersonID, act assessment.Act) ([]byte, error) {
	text, err := json.Marshal([]any{signer, act, s})
	if err != nil {
		return nil, fmt.Errorf("write what is signed: %w", err)
	}
	hash := sha256.Sum256(text)
	return hash[:], nil
}

// confirmByPasskey is confirm for a passkey.
func (o *Office) confirmByPasskey(ctx context.Context, by assessment.Actor, signer assessment.PersonID, act assessment.Act, what signed, answer string) (still, error) {
	if err := o.PasskeysOffered(); err != nil {
		return nil, err
	}
	bound, err := what.bound(signer, act)
	if err != nil {
		return nil, err
	}
	switch answer {
	case AskPasskey:
		return nil, o.askSigner(ctx, by, signer, act, what, bound)
	case NoPasskey:
		return nil, fault.Of(fault.Refused, "You went back without signing, so nothing has been signed. What you typed is still there.")
	}
	read, err := passkey.Read(answer)
	if err != nil {
		return nil, notAccepted()
	}
	asked, err := o.takeQuestion(ctx, by.Agency, read.Hash, forSignature)
	if err != nil {
		return nil, err
	}
	if asked.Person != signer || !bytes.Equal(asked.Bound, bound) {
		return nil, fault.Of(fault.Refused, "The passkey was asked for something else than this. Nothing has been signed. Look at it and try again.")
	}
	return o.useKey(ctx, by.Agency, signer, asked.State, read)
}

// askSigner gives the question as an error, since nothing has been signed yet.
func (o *Office) askSigner(ctx context.Context, by assessment.Actor, signer assessment.PersonID, act assessment.Act, what signed, bound []byte) error {
	asked := PasskeyAsked{Act: act, Says: what.Says, Phrase: what.Phrase}
	err := o.writing(ctx, by.Agency, o.withMoment(ctx, by.Person, itself, func(tx *postgres.Tx, now Moment) error {
		p, err := tx.People.Get(ctx, signer)
		if err != nil {
			return err
		}
		owner, _, err := o.passkeyOwner(ctx, tx, now, signer)
		if fault.KindOf(err) == fault.NotFound || err == nil && len(owner.Keys) == 0 {
			return faultAt("password", p.Name+" has no passkey here. Enter the password. Nothing has been signed.")
		}
		if err != nil {
			return err
		}
		question, err := o.party.Ask(owner)
		if err != nil {
			return err
		}
		asked.Options, asked.Signer, asked.At, asked.Zone, asked.Speaks = question.Options, p.Name, now.At, now.Zone, p.Language
		if !what.Bare {
			if asked.Licence, err = printedLicence(ctx, tx, now, signer); err != nil {
				return err
			}
		}
		return o.keepQuestion(ctx, tx, now.At, question, postgres.Challenge{Person: signer, Purpose: forSignature, Bound: bound})
	}))
	if err != nil {
		return err
	}
	return asked
}
