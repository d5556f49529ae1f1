package assessment_test

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

func clock(s string) civil.Clock {
	c, err := civil.ParseClock(s)
	if err != nil {
		panic(err)
	}
	return c
}

var everyDay = []time.Weekday{0, 1, 2, 3, 4, 5, 6}

func daily(from, until string) assessment.Pattern {
	return assessment.Pattern{ID: "p", Client: "c", Person: "a", Weekdays: everyDay, From: clock(from), Until: clock(until), FromOn: civil.MustParse("2004-01-01")}
}

var (
	zoned = regexp.MustCompile(`timestamptz '(\S+) (\d\d:\d\d)(?::00)?([+-]\d\d)?(?::?00)?'`)
)

// TestPatternsKeepToTheClock: a day later by the clock is what a pattern does, 24 hours
// later is not; each row was printed by PostgreSQL 15.18 (testdata/planning/dst.csv).
func TestPatternsKeepToTheClock(t *testing.T) {
	f, err := os.Open("testdata/planning/dst.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment, r.LazyQuotes = '#', true
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 12 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		if got := clockRow(t, zoneNamed(row[0]), row[1]); got != row[2] {
			t.Errorf("%v: got %s", row, got)
		}
	}
}

// clockRow works a row of the table out with shifts.
func clockRow(t *testing.T, zone *time.Location, asked string) string {
	t.Helper()
	m := zoned.FindAllStringSubmatch(asked, -1)
	on := func(day string, c civil.Clock) assessment.Shift {
		p := daily(c.String(), c.String())
		s, ok := p.On(civil.MustParse(day), zone, nil)
		if !ok {
			t.Fatalf("no shift on %s", day)
		}
		return s
	}
	pg := func(at time.Time) string { return at.In(zone).Format("2006-01-02 15:04:05-07") }
	switch {
	case strings.HasSuffix(asked, "::date"):
		at, err := time.Parse("2006-01-02 15:04-07", m[0][1]+" "+m[0][2]+m[0][3])
		if err != nil {
			t.Fatal(err)
		}
		return inWords(assessment.Shift{Starts: at, Ends: at.Add(time.Minute)}.Days(zone))
	case strings.HasSuffix(asked, "interval '1 day'"):
		return pg(on(m[0][1], clock(m[0][2])).Ends)
	case strings.HasSuffix(asked, "interval '24 hours'"):
		return pg(on(m[0][1], clock(m[0][2])).Starts.Add(24 * time.Hour))
	case strings.HasSuffix(asked, "interval '1 month'"):
		return pg(on(civil.MustParse(m[0][1]).AddMonths(1).String(), clock(m[0][2])).Starts)
	case len(m) == 2:
		from := on(m[1][1], clock(m[1][2])) // until the same time the day after
		if d := civil.MustParse(m[0][1]); from.Ends != d.At(clock(m[0][2]), zone) {
			t.Errorf("%s: ends at %s", asked, from.Ends)
		}
		hours := int(from.Length().Hours())
		return fmt.Sprintf("%d day %02d:00:00", hours/24, hours%24)
	default:
		var a, b string
		if _, err := fmt.Sscanf(strings.ReplaceAll(asked, "'", " "), "date %s - date %s", &a, &b); err != nil {
			t.Fatal(err)
		}
		return fmt.Sprint(len(assessment.PatternShifts([]assessment.Pattern{daily("08:00", "16:00")}, nil, civil.MustParse(b), civil.MustParse(a).AddDays(-1), zone)))
	}
}

// TestHoursThatClocksSkipOrShowTwice: RFC 5545, section 3.3.5; and no shift is lost where
// that rule leaves nothing of it.
func TestHoursThatClocksSkipOrShowTwice(t *testing.T) {
	for _, c := range []struct{ day, from, until, starts, ends string }{
		{"2026-03-08", "02:30", "06:00", "03:30-04", "06:00-04"},
		{"2026-03-08", "02:30", "03:00", "03:30-04", "04:00-04"}, // half an hour, as its clock times say
		{"2026-03-08", "02:00", "03:00", "03:00-04", "04:00-04"},
		{"2026-03-08", "02:00", "02:30", "03:00-04", "03:30-04"},
		{"2026-03-08", "01:00", "02:30", "01:00-05", "03:30-04"},
		{"2026-03-07", "19:00", "07:00", "19:00-05", "07:00-04"}, // 11 hours
		{"2026-11-01", "01:30", "01:45", "01:30-04", "01:45-04"},
		{"2026-11-01", "01:30", "02:00", "01:30-04", "02:00-05"}, // an hour and a half
		{"2026-11-01", "00:30", "01:30", "00:30-04", "01:30-04"},
		{"2026-10-31", "19:00", "07:00", "19:00-04", "07:00-05"}, // 13 hours
		{"2026-11-01", "01:30", "01:30", "01:30-04", "01:30-05"},
	} {
		p := daily(c.from, c.until)
		s, ok := p.On(civil.MustParse(c.day), newYork, nil)
		if got := s.Starts.Format("15:04-07") + " " + s.Ends.Format("15:04-07"); !ok || got != c.starts+" "+c.ends {
			t.Errorf("%s from %s until %s is %s", c.day, c.from, c.until, got)
		}
	}
}

// TestNoShiftOfAPatternIsLost: over random times, days and zones each day of a pattern has
// one shift, with a length, no longer than a day has hours, at the times it says wherever
// clocks show them; who hands over at a time meets who takes over then.
func TestNoShiftOfAPatternIsLost(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 24))
	for range 20000 {
		zone := zoneNamed(inventedZones[rng.IntN(len(inventedZones))])
		day := civil.MustParse("2011-01-01").AddDays(rng.IntN(6000))
		p := daily("00:00", "00:00")
		p.From, p.Until = civil.Clock(rng.IntN(1440)), civil.Clock(rng.IntN(1440))
		if rng.IntN(2) == 0 {
			p.From, p.Until = civil.Clock(rng.IntN(16)*15), civil.Clock(rng.IntN(16)*15) // about the hours of the change
		}
		s, ok := p.On(day, zone, nil)
		if !ok || s.Length() <= 0 || s.ID != p.ShiftID(day) {
			t.Fatalf("%s %s–%s in %s: %v", day, p.From, p.Until, zone, s)
		}
		if s.Length() > assessment.LongestShift && zone.String() != "Pacific/Apia" {
			t.Fatalf("%s %s–%s in %s lasts %s", day, p.From, p.Until, zone, s.Length())
		}
		next := p
		next.ID, next.From, next.Until = "q", p.Until, p.From
		on := day
		if p.Until <= p.From {
			on = day.AddDays(1)
		}
		if after, _ := next.On(on, zone, nil); s.Ends != after.Starts && s.Ends != s.Starts.Add(time.Duration((p.Until-p.From+1440)%1440)*time.Minute) {
			t.Fatalf("%s %s–%s in %s ends at %s, and who takes over begins at %s", day, p.From, p.Until, zone, s.Ends, after.Starts)
		}
	}
}

func TestExceptionsOfAPattern(t *testing.T) {
	p := daily("19:00", "07:00")
	p.Weekdays = []time.Weekday{time.Monday, time.Tuesday, time.Thursday}
	p.FromOn, p.Through = civil.MustParse("2026-06-02"), civil.MustParse("2026-06-11") // a Tuesday, a Thursday
	on := func(d string) civil.Date { return civil.MustParse(d) }
	exceptions := []assessment.PatternException{
		{Pattern: "p", On: on("2026-06-04"), LeftOut: true},
		{Pattern: "p", On: on("2026-06-08"), Person: "b", From: clock("19:00"), Until: clock("07:00")},
		{Pattern: "p", On: on("2026-06-09"), Person: "x", From: clock("08:00"), Until: clock("09:00")},
		{Pattern: "p", On: on("2026-06-09"), From: clock("20:00"), Until: clock("06:00")},              // later in the list: it stands
		{Pattern: "p", On: on("2026-06-10"), Person: "b", From: clock("19:00"), Until: clock("07:00")}, // a Wednesday
		{Pattern: "q", On: on("2026-06-02"), LeftOut: true},
	}
	told := func(from, through string) string {
		var all []string
		for _, s := range assessment.PatternShifts([]assessment.Pattern{p}, exceptions, on(from), on(through), newYork) {
			all = append(all, fmt.Sprintf("%s:%s %s", s.ID, s.Person, s.Starts.Format("15")))
		}
		return strings.Join(all, ", ")
	}
	for span, want := range map[[2]string]string{
		{"2026-05-01", "2026-07-01"}: "p.2026-06-02:a 19, p.2026-06-08:b 19, p.2026-06-09: 20, p.2026-06-11:a 19",
		{"2026-06-03", "2026-06-03"}: "p.2026-06-02:a 19", // the night before ends on it
		{"2026-06-10", "2026-06-11"}: "p.2026-06-09: 20, p.2026-06-11:a 19",
		{"2026-06-12", "2026-06-12"}: "p.2026-06-11:a 19",
		{"2026-06-04", "2026-06-07"}: "",
		{"2026-06-11", "2026-06-01"}: "",
	} {
		if got := told(span[0], span[1]); got != want {
			t.Errorf("%v: %q, not %q", span, got, want)
		}
	}
}

func TestPatternsThatNeverHaveAShift(t *testing.T) {
	good := daily("07:00", "15:00")
	if err := good.Check(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*assessment.Pattern){
		"no client":  func(p *assessment.Pattern) { p.Client = "" },
		"no weekday": func(p *assessment.Pattern) { p.Weekdays = nil },
		"no first":   func(p *assessment.Pattern) { p.FromOn = civil.Date{} },
		"ends first": func(p *assessment.Pattern) { p.Through = p.FromOn.AddDays(-1) },
	} {
		if p := good; true {
			spoil(&p)
			if p.Check() == nil {
				t.Errorf("%s: let through", name)
			}
		}
	}
}
