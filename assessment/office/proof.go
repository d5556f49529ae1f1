package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// Proof is what a signer gives to show that it is them who signs: one of these. It
// is never written anywhere.
type Proof struct {
	Password string `json:"-"`
	PIN      string `json:"-"` // of their own, good for nothing but signing
	Passkey  string `json:"-"` // what their passkey answered: JSON as the browser gives it; AskPasskey to be asked
	of       *signed
}

// over says what the proof is for: all that was typed. A passkey signs that and
// nothing else.
func (p Proof) over(typed ...any) Proof {
	p.of = &signed{What: typed}
	return p
}

// ByPassword is the proof that a password is.
func ByPassword(password string) Proof { return Proof{Password: password} }

// Confirm asks a signer again who they are: a person of the actor's agency. Whoever
// was given a password by somebody else must first choose one of their own, so that
// nobody can sign in another's name alone (21 CFR 11.200(a)(3)).
func (o *Office) Confirm(ctx context.Context, by assessment.Actor, person assessment.PersonID, proof Proof) error {
	if err := by.May(assessment.SignRecord); err != nil {
		return err
	}
	_, err := o.confirm(ctx, by, person, proof)
	return err
}

// confirm is Confirm for a use case that has looked who may sign. It comes before
// the transaction: it may have to wait for its turn, and whoever waits must hold
// no connection that others need. The use case then asks whether the proof still holds.
func (o *Office) confirm(ctx context.Context, by assessment.Actor, person assessment.PersonID, proof Proof) (still, error) {
	switch {
	case proof.Passkey != "":
		return nil, faultAt("password", "A passkey cannot be used here. Enter your password. Nothing has been signed.")
	case proof.Password != "":
		return o.confirmByPassword(ctx, by, person, proof.Password)
	case proof.PIN != "":
		return o.confirmByPIN(ctx, by, person, proof.PIN)
	}
	return nil, faultAt("password", "Enter your password. Nothing has been signed.")
}

func (o *Office) confirmByPassword(ctx context.Context, by assessment.Actor, person assessment.PersonID, password string) (still, error) {
	ok, kept, err := o.proveSignedIn(ctx, by, person, password)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		return nil, faultAt("password", "This password does not match. Nothing has been signed.")
	case kept.MustChange:
		return nil, faultAt("password", "This password was set by somebody else. Sign in and choose one of your own first. Nothing has been signed.")
	}
	return passwordStill(person, kept), nil
}

// proveSignedIn is prove for a password that somebody who is signed in hands over,
// their own or that of whom they hand the device to.
func (o *Office) proveSignedIn(ctx context.Context, by assessment.Actor, person assessment.PersonID, password string) (bool, postgres.Credential, error) {
	leave, err := o.confirming.enter()
	if err != nil {
		return false, postgres.Credential{}, err
	}
	defer leave()
	done, err := o.confirming.inLine(ctx, string(person), signedInAs(by))
	if err != nil {
		return false, postgres.Credential{}, err
	}
	defer done()
	return o.prove(ctx, o.confirming, by.Agency, person, password, place{name: signedInAs(by)})
}
