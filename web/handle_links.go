package web

import (
	"net/http"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// makeLink makes a link by which somebody chooses a password, and shows it this once.
func (s *Site) makeLink(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	made, err := s.office.MakeLink(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	sheet, err := invitationSheet(made, v.zone())
	if err != nil {
		return err
	}
	return v.show(LinkMadePage{Frame: v.frame("people"), Name: made.Person.Name, Invites: made.Purpose == assessment.Invitation, URL: made.URL,
		Until: instant(made.ExpiresAt, v.zone()), Back: "/people/" + string(id), Sheet: sheet})
}

// link shows what a link is for and changes nothing: mail programs and messengers
// open links before people do.
func (s *Site) link(v *visit) error {
	return s.linkPage(v, Faults{}, http.StatusOK)
}

func (s *Site) linkPage(v *visit, faults Faults, status int) error {
	v.c.Header("Referrer-Policy", "no-referrer") // the address is the secret
	token := v.c.Param("token")
	found, err := s.office.Link(v.ctx(), token)
	if chosenLanguage(v.c.Request) == "" && found.Language != "" && v.speaks == "" {
		v.speaks = wording.Of(found.Language)
	}
	page := LinkPage{Frame: v.frame(""), Faults: faults, Of: found.Agency, Name: found.Name, Email: found.Email,
		First: found.Purpose == assessment.Invitation, HasCode: found.HasCode, Action: "/link/" + token, LeastChars: office.LeastPassword}
	page.Path = "" // it would carry the link on
	page.NotMine = page.Action + "/not-mine"
	if f, known := fault.As(err); known && f.Kind == fault.NotFound {
		page.Dead, page.Action, status = v.words().Of(f.Phrase()), "", http.StatusNotFound
	} else if err != nil {
		return err
	}
	return s.pages.Write(v.c.Writer, status, page)
}

// takeLink uses a link up.
func (s *Site) takeLink(v *visit) error {
	v.c.Header("Referrer-Policy", "no-referrer")
	v.speaks = known(v.form("lang")) // that the page was in
	err := error(&fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"again": "The two differ. Type both once more."}})
	if v.secret("new") == v.secret("again") {
		err = s.office.TakeLink(v.ctx(), office.LinkForm{Token: v.c.Param("token"), Password: v.secret("new"), Code: v.form("code"), Address: v.address()})
	}
	switch {
	case err == nil:
		s.setCookie(v.c, "", -1)
		s.setLanguage(v.c, v.language())
		return v.to("/sign-in", v.say("Your password is kept. Now sign in with it."))
	case fault.KindOf(err) == fault.NotFound:
		return s.linkPage(v, Faults{}, http.StatusNotFound)
	}
	faults, unknown := v.wrong(err, v.say("Your password is not kept yet."), label("new", v.say("New password")), label("again", v.say("New one again")), label("code", v.say("Code")))
	if unknown != nil {
		return unknown
	}
	return s.linkPage(v, faults, http.StatusUnprocessableEntity)
}

// giveBackLink ends a link that somebody opened for whom it is not.
func (s *Site) giveBackLink(v *visit) error {
	v.c.Header("Referrer-Policy", "no-referrer")
	err := s.office.GiveBackLink(v.ctx(), v.c.Param("token"))
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return err
	}
	v.speaks = known(v.form("lang")) // that the page was in
	page := LinkPage{Frame: v.frame(""), GivenBack: true}
	page.Path = ""
	return v.show(page) // of a link that had ended already, it looks the same
}

// endCodesOf turns off, signed, the one-time codes of somebody who has lost them.
func (s *Site) endCodesOf(v *visit) error {
	return s.onPerson(v, "Their one-time codes are off. They sign in with their password alone, and are told.", func(id assessment.PersonID) error {
		return s.office.EndCodesOf(v.ctx(), v.by(), id, v.proof())
	}, func(page *PersonPage, err error) error {
		return v.take(&page.Codes.Faults, err, v.say("Their codes are still on."), label("password", v.say("Your password")))
	})
}

// vouch says of somebody, signed, that it is them.
func (s *Site) vouch(v *visit) error {
	return s.onPerson(v, "You have vouched for them. What they sign counts from now on.", func(id assessment.PersonID) error {
		return s.office.Vouch(v.ctx(), v.by(), id, v.proof())
	}, func(page *PersonPage, err error) error {
		return v.take(&page.Vouch.Faults, err, v.say("You have not vouched."), label("password", v.say("Your password")))
	})
}
