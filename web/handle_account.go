package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) account(v *visit) error {
	page, err := s.accountPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) accountPage(v *visit) (AccountPage, error) {
	a, err := s.office.Account(v.ctx(), v.by())
	if err != nil {
		return AccountPage{}, err
	}
	page := AccountPage{Frame: v.frame(""), Email: a.Email, Waits: v.words().Of(a.Says), Reads: v.languageForm(), Links: linkLines(v.words(), a.Links, v.zone()), Others: len(a.Sessions) > 1,
		SigningPIN: PINForm{May: a.PIN.May}}
	if a.PIN.Set {
		page.SigningPIN.Set = v.instant(a.PIN.SetAt)
	}
	if a.PIN.ShutAt != nil {
		page.SigningPIN.Shut = v.instant(*a.PIN.ShutAt)
	}
	w := v.words()
	for _, l := range a.Sessions {
		page.Sessions = append(page.Sessions, SessionLine{l.Handle, w.Of(deviceWords[l.Device]), v.instant(l.OpenedAt), v.instant(l.UsedAt), l.This})
	}
	page.Devices = deviceLines(v.words(), a.Devices, v.zone(), func(id string) string { return "/account/devices/" + id + "/revocation" })
	for _, e := range a.Events {
		page.Events = append(page.Events, EventLine{v.instant(e.At), w.Of(e.Says), by(w, e), e.Own, e.New})
	}
	return page, nil
}

// by says who did something to an account.
func by(w wording.Words, e office.AccountEvent) string {
	return word(w, []phrase.Phrase{phrase.Of("somebody signed in as you")}, e.By)
}

// deviceWords say in coarse words what somebody signed in with.
var deviceWords = map[string]phrase.Phrase{"phone": phrase.Of("A phone"), "tablet": phrase.Of("A tablet"), "computer": phrase.Of("A computer"),
	"program": phrase.Of("A program"), "unknown": phrase.Of("An unknown browser")}

// linkLines says of links who made them and what became of them.
func linkLines(w wording.Words, links []office.LinkLine, zone *time.Location) []LinkLine {
	var all []LinkLine
	var last *time.Time // use of a link: an older one gives nobody a secret any more
	for _, l := range links {
		if l.UsedAt != nil && (last == nil || l.UsedAt.After(*last)) {
			last = l.UsedAt
		}
	}
	for _, l := range links {
		line := LinkLine{What: w.Say("Link to set a new password, made by %s on %s", l.IssuedBy.Name, w.Instant(l.IssuedAt, zone)), Then: becameOf(w, l, last, zone), Held: l.UsedAt != nil}
		if l.Purpose == assessment.Invitation {
			line.What = w.Say("Invitation, made by %s on %s", l.IssuedBy.Name, w.Instant(l.IssuedAt, zone))
		}
		all = append(all, line)
	}
	return all
}

// becameOf says what became of a link, where the last one was used at an instant.
func becameOf(w wording.Words, l office.LinkLine, last *time.Time, zone *time.Location) string {
	switch {
	case l.UsedAt == nil && l.EndedAt != nil:
		return w.Say("Not used; a newer one took its place.")
	case l.UsedAt == nil:
		return w.Say("Not used; it runs out, or ran out, on %s.", w.Instant(l.ExpiresAt, zone))
	case l.VouchedAt != nil:
		return w.Say("Used on %s; %s vouched on %s.", w.Instant(*l.UsedAt, zone), l.VouchedBy.Name, w.Instant(*l.VouchedAt, zone))
	case l.Proven:
		return w.Say("Used on %s, with a one-time code of their own.", w.Instant(*l.UsedAt, zone))
	case l.UsedAt.Before(*last):
		return w.Say("Used on %s; another one was used after it.", w.Instant(*l.UsedAt, zone))
	}
	return w.Say("Used on %s; nobody has vouched.", w.Instant(*l.UsedAt, zone))
}

func (s *Site) setPIN(v *visit) error {
	err := error(&fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"again": "The two differ. Type both once more."}})
	if v.form("pin") == v.form("again") {
		err = s.office.SetPIN(v.ctx(), v.by(), v.secret("password"), v.form("pin"))
	}
	if err == nil {
		return v.to("/account", v.say("Your PIN is kept. It is good for nothing but signing."))
	}
	faults, unknown := v.wrong(err, v.say("Your PIN is not kept."), label("pin", v.say("New PIN")), label("again", v.say("New PIN again")), label("password", v.say("Your password")))
	if unknown != nil {
		return unknown
	}
	page, err := s.accountPage(v)
	if err != nil {
		return err
	}
	page.SigningPIN.Faults = faults
	return v.again(page)
}

func (s *Site) endPIN(v *visit) error {
	if err := s.office.EndPIN(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to("/account", v.say("You have no PIN any more. Sign with your password."))
}

// endSession ends one session, of which the form has the handle.
func (s *Site) endSession(v *visit) error {
	err := s.office.EndSession(v.ctx(), v.by(), v.form("session"))
	if err != nil && fault.KindOf(err) != fault.NotFound { // one that is over already is as good
		return err
	}
	return v.to("/account", v.say("That session has ended."))
}

func (s *Site) endOtherSessions(v *visit) error {
	if err := s.office.EndOtherSessions(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to("/account", v.say("All other sessions have ended."))
}

// putNewsAway takes the notice off the pages.
func (s *Site) putNewsAway(v *visit) error {
	if err := s.office.PutNewsAway(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to("/account", v.say("The notice is put away. The list stays here."))
}
