package api

import (
	"time"

	"wellshown/assessment/office"
)

// ClientRoster is a child's weekly patterns and coming shifts.
type ClientRoster struct {
	Client   ClientRef `json:"client"`
	Patterns []Pattern `json:"patterns" doc:"Those that go on or are to come."`
	Coverage Coverage  `json:"coverage" doc:"Of the next 14 days."`
}

// Pattern is a shift that comes again each week.
type Pattern struct {
	ID        string       `json:"id" format:"uuid"`
	Version   string       `json:"version"`
	Person    *PersonRef   `json:"person,omitempty"`
	Kind      string       `json:"kind,omitempty"`
	Weekdays  []int        `json:"weekdays" doc:"On which it begins: 1 is Monday, 7 is Sunday."`
	From      string       `json:"from" doc:"HH:MM on the agency's clocks." example:"19:00"`
	Until     string       `json:"until" doc:"HH:MM; not after from: on the next day." example:"07:00"`
	FromOn    string       `json:"from_on" format:"date"`
	ThroughOn string       `json:"through_on,omitempty" format:"date" doc:"Left out: until further notice."`
	ShortRest string       `json:"short_rest,omitempty"`
	Days      []PatternDay `json:"days" doc:"To come, on which it is otherwise."`
}

// PatternDay is one day of a pattern on which it is otherwise.
type PatternDay struct {
	On        string     `json:"on" format:"date"`
	LeftOut   bool       `json:"left_out"`
	Person    *PersonRef `json:"person,omitempty"`
	From      string     `json:"from"`
	Until     string     `json:"until"`
	ShortRest string     `json:"short_rest,omitempty"`
}

// PatternForm is a weekly pattern as it is to be.
type PatternForm struct {
	ID        string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice adds one; of no meaning when changing."`
	Version   string `json:"version,omitempty" doc:"When changing: of the pattern as it was read."`
	Person    string `json:"person,omitempty" doc:"An id; left out: open shifts."`
	Kind      string `json:"kind,omitempty" enum:",family,nurse,aide"`
	Weekdays  []int  `json:"weekdays" maxItems:"7"`
	From      string `json:"from"`
	Until     string `json:"until"`
	FromOn    string `json:"from_on,omitempty" doc:"The first day: today or later. Of one that has begun it is today."`
	ThroughOn string `json:"through_on,omitempty"`
	ShortRest string `json:"short_rest,omitempty"`
}

// PatternDayForm says how it is on one day.
type PatternDayForm struct {
	Version   string `json:"version" doc:"Of the pattern as it was read."`
	On        string `json:"on" format:"date"`
	LeftOut   bool   `json:"left_out,omitempty"`
	Person    string `json:"person,omitempty"`
	From      string `json:"from,omitempty"`
	Until     string `json:"until,omitempty"`
	ShortRest string `json:"short_rest,omitempty"`
}

// ThatDay names a day.
type ThatDay struct {
	On string `json:"on" format:"date"`
}

// ReadVersion says what was read.
type ReadVersion struct {
	Version string `json:"version"`
}

// RosterShiftForm is a single shift as it is to be.
type RosterShiftForm struct {
	ID        string    `json:"id,omitempty" doc:"A UUID of your own, so that sending twice adds one; of no meaning when changing."`
	Version   string    `json:"version,omitempty" doc:"When changing: of the shift as it was read."`
	Person    string    `json:"person,omitempty" doc:"An id; left out: an open shift."`
	Kind      string    `json:"kind,omitempty" enum:",family,nurse,aide" doc:"Which kind of caregiver it asks for."`
	Starts    time.Time `json:"starts"`
	Ends      time.Time `json:"ends" doc:"At most 24 hours later."`
	ShortRest string    `json:"short_rest,omitempty"`
}

// OnRoster is the id of what is on the roster.
type OnRoster struct {
	ID string `json:"id"`
}

func clientRoster(v office.ClientRoster) ClientRoster {
	return ClientRoster{ClientRef{string(v.Client.ID), v.Client.Code, v.Client.FirstName}, each(v.Patterns, pattern), coverage(v.Coverage)}
}

func pattern(p office.PatternView) Pattern {
	return Pattern{string(p.ID), p.Version, maybePerson(p.Person), string(p.Kind), p.Weekdays, p.From.String(), p.Until.String(), p.FromOn.String(), p.ThroughOn.String(), p.ShortRest,
		each(p.Exceptions, func(d office.PatternDayView) PatternDay {
			return PatternDay{d.On.String(), d.LeftOut, maybePerson(d.Person), d.From.String(), d.Until.String(), d.ShortRest}
		})}
}

func maybePerson(p office.PersonRef) *PersonRef {
	if p.ID == "" {
		return nil
	}
	ref := personRef(p)
	return &ref
}
