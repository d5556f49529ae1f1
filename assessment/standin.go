package assessment

import (
	"cmp"
	"slices"
	"time"
)

// StandIn is somebody who could take a shift.
type StandIn struct {
	Hand
	Hours time.Duration // on shifts already in the week in which the shift starts, Monday through Sunday (ISO 8601)
}

// Refused is somebody who cannot take a shift, with the first reason.
type Refused struct {
	Hand
	Obstacle
}

// StandIns tells of everybody but whoever is on it whether they could take a shift. Who
// could has left nobody waiting: they are here, are of the kind that is asked for (of the
// kind of whoever is on it, where the shift asks for none), hold all that is required of
// their kind on each day it touches, are on no other shift then, and have the rest that is
// asked before and after. They come by fewest hours that week, then by name. The others
// come by name, each with what stands in the way first: no caregiver, another
// kind, gone, nothing required, a skill, another shift, rest. Where nobody could, they are the proof of it.
func (c *Coverage) StandIns(s Shift) ([]StandIn, []Refused) {
	var able []StandIn
	var not []Refused
	week := c.weekOf(s)
	for _, h := range c.Hands {
		if o, hindered := c.hindrance(h, s); hindered {
			not = append(not, Refused{h, o})
			continue
		}
		able = append(able, StandIn{Hand: h, Hours: c.hours(h.Person, week)})
	}
	slices.SortFunc(able, func(a, b StandIn) int { return cmp.Or(cmp.Compare(a.Hours, b.Hours), byName(a.Hand, b.Hand)) })
	slices.SortFunc(not, func(a, b Refused) int { return byName(a.Hand, b.Hand) })
	return able, not
}

func byName(a, b Hand) int {
	return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Person, b.Person))
}

// hindrance is the first reason why somebody cannot take a shift.
func (c *Coverage) hindrance(h Hand, s Shift) (Obstacle, bool) {
	first := s.firstDay(c.Zone)
	if h.Person == s.Person {
		return Obstacle{Why: OnIt, On: first}, true
	}
	if lacks := c.lacking(h, s, c.asks(s), true); len(lacks) > 0 {
		return lacks[0], true
	}
	var soon *Shift
	for i, other := range c.booked[h.Person] {
		switch {
		case other.ID == s.ID:
		case other.Overlaps(s):
			return Obstacle{Why: OnAnother, On: first, Other: other}, true
		case other.Rest(s) < c.Rest && (soon == nil || other.Rest(s) < soon.Rest(s)):
			soon = &c.booked[h.Person][i]
		}
	}
	if soon != nil {
		return Obstacle{Why: TooSoon, On: first, Other: *soon, Rest: soon.Rest(s)}, true
	}
	return Obstacle{}, false
}

// asks is the kind that whoever takes a shift must be: an aide never stands in for a
// nurse because the shift did not say so. Empty for an open one that asks for none.
func (c *Coverage) asks(s Shift) CaregiverKind {
	if s.Kind != "" || s.Open() {
		return s.Kind
	}
	return c.hands[s.Person].Kind
}

// weekOf is the week of the day on which a shift starts, from its first instant until
// the first of the next.
func (c *Coverage) weekOf(s Shift) Shift {
	day := s.firstDay(c.Zone)
	monday := day.AddDays(-(int(day.Weekday()) + 6) % 7)
	return Shift{Starts: monday.In(c.Zone), Ends: monday.AddDays(7).In(c.Zone)}
}

// hours is how long somebody is on shifts within a week; a shift that reaches out of it
// counts as far as it lies within. What overlaps counts twice.
func (c *Coverage) hours(p PersonID, week Shift) time.Duration {
	var sum time.Duration
	for _, s := range c.booked[p] {
		if s.Overlaps(week) {
			sum += earliest(s.Ends, week.Ends).Sub(latest(s.Starts, week.Starts))
		}
	}
	return sum
}

func latest(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// Shared is one person for each of several shifts that nobody covers, for as many of
// them as can be.
type Shared struct {
	Takes map[ShiftID]Hand
	None  []Shift // for which nobody is left
}

// ShareOut fills several shifts at once, each by another person: as many as can be
// filled so, and then by people with the fewest hours that week, taken together. It is
// the least-cost assignment, and exact; that somebody could take two of them is not
// looked at.
func (c *Coverage) ShareOut(shifts []Shift) Shared {
	hands := slices.Clone(c.Hands)
	slices.SortFunc(hands, byName)
	whole := int(31 * 24 * time.Hour / time.Minute) // more than anybody works in a week, were every shift doubled four times
	none := whole*len(shifts) + whole
	cost := make([][]int, len(shifts))
	for i, s := range shifts {
		week := c.weekOf(s)
		cost[i] = make([]int, len(hands)+len(shifts))
		for j := range cost[i] {
			cost[i][j] = none // beyond the people: left to nobody
			if j < len(hands) {
				cost[i][j] = none * (len(shifts) + 1)
				if _, hindered := c.hindrance(hands[j], s); !hindered {
					cost[i][j] = min(int(c.hours(hands[j].Person, week)/time.Minute), whole)
				}
			}
		}
	}
	columns, _ := AssignLeast(cost)
	shared := Shared{Takes: map[ShiftID]Hand{}}
	for i, j := range columns {
		if j < len(hands) {
			shared.Takes[shifts[i].ID] = hands[j]
		} else {
			shared.None = append(shared.None, shifts[i])
		}
	}
	return shared
}
