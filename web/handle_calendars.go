package web

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const calendarsAt = "/account/calendars"

func (s *Site) calendars(v *visit) error { return s.showCalendars(v, "") }

func (s *Site) showCalendars(v *visit, address string) error {
	page := CalendarsPage{Frame: v.frame("account"), Address: address}
	d, err := s.office.Feeds(v.ctx(), v.by())
	if err != nil {
		return err
	}
	line := func(name, what, at string, f office.FeedView) {
		l := CalendarLine{Name: name, What: what, Make: calendarsAt + at}
		if !f.MadeAt.IsZero() {
			l.Made, l.End = v.instant(f.MadeAt), calendarsAt+at+"/end"
		}
		page.Calendars = append(page.Calendars, l)
	}
	line(v.say("Your own"), v.say("The last days of what you hold, your shifts, visits and skills days. Of children it shows the code alone."), "/own", d.Own)
	if d.MayWhole {
		line("The agency’s", "How much ends on a day, shifts that break or are open, visits and skills days. It names no caregiver and no educator; of children it shows the code alone.", "/agency", d.Whole)
	}
	return v.show(page)
}

func (s *Site) makeOwnFeed(v *visit) error    { return s.makeFeed(v, s.office.MakeOwnFeed) }
func (s *Site) makeAgencyFeed(v *visit) error { return s.makeFeed(v, s.office.MakeAgencyFeed) }

func (s *Site) makeFeed(v *visit, make func(context.Context, assessment.Actor) (office.NewFeed, error)) error {
	made, err := make(v.ctx(), v.by())
	if err != nil {
		return err
	}
	return s.showCalendars(v, made.Address)
}

func (s *Site) endOwnFeed(v *visit) error    { return s.endFeed(v, s.office.EndOwnFeed) }
func (s *Site) endAgencyFeed(v *visit) error { return s.endFeed(v, s.office.EndAgencyFeed) }

func (s *Site) endFeed(v *visit, end func(context.Context, assessment.Actor) error) error {
	if err := end(v.ctx(), v.by()); err != nil {
		return err
	}
	return v.to(calendarsAt, v.say("The address is revoked. What calendar programs have read already stays with them."))
}

// feed answers a calendar program, which has the secret and nothing else.
func (s *Site) feed(v *visit) error {
	secret, _ := strings.CutSuffix(v.c.Param("secret"), ".ics")
	body, err := s.office.Feed(v.ctx(), secret)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(body)
	tag := `"` + hex.EncodeToString(sum[:16]) + `"`
	v.c.Header("Cache-Control", "private, no-cache")
	v.c.Header("ETag", tag)
	v.c.Header("X-Robots-Tag", "noindex")
	if v.c.GetHeader("If-None-Match") == tag {
		v.c.Status(http.StatusNotModified)
		v.c.Writer.WriteHeaderNow()
		return nil
	}
	v.c.Header("Content-Disposition", `attachment; filename="wellshown.ics"`)
	v.c.Data(http.StatusOK, "text/calendar; charset=utf-8", body)
	return nil
}
