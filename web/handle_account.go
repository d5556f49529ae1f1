package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
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
	page := AccountPage{Frame: v.frame(""), Email: a.Email, Waits: a.Waits, Reads: v.languageForm(), Links: linkLines(a.Links, v.zone()), Others: len(a.Sessions) > 1,
		SigningPIN: PINForm{May: a.PIN.May}}
	if a.PIN.Set {
		page.SigningPIN.Set = instant(a.PIN.SetAt, v.zone())
	}
	if a.PIN.ShutAt != nil {
		page.SigningPIN.Shut = instant(*a.PIN.ShutAt, v.zone())
	}
	for _, l := range a.Sessions {
		page.Sessions = append(page.Sessions, SessionLine{l.Handle, deviceWords[l.Device], instant(l.OpenedAt, v.zone()), instant(l.UsedAt, v.zone()), l.This})
	}
	page.Devices = deviceLines(a.Devices, v.zone(), func(id string) string { return "/account/devices/" + id + "/revocation" })
	for _, e := range a.Events {
		page.Events = append(page.Events, EventLine{instant(e.At, v.zone()), e.What, e.By, e.Own, e.New})
	}
	return page, nil
}

var deviceWords = map[string]string{"phone": "A phone", "tablet": "A tablet", "computer": "A computer", "program": "A program", "unknown": "An unknown browser"}

// linkLines says of links who made them and what became of them.
func linkLines(links []office.LinkLine, zone *time.Location) []LinkLine {
	var all []LinkLine
	var last *time.Time // use of a link: an older one gives nobody a secret any more
	for _, l := range links {
		if l.UsedAt != nil && (last == nil || l.UsedAt.After(*last)) {
			last = l.UsedAt
		}
	}
	for _, l := range links {
		line := LinkLine{What: "Link to set a new password", Held: l.UsedAt != nil}
		if l.Purpose == assessment.Invitation {
			line.What = "Invitation"
		}
		line.What += ", made by " + l.IssuedBy.Name + " on " + instant(l.IssuedAt, zone)
		switch {
		case l.UsedAt == nil && l.EndedAt != nil:
			line.Then = "Not used; a newer one took its place."
		case l.UsedAt == nil:
			line.Then = "Not used; it runs out, or ran out, on " + instant(l.ExpiresAt, zone) + "."
		case l.VouchedAt != nil:
			line.Then = "Used on " + instant(*l.UsedAt, zone) + "; " + l.VouchedBy.Name + " vouched on " + instant(*l.VouchedAt, zone) + "."
		case l.Proven:
			line.Then = "Used on " + instant(*l.UsedAt, zone) + ", with a one-time code of their own."
		case l.UsedAt.Before(*last):
			line.Then = "Used on " + instant(*l.UsedAt, zone) + "; another one was used after it."
		default:
			line.Then = "Used on " + instant(*l.UsedAt, zone) + "; nobody has vouched."
		}
		all = append(all, line)
	}
	return all
}

func (s *Site) setPIN(v *visit) error {
	err := error(&fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{"again": "The two differ. Type both once more."}})
	if v.form("pin") == v.form("again") {
		err = s.office.SetPIN(v.ctx(), v.by(), v.secret("password"), v.form("pin"))
	}
	if err == nil {
		return v.to("/account", "Your PIN is kept. It is good for nothing but signing.")
	}
	faults, unknown := wrong(err, "Your PIN is not kept.", label("pin", "New PIN"), label("again", "New PIN again"), label("password", "Your password"))
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
	return v.to("/account", "You have no PIN any more. Sign with your password.")
}

// endSession ends one session, of which the form has the handle.
func (s *Site) endSession(v *visit) error {
	err := s.office.EndSession(v.ctx(), v.by(), v.form("session"))
	if err != nil && fault.KindOf(err) != fault.NotFound { // one that is over already is as good
		return err
	}
	return v.to("/account", "That session has ended.")
}

func (s *Site) endOtherSessions(v *visit) error {
	if err := s.office.EndOtherSessions(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to("/account", "All other sessions have ended.")
}

// putNewsAway takes the notice off the pages.
func (s *Site) putNewsAway(v *visit) error {
	if err := s.office.PutNewsAway(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to("/account", "The notice is put away. The list stays here.")
}
