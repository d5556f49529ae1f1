package assessment

import (
	"time"

	"wellshown/assessment/civil"
)

// In-service training of home health aides, 42 CFR 484.80(d): at least 12 hours in each period
// of 12 months (from memory; 12 hours a year as restated by New York's Department of Health).
// The agency chooses whether the 12 months are the calendar year or begin with the day of hire,
// and writes it in its policy. It is one of the rules that an agency may use for its aides.

// InServiceYear is how the 12 months run.
type InServiceYear string

// The two choices.
const (
	CalendarYear          InServiceYear = "calendar year"
	EmploymentAnniversary InServiceYear = "employment anniversary"
)

// InServiceYears lists the choices.
var InServiceYears = []InServiceYear{EmploymentAnniversary, CalendarYear}

// InServiceMinutes is what is asked for in 12 months unless an agency asks for more or less.
const InServiceMinutes = 12 * 60

// InServiceRule is what an agency's policy says.
type InServiceRule struct {
	Year        InServiceYear
	Minutes     int  // asked for in 12 months
	Orientation bool // hours of orientation count: in New York they do not
}

// InServiceSession is training that somebody took part in.
type InServiceSession struct {
	On          civil.Date
	Minutes     int
	Counts      bool // toward in-service
	Orientation bool
}

// InService is how far somebody is in one period of 12 months.
type InService struct {
	From    civil.Date
	Through civil.Date
	Minutes int // that count
	Short   int // minutes that are missing; 0: it is met
}

// Window is the period of 12 months that holds a day. The duty begins with the hire: none
// before it, and for the anniversary none without it. Each period is worked out from the day of
// hire, not from the one before, so that 29 February does not drift.
func (y InServiceYear) Window(hired, on civil.Date) (from, through civil.Date, ok bool) {
	if !hired.IsZero() && on.Before(hired) {
		return from, through, false
	}
	if y == CalendarYear {
		year, _, _ := on.Civil()
		return civil.Of(year, time.January, 1), civil.Of(year, time.December, 31), true
	}
	if hired.IsZero() {
		return from, through, false
	}
	n := 0
	for !hired.AddMonths(12 * (n + 1)).After(on) {
		n++
	}
	return hired.AddMonths(12 * n), hired.AddMonths(12 * (n + 1)).AddDays(-1), true
}

// InService answers for the period that holds a day, from the sessions that are known. It
// answers false where there is none. Sessions before the hire count for nothing.
func (r InServiceRule) InService(hired, on civil.Date, sessions []InServiceSession) (InService, bool) {
	from, through, ok := r.Year.Window(hired, on)
	if !ok {
		return InService{}, false
	}
	s := InService{From: from, Through: through}
	for _, one := range sessions {
		within := !one.On.Before(civil.Later(from, hired)) && !one.On.After(through)
		if within && one.Counts && (r.Orientation || !one.Orientation) {
			s.Minutes += one.Minutes
		}
	}
	s.Short = max(0, r.Minutes-s.Minutes)
	return s, true
}
