package api

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Coverage is shifts against standings.
type Coverage struct {
	From    string         `json:"from" format:"date"`
	Through string         `json:"through" format:"date"`
	Today   string         `json:"today" format:"date" doc:"The day it is where the agency is."`
	Counts  CoverageCounts `json:"counts"`
	Items   []CoverLine    `json:"items" doc:"In order of start."`
	First   []CoverLine    `json:"first" doc:"Of each child the first that breaks."`
	Rest    int            `json:"rest_hours" doc:"Asked between two shifts of one person; 0: none."`
}

// CoverageCounts sums it up.
type CoverageCounts struct {
	Shifts  int `json:"shifts"`
	Covered int `json:"covered"`
	Breaks  int `json:"breaks"`
	Open    int `json:"open"`
	Clashes int `json:"clashes" doc:"That overlap with another shift of the same person, or leave less rest than is asked; counted as what they are besides too."`
}

// CoverLine is one shift with the answer for it.
type CoverLine struct {
	ID        string     `json:"id" doc:"A UUID; of a pattern's shift the pattern's, a dot and the day."`
	Source    string     `json:"source" enum:"single,pattern,way home" doc:"Where it comes from."`
	Client    ClientRef  `json:"client"`
	Person    *PersonRef `json:"person,omitempty" doc:"Left out: nobody is on it."`
	Kind      string     `json:"kind,omitempty" doc:"Which kind of caregiver it asks for; left out: any."`
	Starts    time.Time  `json:"starts"`
	Ends      time.Time  `json:"ends"`
	ShortRest string     `json:"short_rest,omitempty" doc:"Why there is less rest than is asked."`
	Answer    string     `json:"answer" enum:"covered,breaks,open"`
	Lacks     []Lack     `json:"lacks"`
	Clashes   []Clash    `json:"clashes"`
}

// Lack is one thing that stands in somebody's way.
type Lack struct {
	Why      string     `json:"why" doc:"In words."`
	On       string     `json:"on" format:"date" doc:"The first day of the shift on which it is so."`
	Skill    *SkillRef  `json:"skill,omitempty" doc:"What is not held."`
	Client   *ClientRef `json:"client,omitempty" doc:"For whom it is not held."`
	Standing string     `json:"standing,omitempty"`
	Asks     string     `json:"asks,omitempty" doc:"Which kind of caregiver is asked for."`
	Shift    string     `json:"shift,omitempty" doc:"The id of the other shift."`
}

// Clash is another shift of the same person that leaves no time or no rest.
type Clash struct {
	Shift   string    `json:"shift"`
	Client  ClientRef `json:"client"`
	Starts  time.Time `json:"starts"`
	Ends    time.Time `json:"ends"`
	Overlap bool      `json:"overlap"`
	Rest    int       `json:"rest_minutes"`
}

// CoverShift is one shift with who could take it.
type CoverShift struct {
	CoverLine
	Version string    `json:"version" doc:"Of the shift: the same while it is the same."`
	Over    bool      `json:"over" doc:"It has ended: nobody is put on it any more."`
	Able    []StandIn `json:"able" doc:"Those with the fewest hours that week first."`
	Not     []NotAble `json:"not_able" doc:"Everybody else, each with what stands in the way first. Where nobody is able it is the proof of it."`
}

// StandIn is somebody who could take a shift.
type StandIn struct {
	Person  PersonRef `json:"person"`
	Minutes int       `json:"minutes" doc:"On shifts already in that week, Monday through Sunday."`
}

// NotAble is somebody who cannot.
type NotAble struct {
	Person PersonRef `json:"person"`
	Lack
}

// GiveShift puts somebody on a shift.
type GiveShift struct {
	Version   string `json:"version" doc:"Of the shift as it was read."`
	Person    string `json:"person,omitempty" doc:"An id; left out: nobody."`
	ShortRest string `json:"short_rest,omitempty" enum:",nobody else could,they asked for it,handed over late,emergency" doc:"Why, where there is less rest than is asked."`
}

// GivenShift is one of several shifts to be given.
type GivenShift struct {
	Shift string `json:"shift"`
	GiveShift
}

// GivenShifts are several shifts to be given, all or none.
type GivenShifts struct {
	Shifts []GivenShift `json:"shifts" maxItems:"50"`
}

// Sharing is a proposal of who takes which of several shifts.
type Sharing struct {
	Takes []SharedShift `json:"takes"`
	None  []CoverLine   `json:"none" doc:"For which nobody is left."`
}

// SharedShift is one shift with who would take it.
type SharedShift struct {
	CoverLine
	Version string    `json:"version"`
	Takes   PersonRef `json:"takes"`
}

// RestForm sets the rest between two shifts.
type RestForm struct {
	Hours string `json:"hours" doc:"Whole hours from 1 through 24; empty: none asked." example:"8"`
}

func coverage(v office.Coverage) Coverage {
	c := v.Counts
	return Coverage{v.From.String(), v.Through.String(), v.Today.String(), CoverageCounts{c.Shifts, c.Covered, c.Breaks, c.Open, c.Clashes}, each(v.Lines, coverLine), each(v.First, coverLine), int(v.Rest / time.Hour)}
}

func coverLine(l office.CoverLine) CoverLine {
	line := CoverLine{ID: string(l.ID), Source: string(l.Source), Client: ClientRef{string(l.Client.ID), l.Client.Code, l.Client.FirstName}, Kind: string(l.Kind), Starts: l.Starts, Ends: l.Ends, ShortRest: l.ShortRest, Answer: string(l.Word),
		Lacks: each(l.Lacks, lack), Clashes: each(l.Clashes, func(c office.ShiftClash) Clash {
			return Clash{string(c.Other.ID), ClientRef{string(c.Other.Client.ID), c.Other.Client.Code, c.Other.Client.FirstName}, c.Other.Starts, c.Other.Ends, c.Overlap, int(c.Rest / time.Minute)}
		})}
	if l.Person.ID != "" {
		p := personRef(l.Person)
		line.Person = &p
	}
	return line
}

func lack(k office.Lack) Lack {
	l := Lack{Why: string(k.Why), On: k.On.String(), Client: clientRef(k.With), Standing: string(k.Word), Asks: string(k.Asks), Shift: string(k.Other.ID)}
	if k.Why == assessment.NotHeld {
		s := skillRef(k.Skill)
		l.Skill = &s
	}
	return l
}

func coverShift(d office.ShiftDesk) CoverShift {
	return CoverShift{coverLine(d.CoverLine), d.Version, d.Over,
		each(d.Able, func(a office.StandInView) StandIn { return StandIn{personRef(a.Person), int(a.Hours / time.Minute)} }),
		each(d.Not, func(n office.NotAbleView) NotAble { return NotAble{personRef(n.Person), lack(n.Lack)} })}
}
