package assessment

import (
	"time"

	"wellshown/assessment/civil"
)

// Hand is somebody who can be on a shift.
type Hand struct {
	Person PersonID
	Name   string
	Kind   CaregiverKind // empty: they are nobody's caregiver and cover nothing
	Left   civil.Date    // the first day on which they are no longer here; zero: they are
}

// CoverWord is the answer for a shift in one word.
type CoverWord string

// The three answers.
const (
	Covered CoverWord = "covered"
	Breaks  CoverWord = "breaks"
	OpenYet CoverWord = "open"
)

// Hindrance says why somebody does not cover a shift or cannot take it.
type Hindrance string

// What can stand in the way. The first six break a shift that somebody is on; the
// others stand in the way of whoever might take it.
const (
	NotKnown     Hindrance = "not known here"
	NoCaregiver  Hindrance = "is no caregiver"
	OtherKind    Hindrance = "is another kind of caregiver"
	HasLeft      Hindrance = "has left"
	NothingAsked Hindrance = "nothing is required of them yet"
	NotHeld      Hindrance = "does not hold a skill"
	OnIt         Hindrance = "is on this shift"
	OnAnother    Hindrance = "is on another shift at the time"
	TooSoon      Hindrance = "would have too little rest"
)

// Obstacle is one thing in the way, with what it rests on.
type Obstacle struct {
	Why   Hindrance
	On    civil.Date    // the first day of the shift on which it is so
	Need  Need          // for NotHeld: what
	Word  StandingWord  // for NotHeld: how they stand in it on that day
	Asks  CaregiverKind // for OtherKind: which is asked for
	Other Shift         // for OnAnother and TooSoon: which
	Rest  time.Duration // for TooSoon: how long would lie between
}

// ShiftCover is the answer for one shift. Obstacles is empty unless it breaks.
type ShiftCover struct {
	Shift     Shift
	Word      CoverWord
	Obstacles []Obstacle
}

// Grounds is what coverage is judged by.
type Grounds struct {
	Zone   *time.Location
	Hands  []Hand // everybody who could be on a shift
	Needs  func(on civil.Date, kind CaregiverKind, client ClientID) []Need
	Stands func(p PersonID, n Need, on civil.Date) Segment
	Rest   time.Duration // at least this long between two shifts of one person, as time passes
}

// Coverage judges shifts by one set of grounds. It is for one goroutine at a time where
// its Needs is (see Demands).
type Coverage struct {
	Grounds
	hands  map[PersonID]Hand
	booked map[PersonID][]Shift // in order
}

// NewCoverage takes the grounds and all shifts on which somebody may be: those of
// patterns and of ways home too, a week and more either side of what is asked about.
func NewCoverage(g Grounds, shifts []Shift) *Coverage {
	c := &Coverage{Grounds: g, hands: make(map[PersonID]Hand, len(g.Hands)), booked: byPerson(shifts)}
	for _, h := range g.Hands {
		c.hands[h.Person] = h
	}
	return c
}

// Of answers for one shift, whether it was among all shifts or not: covered only where
// whoever is on it is here, is of the kind it asks for, and holds all that is required of their kind for the child on
// each civil day it touches, and something is required. Due holds; waived does not.
func (c *Coverage) Of(s Shift) ShiftCover {
	answer := ShiftCover{Shift: s, Word: Covered}
	if s.Open() {
		answer.Word = OpenYet
		return answer
	}
	h, known := c.hands[s.Person]
	if !known {
		answer.Obstacles = []Obstacle{{Why: NotKnown, On: s.firstDay(c.Zone)}}
	} else {
		answer.Obstacles = c.lacking(h, s, s.Kind, false)
	}
	if len(answer.Obstacles) > 0 {
		answer.Word = Breaks
	}
	return answer
}

// All answers for shifts in the order in which they are given.
func (c *Coverage) All(shifts []Shift) []ShiftCover {
	all := make([]ShiftCover, len(shifts))
	for i, s := range shifts {
		all[i] = c.Of(s)
	}
	return all
}

// FirstBreaks finds each client's first shift that breaks: the one that starts first, and
// of two that start together the one that ends first. Open shifts break nothing.
func FirstBreaks(answers []ShiftCover) map[ClientID]ShiftCover {
	first := map[ClientID]ShiftCover{}
	for _, a := range answers {
		if a.Word != Breaks {
			continue
		}
		if f, known := first[a.Shift.Client]; !known || inOrder(a.Shift, f.Shift) < 0 {
			first[a.Shift.Client] = a
		}
	}
	return first
}

// lacking lists what keeps somebody from covering a shift that asks for a kind, each
// once, on its first day; only the first of them where one is enough.
func (c *Coverage) lacking(h Hand, s Shift, kind CaregiverKind, one bool) []Obstacle {
	first, last := s.firstDay(c.Zone), s.lastDay(c.Zone)
	if h.Kind == "" {
		return []Obstacle{{Why: NoCaregiver, On: first}}
	}
	var found []Obstacle
	if kind != "" && h.Kind != kind {
		found = []Obstacle{{Why: OtherKind, On: first, Asks: kind}}
		if one {
			return found
		}
	}
	days := []civil.Date{first}
	if last != first {
		days = s.Days(c.Zone)
	}
	for _, day := range days {
		found = c.lackingOn(day, h, s, found)
		if one && len(found) > 0 {
			return found[:1]
		}
	}
	return found
}

// lackingOn adds what is lacking on a day and was not on the days before.
func (c *Coverage) lackingOn(day civil.Date, h Hand, s Shift, found []Obstacle) []Obstacle {
	if !h.Left.IsZero() && !day.Before(h.Left) {
		found = addOnce(found, Obstacle{Why: HasLeft, On: day})
	}
	needs := c.Needs(day, h.Kind, s.Client)
	if len(needs)+len(s.Also) == 0 {
		return addOnce(found, Obstacle{Why: NothingAsked, On: day})
	}
	for _, asked := range [2][]Need{needs, s.Also} {
		for _, n := range asked {
			if w := c.Stands(h.Person, n, day).Word; !w.Holds() {
				found = addOnce(found, Obstacle{Why: NotHeld, On: day, Need: n, Word: w})
			}
		}
	}
	return found
}

func addOnce(found []Obstacle, o Obstacle) []Obstacle {
	for _, f := range found {
		if f.Why == o.Why && f.Need == o.Need {
			return found
		}
	}
	return append(found, o)
}
