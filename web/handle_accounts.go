package web

import (
	"net/http"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// sessionDays is how long a browser keeps the cookie; the office ends a session
// no later.
const sessionDays = 7

func (s *Site) signIn(v *visit) error {
	if v.token != "" {
		return v.to(inside(v.query("next")), "")
	}
	page := SignInPage{Frame: v.frame(""), Next: inside(v.query("next"))}
	if v.query("lost") != "" {
		page.Lost = true
		page.Faults = Faults{What: v.say("You were signed out: what you sent is not saved."), Why: v.say("Sign in, and you are back at the page. Then send it again.")}
	}
	return v.show(page)
}

func (s *Site) doSignIn(v *visit) error {
	form := office.SignInForm{Agency: v.form("agency"), Email: v.form("email"), Password: v.secret("password"), Address: v.address()}
	token, _, err := s.office.SignIn(v.ctx(), form)
	if asked, sent := s.askCode(v, err); asked {
		return sent
	}
	if err != nil {
		return s.signInAgain(v, form, err)
	}
	s.setCookie(v.c, token, sessionDays*24*3600)
	return v.to(inside(v.form("next")), "")
}

// signInAgain keeps what was typed, but for the password.
func (s *Site) signInAgain(v *visit, form office.SignInForm, err error) error {
	f, known := fault.As(err)
	if !known {
		return err
	}
	page := SignInPage{Frame: v.frame(""), Code: form.Agency, Email: form.Email, Next: inside(v.form("next"))}
	_, page.AskAgency = f.Fields["agency"]
	page.AskAgency = page.AskAgency || form.Agency != "" || f.Kind == fault.Throttled // who names theirs need not wait for others
	faults, unknown := v.wrong(&fault.Fault{Kind: fault.Invalid, Message: f.Message, Fields: f.Fields, Said: f.Said, SaidAt: f.SaidAt}, v.say("You are not signed in."),
		label("agency", v.say("Agency code")), label("email", v.say("E-mail")), label("password", v.say("Password")))
	if unknown != nil {
		return unknown
	}
	page.Faults = faults
	status := f.Kind.Status()
	if f.Kind == fault.Unauthenticated { // a 401 would ask browsers for a scheme that pages do not use
		status = http.StatusUnprocessableEntity
	}
	return s.pages.Write(v.c.Writer, status, page)
}

func (s *Site) signOut(v *visit) error {
	if err := s.office.SignOut(v.ctx(), v.token); err != nil {
		return err
	}
	s.setCookie(v.c, "", -1)
	// Whoever has the device next finds nothing of what was shown. The cookies stay: one
	// of them says on the next page that it worked. So does what the bedside has not
	// sent yet, which would be lost: the sign-in page puts its pack away (app.js).
	v.c.Header("Clear-Site-Data", `"cache"`)
	return v.to("/sign-in", v.say("You are signed out."))
}

func (s *Site) password(v *visit) error { return v.show(s.passwordPage(v, Faults{})) }

func (s *Site) passwordPage(v *visit, faults Faults) PasswordPage {
	return PasswordPage{Frame: v.frame(""), Faults: faults, First: v.session.MustChangePassword, Action: "/password",
		Email: v.session.Email, LeastChars: office.LeastPassword}
}

func (s *Site) changePassword(v *visit) error {
	err := fault.Of(fault.Invalid, "The two new ones differ.")
	if v.secret("new") == v.secret("again") {
		err = s.office.ChangePassword(v.ctx(), v.by(), v.secret("old"), v.secret("new"), v.token)
	}
	if err == nil {
		return v.to("/", v.say("Your new password is kept. All other sign-ins of yours have ended."))
	}
	faults, unknown := v.wrong(err, v.say("Your password has not changed."),
		label("old", v.say("Password now")), label("new", v.say("New password")), label("again", v.say("New one again")))
	if unknown != nil {
		return unknown
	}
	return v.again(s.passwordPage(v, faults))
}

// landing sends everybody to the page that answers their first question.
func (s *Site) landing(v *visit) error { return v.to(landingOf(v.by()), v.takeFlash()) }

func landingOf(a assessment.Actor) string {
	switch {
	case a.Is(assessment.Coordinator), a.Is(assessment.Administrator), a.Is(assessment.Educator):
		return "/today"
	case a.Is(assessment.Surveyor) && a.Survey.Open():
		return "/survey"
	case a.Is(assessment.Surveyor) && !a.Is(assessment.Caregiver):
		return "/survey/access"
	}
	return "/home"
}

// health tells whoever watches the service whether it can answer.
func (s *Site) health(v *visit) error {
	if err := s.office.Healthy(v.ctx()); err != nil {
		return err
	}
	v.c.String(http.StatusOK, "well\n")
	return nil
}
