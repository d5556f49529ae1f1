package assessment_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

func zoneNamed(name string) *time.Location {
	zone, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return zone
}

var newYork = zoneNamed("America/New_York")

// onClock reads a day and a time of New York's clocks.
func onClock(s string) time.Time {
	t, err := time.ParseInLocation("2006-01-02 15:04", s, newYork)
	if err != nil {
		panic(err)
	}
	return t
}

func shiftAt(id, client, person, from, until string) assessment.Shift {
	return assessment.Shift{ID: assessment.ShiftID(id), Client: assessment.ClientID(client), Person: assessment.PersonID(person), Starts: onClock(from), Ends: onClock(until)}
}

func inWords(days []civil.Date) string {
	var all []string
	for _, d := range days {
		all = append(all, d.String())
	}
	return strings.Join(all, " ")
}

// TestDaysAShiftTouches: a day is [midnight, midnight) in the agency's zone; the changes
// of clocks are of the IANA time zone database.
func TestDaysAShiftTouches(t *testing.T) {
	for _, c := range []struct{ from, until, days string }{
		{"2026-06-10 07:00", "2026-06-10 19:00", "2026-06-10"},
		{"2026-06-10 19:00", "2026-06-11 07:00", "2026-06-10 2026-06-11"},
		{"2026-06-10 12:00", "2026-06-11 00:00", "2026-06-10"},
		{"2026-06-10 12:00", "2026-06-11 00:01", "2026-06-10 2026-06-11"},
		{"2026-06-11 00:00", "2026-06-12 00:00", "2026-06-11"},
		{"2026-03-08 00:00", "2026-03-09 00:00", "2026-03-08"},
		{"2026-11-01 00:00", "2026-11-02 00:00", "2026-11-01"},
		{"2026-10-31 19:00", "2026-11-01 07:00", "2026-10-31 2026-11-01"},
		{"2026-06-10 12:00", "2026-06-10 12:00", "2026-06-10"}, // no length: looked at all the same
		{"2026-06-10 00:00", "2026-06-10 00:00", "2026-06-10"},
		{"2026-06-10 12:00", "2026-06-13 01:00", "2026-06-10 2026-06-11 2026-06-12 2026-06-13"},
	} {
		if got := inWords(shiftAt("s", "c", "p", c.from, c.until).Days(newYork)); got != c.days {
			t.Errorf("%s until %s touches %s, not %s", c.from, c.until, got, c.days)
		}
	}
	apia := zoneNamed("Pacific/Apia") // never had 30 December 2011
	s := assessment.Shift{Starts: civil.MustParse("2011-12-29").At(20*60, apia), Ends: civil.MustParse("2011-12-31").At(8*60, apia)}
	if got := inWords(s.Days(apia)); got != "2011-12-29 2011-12-31" || s.Length() != 12*time.Hour {
		t.Errorf("a night in Apia touches %s and lasts %s", got, s.Length())
	}
	london := zoneNamed("Europe/London") // one instant, two zones, two days
	if s := shiftAt("s", "c", "p", "2026-06-10 18:00", "2026-06-10 20:00"); inWords(s.Days(london)) != "2026-06-10 2026-06-11" {
		t.Error("days are not those of the zone that was asked for")
	}
}

// TestRestIsTimeThatPasses: the night in which clocks go back has an hour more than its
// clock times say, the one in which they go forward an hour less.
func TestRestIsTimeThatPasses(t *testing.T) {
	for _, c := range []struct {
		ends, starts string
		rest         time.Duration
	}{
		{"2026-06-10 23:00", "2026-06-11 07:00", 8 * time.Hour},
		{"2026-10-31 23:00", "2026-11-01 07:00", 9 * time.Hour},
		{"2026-03-07 23:00", "2026-03-08 07:00", 7 * time.Hour},
	} {
		a, b := shiftAt("a", "c", "p", c.ends[:11]+"15:00", c.ends), shiftAt("b", "c", "p", c.starts, c.starts[:11]+"15:00")
		if a.Rest(b) != c.rest || b.Rest(a) != c.rest {
			t.Errorf("from %s until %s somebody rests %s or %s, not %s", c.ends, c.starts, a.Rest(b), b.Rest(a), c.rest)
		}
	}
}

// TestShiftsThatMeetDoNotOverlap: an end is no part of the shift.
func TestShiftsThatMeetDoNotOverlap(t *testing.T) {
	day, night := shiftAt("a", "c", "p", "2026-06-10 07:00", "2026-06-10 19:00"), shiftAt("b", "c", "p", "2026-06-10 19:00", "2026-06-11 07:00")
	if day.Overlaps(night) || night.Overlaps(day) {
		t.Error("they meet, and are said to overlap")
	}
	night.Starts = night.Starts.Add(-time.Nanosecond)
	if !day.Overlaps(night) || !night.Overlaps(day) {
		t.Error("they overlap, and are said not to")
	}
}

func TestClashes(t *testing.T) {
	shifts := []assessment.Shift{
		shiftAt("night", "a", "p", "2026-06-10 19:00", "2026-06-11 07:00"),
		shiftAt("noon", "b", "p", "2026-06-11 07:00", "2026-06-11 12:00"), // meets it
		shiftAt("within", "b", "p", "2026-06-10 20:00", "2026-06-10 21:00"),
		shiftAt("rested", "a", "p", "2026-06-11 20:00", "2026-06-11 22:00"),
		shiftAt("other", "a", "q", "2026-06-10 19:00", "2026-06-11 07:00"),
		shiftAt("open", "a", "", "2026-06-10 19:00", "2026-06-11 07:00"),
		shiftAt("open too", "b", "", "2026-06-10 19:00", "2026-06-11 07:00"),
	}
	told := func(rest time.Duration) string {
		var all []string
		for _, c := range assessment.Clashes(shifts, rest) {
			words := string(c.First.ID + "/" + c.Second.ID + " " + assessment.ShiftID(c.Rest.String()))
			if c.Overlap {
				words += " both"
			}
			all = append(all, words)
		}
		return strings.Join(all, ", ")
	}
	for rest, want := range map[time.Duration]string{
		0:                          "night/within 0s both",
		time.Minute:                "night/within 0s both, night/noon 0s",
		8 * time.Hour:              "night/within 0s both, night/noon 0s",
		8*time.Hour + time.Minute:  "night/within 0s both, night/noon 0s, noon/rested 8h0m0s",
		-time.Hour:                 "night/within 0s both",
		10*time.Hour + time.Second: "night/within 0s both, night/noon 0s, within/noon 10h0m0s, noon/rested 8h0m0s",
	} {
		if got := told(rest); got != want {
			t.Errorf("with %s of rest: %q, not %q", rest, got, want)
		}
	}
}

func TestShiftsThatNobodyCouldWork(t *testing.T) {
	for _, c := range []struct{ client, from, until string }{
		{"", "2026-06-10 07:00", "2026-06-10 15:00"},
		{"c", "2026-06-10 07:00", "2026-06-10 07:00"},
		{"c", "2026-06-10 07:00", "2026-06-09 15:00"},
		{"c", "2026-06-10 07:00", "2027-06-10 15:00"},
	} {
		if shiftAt("s", c.client, "p", c.from, c.until).Check() == nil {
			t.Errorf("%v was let through", c)
		}
	}
	if err := shiftAt("s", "c", "", "2026-11-01 00:00", "2026-11-02 00:00").Check(); err != nil {
		t.Errorf("the day that has 25 hours: %v", err)
	}
}
