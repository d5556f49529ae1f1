// Package calendar writes calendars that other programs read (iCalendar, RFC 5545). The
// same events give the same bytes.
package calendar

import (
	"time"

	ics "github.com/arran4/golang-ical"

	"wellshown/assessment/civil"
)

// Calendar is what somebody subscribes to.
type Calendar struct {
	Name   string
	Day    civil.Date // as of which it is: what was written on a later day stands above it
	Stamp  time.Time  // the instant at which that day began
	Events []Event
}

// Event is one of its events: on whole days, or from one instant until another.
type Event struct {
	UID     string // the same for the same thing, wherever it moves
	On      civil.Date
	Through civil.Date // the last of the days; zero: On
	Starts  time.Time  // zero: on whole days
	Ends    time.Time
	Summary string
}

// firstDay is the day from which sequence numbers are counted.
var firstDay = civil.MustParse("2026-01-01")

// Write writes a calendar. It says when it was written to the day only, and numbers what it
// says by that day (RFC 5545, sections 3.8.7.2 and 3.8.7.4), so that it stays the same
// while nothing changes.
func (c Calendar) Write() []byte {
	cal := ics.NewCalendarFor("Wellshown")
	cal.SetMethod(ics.MethodPublish)
	cal.SetXWRCalName(c.Name)
	cal.SetName(c.Name)
	cal.SetRefreshInterval("PT6H", ics.WithValue("DURATION"))
	cal.SetXPublishedTTL("PT6H")
	for _, e := range c.Events {
		c.add(cal, e)
	}
	return []byte(cal.Serialize(ics.WithNewLineWindows)) // lines end in CR LF (section 3.1)
}

func (c Calendar) add(cal *ics.Calendar, e Event) {
	out := cal.AddEvent(e.UID)
	out.SetDtStampTime(c.Stamp.UTC())
	out.SetSequence(max(c.Day.Sub(firstDay), 0))
	out.SetSummary(e.Summary)
	out.SetClass(ics.ClassificationPrivate)
	if !e.Starts.IsZero() {
		out.SetStartAt(e.Starts.UTC())
		out.SetEndAt(e.Ends.UTC())
		out.SetTimeTransparency(ics.TransparencyOpaque)
		return
	}
	last := civil.Later(e.Through, e.On)
	out.SetAllDayStartAt(e.On.In(time.UTC))
	out.SetAllDayEndAt(last.AddDays(1).In(time.UTC)) // the end is the first day after it (section 3.6.1)
	out.SetTimeTransparency(ics.TransparencyTransparent)
}
