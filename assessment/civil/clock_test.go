package civil_test

import (
	"testing"
	"time"

	"wellshown/assessment/civil"
)

// TestClocksThatGoOnAndBack: RFC 5545, section 3.3.5, with the changes of clocks of
// the IANA time zone database: what is skipped is counted on from before, what comes
// twice is the first.
func TestClocksThatGoOnAndBack(t *testing.T) {
	for _, c := range []struct{ zone, day, clock, at string }{
		{"America/New_York", "2007-11-04", "01:30", "2007-11-04T01:30:00-04:00"}, // both: the example of RFC 5545
		{"America/New_York", "2007-03-11", "02:30", "2007-03-11T03:30:00-04:00"},
		{"America/New_York", "2007-03-11", "01:59", "2007-03-11T01:59:00-05:00"},
		{"America/New_York", "2007-03-11", "02:00", "2007-03-11T03:00:00-04:00"},
		{"America/New_York", "2007-03-11", "03:00", "2007-03-11T03:00:00-04:00"},
		{"America/New_York", "2007-11-04", "00:59", "2007-11-04T00:59:00-04:00"},
		{"America/New_York", "2007-11-04", "02:00", "2007-11-04T02:00:00-05:00"},
		{"Australia/Lord_Howe", "2024-10-06", "02:15", "2024-10-06T02:45:00+11:00"}, // half an hour on
		{"Australia/Lord_Howe", "2024-04-07", "01:45", "2024-04-07T01:45:00+11:00"}, // half an hour back
		{"America/Sao_Paulo", "2018-11-04", "00:30", "2018-11-04T01:30:00-02:00"},   // the day began at 01:00
		{"America/Havana", "2024-11-03", "00:30", "2024-11-03T00:30:00-04:00"},      // midnight comes twice
		{"Pacific/Apia", "2011-12-30", "09:00", "2011-12-31T09:00:00+14:00"},        // the day never came
		{"Asia/Kolkata", "2026-01-01", "23:59", "2026-01-01T23:59:00+05:30"},
		{"UTC", "2026-03-08", "02:30", "2026-03-08T02:30:00Z"},
	} {
		clock, err := civil.ParseClock(c.clock)
		if err != nil {
			t.Fatal(err)
		}
		got := civil.MustParse(c.day).At(clock, zoneOf(t, c.zone))
		if want, err := time.Parse(time.RFC3339, c.at); err != nil || !got.Equal(want) || got.Format(time.RFC3339) != c.at {
			t.Errorf("%s %s in %s is %s, not %s: %v", c.day, c.clock, c.zone, got.Format(time.RFC3339), c.at, err)
		}
	}
}

// TestEveryMinuteIsTheFirstThatIsShown: against a walk over every minute that passes, on
// the days about each change of clocks in 2024.
func TestEveryMinuteIsTheFirstThatIsShown(t *testing.T) {
	for _, name := range []string{"America/New_York", "Europe/London", "Australia/Lord_Howe", "America/Havana", "Asia/Beirut", "Africa/Cairo", "Asia/Kathmandu"} {
		zone := zoneOf(t, name)
		changes := 0
		for d := civil.MustParse("2024-01-02"); d.String() < "2024-12-30"; d = d.AddDays(1) {
			if d.AddDays(1).In(zone).Sub(d.In(zone)) == 24*time.Hour {
				continue
			}
			changes++
			for _, near := range []civil.Date{d.AddDays(-1), d, d.AddDays(1)} {
				everyMinute(t, near, zone)
			}
		}
		if (changes == 0) != (name == "Asia/Kathmandu") {
			t.Errorf("clocks in %s change %d times", name, changes)
		}
	}
}

// everyMinute holds each minute of a day against a walk over the instants near it.
func everyMinute(t *testing.T, d civil.Date, zone *time.Location) {
	t.Helper()
	first := map[string]time.Time{}
	for at, end := d.AddDays(-2).In(zone), d.AddDays(2).In(zone); at.Before(end); at = at.Add(time.Minute) {
		shown := at.In(zone).Format("2006-01-02 15:04")
		if _, known := first[shown]; !known {
			first[shown] = at
		}
	}
	for c := civil.Clock(0); c < 1440; c++ {
		got, want := d.At(c, zone), first[d.String()+" "+c.String()]
		if want.IsZero() { // skipped: by the clock of before, it is as long after the day before's as ever
			want = first[d.AddDays(-1).String()+" "+c.String()].Add(24 * time.Hour)
		}
		if !got.Equal(want) {
			t.Fatalf("%s %s in %s is %s, not %s", d, c, zone, got, want)
		}
	}
}

func TestParseClock(t *testing.T) {
	for _, bad := range []string{"", "7:30", "24:00", "07:60", "07.30", "07:30:00", " 07:30", "07:3", "-1:30", "７:30", "7:300"} {
		if c, err := civil.ParseClock(bad); err == nil {
			t.Errorf("%q was read as %s", bad, c)
		}
	}
	for _, good := range []string{"00:00", "07:30", "23:59"} {
		if c, err := civil.ParseClock(good); err != nil || c.String() != good {
			t.Errorf("%q was read as %s: %v", good, c, err)
		}
	}
}
