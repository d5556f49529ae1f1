package office

import (
	"cmp"
	"context"
	"encoding/base64"
	"errors"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// pendingFor is how long somebody who gave the right password may take for the code.
const pendingFor = 5 * time.Minute

// CodeAsked says that the password was right and a one-time code is asked for as
// well. The token stands for this half of the sign-in and opens nothing by itself.
type CodeAsked struct{ Token string }

func (CodeAsked) Error() string { return "a one-time code is asked for as well" }

// letIn opens a session for whoever gave the right password, or asks for a code.
func (o *Office) letIn(ctx context.Context, who postgres.SignIn, proven still, code, address string) (string, assessment.Actor, error) {
	agency, person := who.AgencyID, who.PersonID
	asked, err := o.codesOf(ctx, agency, person)
	switch {
	case err != nil:
		return "", assessment.Actor{}, err
	case !asked:
		return o.openSession(ctx, agency, person, proven)
	case code == "":
		token, err := o.waitForCode(ctx, agency, person, proven)
		if err != nil {
			return "", assessment.Actor{}, err
		}
		return "", assessment.Actor{}, CodeAsked{token}
	}
	if err := o.proveCode(ctx, agency, person, code, place{name: Network(address)}); err != nil {
		return "", assessment.Actor{}, err
	}
	return o.openSession(ctx, agency, person, proven)
}

// codesOf reports whether codes are asked of somebody.
func (o *Office) codesOf(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID) (bool, error) {
	on := false
	err := o.writing(ctx, agency, func(tx *postgres.Tx) error {
		c, err := tx.OneTimeCodes.Of(ctx, person)
		on = err == nil && c.ConfirmedAt != nil
		if fault.KindOf(err) == fault.NotFound {
			return nil
		}
		return err
	})
	return on, err
}

func (o *Office) waitForCode(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, proven still) (string, error) {
	raw, err := o.bytes(32)
	if err != nil {
		return "", err
	}
	token := base64.RawURLEncoding.EncodeToString(raw)
	return token, o.in(ctx, agency, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.People.Lock(ctx, person); err != nil {
			return err
		}
		if err := proven.or(ctx, tx, fault.Of(fault.Unauthenticated, "Your password was changed while you signed in. Sign in again.")); err != nil {
			return err
		}
		return tx.OneTimeCodes.AddPending(ctx, tokenHash(token), person, now.At, now.At.Add(pendingFor))
	})
}

// SignInByCode is the second half of a sign-in: a code of the app, or a recovery
// code.
func (o *Office) SignInByCode(ctx context.Context, token, code, address string) (string, assessment.Actor, error) {
	none := assessment.Actor{}
	over := fault.Of(fault.Unauthenticated, "This took longer than five minutes. Enter your password again.")
	agency, err := o.db.AtDoor().Pending(ctx, tokenHash(token))
	if fault.KindOf(err) == fault.NotFound {
		return "", none, over
	}
	if err != nil {
		return "", none, err
	}
	var person assessment.PersonID
	err = o.in(ctx, agency, func(tx *postgres.Tx, now Moment) (err error) {
		person, err = tx.OneTimeCodes.Pending(ctx, tokenHash(token), now.At)
		return err
	})
	if fault.KindOf(err) == fault.NotFound {
		return "", none, over
	}
	if err != nil {
		return "", none, err
	}
	if err := o.proveCode(ctx, agency, person, code, place{name: Network(address)}); err != nil {
		return "", none, err
	}
	return o.openSession(ctx, agency, person, halfStill(token))
}

// proveCode uses up a code of the app or a recovery code. Tries are counted like
// those of passwords: by place, so that nobody can lock somebody else out.
func (o *Office) proveCode(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, code string, from place) error {
	if plainCode(code) == "" {
		return faultAt("code", "Enter the code that your app shows, or one of your recovery codes.")
	}
	from.name = "code at " + from.name
	try, _, err := o.countTry(ctx, agency, person, from)
	if err != nil {
		return err
	}
	wrong := false
	err = o.own(ctx, agency, person, func(tx *postgres.Tx, now Moment) error {
		err := o.useCode(ctx, tx, now, person, code)
		if wrong = errors.Is(err, errCode); !wrong {
			return err
		}
		return o.note(ctx, tx, now, assessment.Actor{}, assessment.OwnAccount, "code refused", string(person))
	})
	if wrong { // also where that could not be noted: the try counts
		return cmp.Or(err, errCode)
	}
	if err != nil && fault.KindOf(err) == 0 { // nobody knows how far it came
		return err
	}
	// A right code is no wrong try, nor is one that could not be looked at.
	good := o.aside(ctx, agency, func(tx *postgres.Tx) error { return tx.Sessions.MarkGood(ctx, try) })
	return cmp.Or(err, good)
}

// useCode tells the codes of an app from recovery codes by their length.
func (o *Office) useCode(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID, code string) error {
	c, err := tx.OneTimeCodes.Of(ctx, person)
	if fault.KindOf(err) == fault.NotFound {
		return errCode // they were turned off meanwhile
	}
	if err != nil {
		return err
	}
	if len(plainCode(code)) != recoveryLetters {
		return o.useStep(ctx, tx, now, person, c, code)
	}
	err = tx.OneTimeCodes.UseRecovery(ctx, person, recoveryHash(code), now.At)
	if fault.KindOf(err) == fault.NotFound {
		return errCode
	}
	if err != nil {
		return err
	}
	return o.note(ctx, tx, now, assessment.Actor{Person: person}, assessment.OwnAccount, "recovery code used", string(person))
}

// own is in for what somebody does who proves just now who they are.
func (o *Office) own(ctx context.Context, agency assessment.AgencyID, person assessment.PersonID, fn func(*postgres.Tx, Moment) error) error {
	return o.writing(ctx, agency, o.withMoment(ctx, person, string(assessment.OwnAccount), fn))
}

// EndCodes turns one's own one-time codes off.
func (o *Office) EndCodes(ctx context.Context, by assessment.Actor, password, code string) error {
	proven, err := o.bothFactors(ctx, by, password, code)
	if err != nil {
		return err
	}
	return o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) error {
		return o.endCodes(ctx, tx, now, by, assessment.OwnAccount, by.Person)
	})
}

func (o *Office) endCodes(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, person assessment.PersonID) error {
	if err := tx.OneTimeCodes.End(ctx, person); err != nil {
		return err
	}
	if err := tx.OneTimeCodes.EndPendingOf(ctx, person); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, act, "one-time codes off", string(person))
}

// RenewRecovery puts ten new recovery codes in place of all before. They are shown
// once.
func (o *Office) RenewRecovery(ctx context.Context, by assessment.Actor, password, code string) ([]string, error) {
	proven, err := o.bothFactors(ctx, by, password, code)
	if err != nil {
		return nil, err
	}
	var codes []string
	err = o.asOwner(ctx, by, proven, func(tx *postgres.Tx, now Moment) (err error) {
		if codes, err = o.newRecovery(ctx, tx, by.Person); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.OwnAccount, "recovery codes renewed", string(by.Person))
	})
	return codes, err
}

// ownForGood refuses to add a way in for whoever's password was set anew by a link
// until somebody has vouched for them: whoever made the link could have used it, and
// would keep that way in when its owner chooses another password.
func ownForGood(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) error {
	from, _, err := origin(ctx, tx, now, person)
	if err != nil {
		return err
	}
	if from.MaySign() != nil {
		return fault.Of(fault.Refused, "Your password was set anew by a link that %s made, and nobody has vouched for you yet. Ask somebody to do so first; then come back. Nothing has changed.", from.IssuerName)
	}
	return nil
}

// bothFactors asks who is signed in for the password and a code.
func (o *Office) bothFactors(ctx context.Context, by assessment.Actor, password, code string) (still, error) {
	on, err := o.codesOf(ctx, by.Agency, by.Person)
	if err != nil {
		return nil, err
	}
	if !on {
		return nil, fault.Of(fault.Refused, "One-time codes are not on.")
	}
	proven, err := o.ownPassword(ctx, by, password)
	if err != nil {
		return nil, err
	}
	return proven, o.proveCode(ctx, by.Agency, by.Person, code, place{name: signedInAs(by)})
}

// ownPassword asks who is signed in for their own password, which must be one that
// they chose: else whoever gave it to them could add a way in for themselves.
func (o *Office) ownPassword(ctx context.Context, by assessment.Actor, password string) (still, error) {
	ok, kept, err := o.proveSignedIn(ctx, by, by.Person, password)
	switch {
	case err != nil:
		return nil, err
	case !ok:
		return nil, faultAt("password", "This is not your password. Nothing has changed.")
	case kept.MustChange:
		return nil, faultAt("password", "This password was set by somebody else. Choose one of your own first. Nothing has changed.")
	}
	return passwordStill(by.Person, kept), nil
}
