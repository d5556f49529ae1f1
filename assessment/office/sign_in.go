package office

import (
	"context"
	"strings"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SignInForm is what somebody types to sign in.
type SignInForm struct {
	Agency   string // code; empty unless they are known to more than one agency
	Email    string
	Password string
	Code     string // one-time or recovery code, where it is at hand; who has them is asked for one
	Address  string // of the client, for slowing down guesses
}

// SignIn opens a session. A wrong e-mail address and a wrong password are answered in
// the same words, and for either a password is hashed; for an address that several
// agencies know, one for each, which takes as much longer. Where a one-time code is asked for and none was given, the
// error is CodeAsked.
func (o *Office) SignIn(ctx context.Context, f SignInForm) (string, assessment.Actor, error) {
	if err := f.check(); err != nil {
		return "", assessment.Actor{}, err
	}
	leave, err := o.signingIn.enter()
	if err != nil {
		return "", assessment.Actor{}, err
	}
	defer leave()
	found, err := o.db.AtDoor().SignIns(ctx, strings.TrimSpace(f.Email))
	if err != nil {
		return "", assessment.Actor{}, err
	}
	who, kept, err := o.proven(ctx, f, found)
	if fault.KindOf(err) == fault.Throttled && f.Agency == "" {
		err = tooManyAnywhere()
	}
	if err != nil {
		return "", assessment.Actor{}, err
	}
	return o.letIn(ctx, who, passwordStill(who.PersonID, kept), f.Code, f.Address)
}

func (f SignInForm) check() error {
	var faults form
	if strings.TrimSpace(f.Email) == "" {
		faults.Add("email", "Enter your e-mail address.")
	}
	if f.Password == "" {
		faults.Add("password", "Enter your password.")
	}
	faults.readable("email", f.Email, 254)
	if utf8.RuneCountInString(f.Password) > mostPassword {
		faults.Add("password", "A password has at most %d characters.", mostPassword)
	}
	return faults.Err()
}

// proven is the one of those with this e-mail address whose password it is, with what
// is kept of it. Where no agency is named the password is tried with each, and most of
// those tries miss however right it is: they are counted at a place of their own, and
// keep nobody out who names their agency.
func (o *Office) proven(ctx context.Context, f SignInForm, found []postgres.SignIn) (postgres.SignIn, postgres.Credential, error) {
	var good []postgres.SignIn
	var kept postgres.Credential
	from := place{name: Network(f.Address), anyAgency: f.Agency == "" && len(found) > 1}
	wrong := fault.Of(fault.Unauthenticated, "The e-mail address or the password is not right.")
	tried := false
	for _, s := range found {
		if f.Agency != "" && s.AgencyCode != strings.ToLower(strings.TrimSpace(f.Agency)) {
			continue
		}
		tried = true
		ok, c, err := o.prove(ctx, o.signingIn, s.AgencyID, s.PersonID, f.Password, from)
		switch {
		case fault.KindOf(err) == fault.Throttled:
			wrong = err
		case err != nil:
			return postgres.SignIn{}, kept, err
		case ok:
			good, kept = append(good, s), c
		}
	}
	switch {
	case len(good) == 1:
		return good[0], kept, nil
	case len(good) > 1:
		var faults form
		faults.Add("agency", "You are known to more than one agency. Enter the code of the one you mean.")
		return postgres.SignIn{}, kept, faults.Err()
	case !tried:
		return postgres.SignIn{}, kept, o.turnAway(ctx, f, wrong)
	}
	return postgres.SignIn{}, kept, wrong
}

// turnAway does for an e-mail address that nobody has what is done for others.
func (o *Office) turnAway(ctx context.Context, f SignInForm, wrong error) error {
	if err := o.strangers.count(f.Agency, strings.TrimSpace(f.Email), Network(f.Address), o.opt.Now()); err != nil {
		return err
	}
	if _, err := o.matches(ctx, o.signingIn, "", f.Password); err != nil {
		return err
	}
	return wrong
}
