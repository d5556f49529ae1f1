package assessment

import (
	"cmp"
	"slices"
	"time"

	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// Shift is one stretch of time at a client's home that somebody is to look after them.
type Shift struct {
	ID     ShiftID
	Client ClientID
	Person PersonID      // who is on it; empty: an open shift
	Kind   CaregiverKind // what it asks whoever is on it to be; empty: any kind
	Starts time.Time
	Ends   time.Time // after Starts; the instant itself is no part of the shift
	Also   []Need    // what must be held for it besides what is required; nil for most
}

// LongestShift is 24 hours by the clock, 25 where clocks go back; common practice, no
// source. It catches a mistyped day.
const LongestShift = 25 * time.Hour

// Check refuses a shift that no one could work: without a client, without length, or
// longer than a day. The fault has a field for each.
func (s Shift) Check() error {
	var f fault.Fields
	if s.Client == "" {
		f.Add("client", "Choose whose shift it is.")
	}
	switch {
	case !s.Ends.After(s.Starts):
		f.Add("ends", "The shift ends before it starts.")
	case s.Length() > LongestShift:
		f.Add("ends", "This shift is longer than 24 hours. Check the days, or plan it as several.")
	}
	return f.Err()
}

// Open reports whether nobody is on the shift.
func (s Shift) Open() bool { return s.Person == "" }

// Length is how long the shift lasts, as time passes: a night in which clocks go back
// lasts an hour longer than its clock times say.
func (s Shift) Length() time.Duration { return s.Ends.Sub(s.Starts) }

// Days are the civil days in zone that the shift touches, in order. A shift that ends
// at midnight does not touch the day that begins then. What has no length touches the
// day on which it starts, so that it is looked at all the same.
func (s Shift) Days(zone *time.Location) []civil.Date {
	first, last := s.firstDay(zone), s.lastDay(zone)
	days := []civil.Date{first}
	for range max(last.Sub(first), 0) {
		day := days[len(days)-1].AddDays(1)
		days = append(days, day)
	}
	return slices.DeleteFunc(days, func(d civil.Date) bool {
		return d.After(first) && d.Before(last) && civil.DayOf(d.In(zone), zone) != d // a day that the zone never had
	})
}

func (s Shift) firstDay(zone *time.Location) civil.Date { return civil.DayOf(s.Starts, zone) }

func (s Shift) lastDay(zone *time.Location) civil.Date {
	return civil.DayOf(s.Ends.Add(-time.Nanosecond), zone)
}

// Overlaps reports whether two shifts have an instant in common. One that begins when
// the other ends does not.
func (s Shift) Overlaps(t Shift) bool { return s.Starts.Before(t.Ends) && t.Starts.Before(s.Ends) }

// Rest is how long lies between two shifts, as time passes and not by the clock; 0 where
// they overlap or meet.
func (s Shift) Rest(t Shift) time.Duration {
	return max(s.Starts.Sub(t.Ends), t.Starts.Sub(s.Ends), 0)
}

// Clash is two shifts of one person of which they cannot work both as planned.
type Clash struct {
	First, Second Shift // in order of start
	Rest          time.Duration
	Overlap       bool // both at once; else the rest between them is too short
}

// Clashes finds each two shifts of one person that overlap or leave less rest between
// them than asked. Two that meet leave none. Open shifts clash with nothing. The answer
// is in order of the first shift's start, then of the second's.
func Clashes(shifts []Shift, rest time.Duration) []Clash {
	var all []Clash
	for _, own := range byPerson(shifts) {
		for i, a := range own {
			for _, b := range own[i+1:] {
				if b.Starts.Sub(a.Ends) >= max(rest, 0) {
					break // in order of start: none after it is nearer
				}
				all = append(all, Clash{First: a, Second: b, Rest: a.Rest(b), Overlap: a.Overlaps(b)})
			}
		}
	}
	slices.SortFunc(all, func(a, b Clash) int { return cmp.Or(inOrder(a.First, b.First), inOrder(a.Second, b.Second)) })
	return all
}

// byPerson lists each person's shifts in order.
func byPerson(shifts []Shift) map[PersonID][]Shift {
	own := map[PersonID][]Shift{}
	for _, s := range shifts {
		if !s.Open() {
			own[s.Person] = append(own[s.Person], s)
		}
	}
	for _, mine := range own {
		slices.SortFunc(mine, inOrder)
	}
	return own
}

// inOrder puts shifts in order of start, then end, then id.
func inOrder(a, b Shift) int {
	return cmp.Or(a.Starts.Compare(b.Starts), a.Ends.Compare(b.Ends), cmp.Compare(a.ID, b.ID))
}
