package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// Pattern is a shift that comes again each week, at times of the agency's clocks.
type Pattern struct {
	ID       PatternID
	Client   ClientID
	Person   PersonID      // empty: open shifts
	Kind     CaregiverKind // what its shifts ask for; empty: any kind
	Weekdays []time.Weekday
	From     civil.Clock
	Until    civil.Clock // earlier than From or equal: on the next day
	FromOn   civil.Date  // the first day on which a shift may begin
	Through  civil.Date  // the last one; zero: until further notice
}

// PatternException says how it is on one day of a pattern: no shift at all, or one with
// this person and these times instead. On a day that the pattern has no shift it says
// nothing. Its times are its own: they stay when the pattern changes.
type PatternException struct {
	Pattern PatternID
	On      civil.Date // the day on which the pattern's shift would begin
	LeftOut bool
	Person  PersonID // whoever takes it; empty: it is open
	From    civil.Clock
	Until   civil.Clock // as in Pattern
}

// Check refuses a pattern that would never have a shift. The fault has a field for each.
func (p Pattern) Check() error {
	var f fault.Fields
	if p.Client == "" {
		f.Add("client", "Choose whose shifts they are.")
	}
	if len(p.Weekdays) == 0 {
		f.Add("weekdays", "Choose at least one day of the week.")
	}
	switch {
	case p.FromOn.IsZero():
		f.Add("from_on", "Give the first day.")
	case !p.Through.IsZero() && p.Through.Before(p.FromOn):
		f.Add("through_on", "The last day is before the first.")
	}
	return f.Err()
}

// ShiftID is the id of the pattern's shift that begins on a day: the same however often
// it is asked for, and for no other pattern or day.
func (p Pattern) ShiftID(on civil.Date) ShiftID { return ShiftID(string(p.ID) + "." + on.String()) }

// FallsOn reports whether the pattern has a shift that begins on a day, exceptions apart.
func (p Pattern) FallsOn(d civil.Date) bool {
	return within(d, p.FromOn, p.Through) && slices.Contains(p.Weekdays, d.Weekday())
}

// On is the pattern's shift that begins on a day, and false where there is none. Times
// that clocks skip or show twice are read as civil.Date.At reads them, both ends alike:
// who hands over at such a time and who takes over meet at one instant. Where that leaves
// no time at all (from 02:30 until 03:00 in the night that clocks skip 02:00 to 03:00) the
// shift lasts as long as its clock times say: it is never lost.
func (p Pattern) On(d civil.Date, zone *time.Location, e *PatternException) (Shift, bool) {
	if !p.FallsOn(d) || e != nil && e.LeftOut {
		return Shift{}, false
	}
	person, from, until := p.Person, p.From, p.Until
	if e != nil {
		person, from, until = e.Person, e.From, e.Until
	}
	s := Shift{ID: p.ShiftID(d), Client: p.Client, Person: person, Kind: p.Kind, Starts: d.At(from, zone)}
	last, minutes := d, until-from
	if until <= from {
		last, minutes = d.AddDays(1), minutes+24*60
	}
	s.Ends = last.At(until, zone)
	if !s.Ends.After(s.Starts) {
		s.Ends = s.Starts.Add(time.Duration(minutes) * time.Minute)
	}
	return s, true
}

// PatternShifts are the shifts of patterns that touch a day from one through another, in
// order of start: that of the night before too, where it ends after midnight. Of two
// exceptions for one day the later in the list stands.
func PatternShifts(patterns []Pattern, exceptions []PatternException, from, through civil.Date, zone *time.Location) []Shift {
	type day struct {
		pattern PatternID
		on      civil.Date
	}
	except := map[day]*PatternException{}
	for i, e := range exceptions {
		except[day{e.Pattern, e.On}] = &exceptions[i]
	}
	var shifts []Shift
	for _, p := range patterns {
		first, last := civil.Later(from.AddDays(-1), p.FromOn), through
		if !p.Through.IsZero() {
			last = civil.Earlier(last, p.Through)
		}
		for i := range last.Sub(first) + 1 {
			d := first.AddDays(i)
			s, ok := p.On(d, zone, except[day{p.ID, d}])
			if ok && !s.lastDay(zone).Before(from) && !s.firstDay(zone).After(through) {
				shifts = append(shifts, s)
			}
		}
	}
	slices.SortFunc(shifts, inOrder)
	return shifts
}
