package web

import (
	"errors"
	"net/http"
	"net/url"

	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

const codesAt = "/account/codes"

func (s *Site) codes(v *visit) error {
	page, err := s.codesPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) codesPage(v *visit) (CodesPage, error) {
	c, err := s.office.Codes(v.ctx(), v.by())
	page := CodesPage{Frame: v.frame(""), CanBeSetUp: c.CanBeSetUp, On: c.On, Left: c.Left}
	if c.On {
		page.Since = v.instant(c.Since)
	}
	return page, err
}

func (s *Site) newCodes(v *visit) error {
	made, err := s.office.BeginCodes(v.ctx(), v.by(), v.secret("password"))
	if err != nil {
		return s.codesAgain(v, err, v.say("Nothing is turned on."), "")
	}
	square, err := newSquare(made.Address)
	if err != nil {
		return err
	}
	return v.show(NewCodesPage{Frame: v.frame(""), Square: square, Secret: inGroups(made.Secret, 4)})
}

func (s *Site) confirmCodes(v *visit) error {
	codes, err := s.office.ConfirmCodes(v.ctx(), v.by(), v.form("code"))
	if err == nil {
		return v.show(RecoveryPage{Frame: v.frame(""), First: true, Codes: codes})
	}
	if f, ok := fault.As(err); ok && f.Fields["code"] == "" {
		return s.codesAgain(v, err, v.say("Nothing is turned on."), "")
	}
	faults, unknown := v.wrong(err, v.say("One-time codes are not on yet."), label("code", v.say("Code")))
	if unknown != nil {
		return unknown
	}
	return v.again(NewCodesPage{Frame: v.frame(""), Faults: faults})
}

func (s *Site) renewRecovery(v *visit) error {
	codes, err := s.office.RenewRecovery(v.ctx(), v.by(), v.secret("password"), v.form("code"))
	if err != nil {
		return s.codesAgain(v, err, v.say("The recovery codes are as they were."), "recovery")
	}
	return v.show(RecoveryPage{Frame: v.frame(""), Codes: codes})
}

func (s *Site) endCodes(v *visit) error {
	if err := s.office.EndCodes(v.ctx(), v.by(), v.secret("password"), v.form("code")); err != nil {
		return s.codesAgain(v, err, v.say("One-time codes are still on."), "off")
	}
	return v.to(codesAt, v.say("One-time codes are off. Your password alone signs you in again."))
}

func (s *Site) codesAgain(v *visit, err error, what, form string) error {
	faults, unknown := v.wrong(err, what, label("password", v.say("Password")), label("code", v.say("Code")))
	if unknown != nil {
		return unknown
	}
	page, err := s.codesPage(v)
	if err != nil {
		return err
	}
	switch form {
	case "off":
		page.Off = faults
	case "recovery":
		page.Renew = faults
	default:
		page.Faults = faults
	}
	return v.again(page)
}

// halfCookie holds the half of a sign-in that waits for a code.
func (s *Site) halfCookie() string { return CookieName(s.opt.Secure) + "-half" }

func (s *Site) setHalf(v *visit, token string, age int) {
	http.SetCookie(v.c.Writer, &http.Cookie{Name: s.halfCookie(), Value: token, Path: "/", MaxAge: age,
		HttpOnly: true, Secure: s.opt.Secure, SameSite: http.SameSiteStrictMode})
}

// askCode goes on to the second half of a sign-in where an error asks for it.
func (s *Site) askCode(v *visit, err error) (bool, error) {
	var asked office.CodeAsked
	if !errors.As(err, &asked) {
		return false, nil
	}
	s.setHalf(v, asked.Token, 5*60)
	return true, v.to("/sign-in/code?next="+url.QueryEscape(inside(v.form("next"))), "")
}

func (s *Site) signInCode(v *visit) error {
	return v.show(SignInCodePage{Frame: v.frame(""), Next: inside(v.query("next"))})
}

func (s *Site) doSignInCode(v *visit) error {
	half, err := v.c.Request.Cookie(s.halfCookie())
	if err != nil {
		return v.to("/sign-in", "")
	}
	token, _, err := s.office.SignInByCode(v.ctx(), half.Value, v.form("code"), v.address())
	if fault.KindOf(err) == fault.Unauthenticated {
		s.setHalf(v, "", -1)
		return s.signInAgain(v, office.SignInForm{}, err)
	}
	if err != nil {
		faults, unknown := v.wrong(err, v.say("You are not signed in."), label("code", v.say("Code")))
		if unknown != nil {
			return unknown
		}
		return s.pages.Write(v.c.Writer, statusOf(err), SignInCodePage{Frame: v.frame(""), Faults: faults, Next: inside(v.form("next"))})
	}
	s.setHalf(v, "", -1)
	s.setCookie(v.c, token, sessionDays*24*3600)
	return v.to(inside(v.form("next")), "")
}

// statusOf is the status of a refusal; every other error has been dealt with.
func statusOf(err error) int { return fault.KindOf(err).Status() }
