package office

import (
	"context"
	"encoding/hex"
	"fmt"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// A PIN has so many digits, and is shut after so many wrong tries in a row: six
// digits and five tries leave whoever guesses one chance in 200,000 (21 CFR
// 11.300(d) asks that misuse is kept from happening; the numbers are ours).
const (
	LeastPIN = 6
	MostPIN  = 12
	pinTries = 5
)

// SetPIN sets a PIN of one's own, good for nothing but signing. It asks for the
// password.
func (o *Office) SetPIN(ctx context.Context, by assessment.Actor, password, pin string) error {
	if err := by.May(assessment.SignRecord); err != nil {
		return err
	}
	var f form
	f.Take("pin", checkPIN(pin))
	if password == "" {
		f.Add("password", "Enter your password.")
	}
	if err := f.Err(); err != nil {
		return err
	}
	ok, kept, err := o.proveSignedIn(ctx, by, by.Person, password)
	switch {
	case err != nil:
		return err
	case !ok:
		return faultAt("password", "This is not your password. Your PIN has not changed.")
	}
	hash, err := o.hash(ctx, pin)
	if err != nil {
		return err
	}
	return o.asOwner(ctx, by, passwordStill(by.Person, kept), func(tx *postgres.Tx, now Moment) error {
		if err := tx.PINs.Set(ctx, by.Person, hash, now.At); err != nil {
			return fmt.Errorf("keep a PIN: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "pin", string(by.Person))
	})
}

// EndPIN takes one's own PIN away.
func (o *Office) EndPIN(ctx context.Context, by assessment.Actor) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		if err := tx.PINs.End(ctx, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "pin ended", string(by.Person))
	})
}

// checkPIN refuses what is no PIN, or would be guessed first.
func checkPIN(pin string) error {
	digits := []rune(pin)
	different := map[rune]bool{}
	for _, d := range digits {
		if d < '0' || d > '9' {
			return fault.Of(fault.Invalid, "A PIN is made of digits only.")
		}
		different[d] = true
	}
	switch {
	case len(digits) < LeastPIN || len(digits) > MostPIN:
		return fault.Of(fault.Invalid, "A PIN has %d to %d digits.", LeastPIN, MostPIN)
	case len(different) < 3, repeats(digits), runs(digits), runs(halved(digits)):
		return fault.Of(fault.Invalid, "This is among the first that anybody would try. Choose digits that neither repeat nor follow each other.")
	}
	return nil
}

// halved is every other digit of a PIN made of pairs, such as 112233; any other
// stays as it is.
func halved(digits []rune) []rune {
	var half []rune
	for i := 0; i+1 < len(digits); i += 2 {
		if digits[i] != digits[i+1] {
			return digits
		}
		half = append(half, digits[i])
	}
	if len(digits)%2 == 1 {
		return digits
	}
	return half
}

// confirmByPIN lets a PIN stand for the whole proof where a sitting goes on.
func (o *Office) confirmByPIN(ctx context.Context, by assessment.Actor, person assessment.PersonID, pin string) (still, error) {
	if person != by.Person {
		return nil, faultAt("pin", "A PIN is good where its owner is signed in. Sign with your password here. Nothing has been signed.")
	}
	if err := o.mustBeSitting(ctx, by); err != nil {
		return nil, err
	}
	ok, kept, err := o.provePIN(ctx, by, strings.TrimSpace(pin))
	switch {
	case err != nil:
		return nil, err
	case ok:
		return pinStill(person, kept), nil
	case kept.Wrong < pinTries:
		return nil, faultAt("pin", fmt.Sprintf("This PIN does not match. After %d wrong ones in a row it is shut. Nothing has been signed.", pinTries))
	}
	return nil, shutPIN()
}

func shutPIN() error {
	return faultAt("pin", "Your PIN is shut: it was wrong too often. Sign with your password, then set a new PIN under your account. Nothing has been signed.")
}

// mustBeSitting refuses a PIN for the first signature of a session, and after a
// while without one.
func (o *Office) mustBeSitting(ctx context.Context, by assessment.Actor) error {
	needs := faultAt("pin", "This is the first signature of this session, or the last one was an hour ago or more. Sign with your password; your PIN is good for the next ones. Nothing has been signed.")
	hash, err := hex.DecodeString(by.Session)
	if err != nil || by.Session == "" {
		return needs
	}
	return o.reading(ctx, by.Agency, func(tx *postgres.Tx, now Moment) error {
		s, err := tx.Sessions.Find(ctx, hash)
		switch {
		case fault.KindOf(err) == fault.NotFound:
			return needs
		case err != nil:
			return err
		case s.ID != by.Person || !assessment.PINSuffices(s.SignedAt, now.At):
			return needs
		}
		return nil
	})
}

// provePIN reports whether a PIN is that of whoever acts, with what is kept of it and
// how many tries in a row were wrong. As with passwords, a try is counted before it is looked at.
func (o *Office) provePIN(ctx context.Context, by assessment.Actor, pin string) (bool, postgres.PIN, error) {
	leave, err := o.confirming.enter()
	if err != nil {
		return false, postgres.PIN{}, err
	}
	defer leave()
	done, err := o.confirming.inLine(ctx, string(by.Person), "PIN")
	if err != nil {
		return false, postgres.PIN{}, err
	}
	defer done()
	kept, err := o.countPIN(ctx, by)
	if err != nil {
		return false, postgres.PIN{}, err
	}
	ok, err := o.matches(ctx, o.confirming, kept.Hash, pin)
	switch {
	case err != nil:
		return false, kept, err
	case ok:
		return true, kept, o.aside(ctx, by.Agency, func(tx *postgres.Tx) error { return tx.PINs.Wrong(ctx, by.Person, 0) })
	case kept.Wrong < pinTries:
		return false, kept, nil
	}
	return false, kept, o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		if err := tx.PINs.Shut(ctx, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, pinShut, string(by.Person))
	})
}

// countPIN notes a try, and refuses it where there is no PIN or it is shut.
func (o *Office) countPIN(ctx context.Context, by assessment.Actor) (postgres.PIN, error) {
	var kept postgres.PIN
	err := o.aside(ctx, by.Agency, func(tx *postgres.Tx) (err error) {
		if err := tx.PINs.Lock(ctx, by.Person); err != nil {
			return err
		}
		if kept, err = tx.PINs.Of(ctx, by.Person); err != nil {
			return err
		}
		switch {
		case kept.Hash == "":
			return faultAt("pin", "You have no PIN. Sign with your password; you can set a PIN under your account. Nothing has been signed.")
		case kept.ShutAt != nil, kept.Wrong >= pinTries:
			return shutPIN()
		}
		kept.Wrong++
		return tx.PINs.Wrong(ctx, by.Person, kept.Wrong)
	})
	return kept, err
}
