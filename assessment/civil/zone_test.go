package civil_test

import (
	"testing"
	"time"

	"wellshown/assessment/civil"
)

func zoneOf(t *testing.T, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// TestDayOf: instants belong to the civil day of the zone, also where clocks
// change. The two in London were printed by PostgreSQL 15.18; the others follow
// from the offsets of the IANA time zone database.
func TestDayOf(t *testing.T) {
	for _, c := range []struct{ zone, at, day string }{
		{"Europe/London", "2024-03-30T23:30:00Z", "2024-03-30"},
		{"Europe/London", "2024-03-31T23:30:00Z", "2024-04-01"},
		{"America/New_York", "2026-03-11T03:59:59Z", "2026-03-10"}, // 23:59:59 daylight time
		{"America/New_York", "2026-03-11T04:00:00Z", "2026-03-11"},
		{"America/New_York", "2026-03-08T04:59:59Z", "2026-03-07"}, // 23:59:59 standard time
		{"America/New_York", "2026-03-08T05:00:00Z", "2026-03-08"},
		{"America/New_York", "2026-03-09T03:59:59Z", "2026-03-08"},
		{"America/New_York", "2026-11-02T04:59:59Z", "2026-11-01"},
		{"America/Sao_Paulo", "2018-11-04T02:59:59Z", "2018-11-03"}, // the 4th began at 01:00
		{"America/Sao_Paulo", "2018-11-04T03:00:00Z", "2018-11-04"},
		{"Pacific/Apia", "2011-12-30T09:59:59Z", "2011-12-29"}, // the 30th never came
		{"Pacific/Apia", "2011-12-30T10:00:00Z", "2011-12-31"},
		{"Asia/Kathmandu", "2026-01-01T18:15:00Z", "2026-01-02"},
	} {
		at, err := time.Parse(time.RFC3339, c.at)
		if err != nil {
			t.Fatal(err)
		}
		if got := civil.DayOf(at, zoneOf(t, c.zone)).String(); got != c.day {
			t.Errorf("%s in %s is %s, not %s", c.at, c.zone, c.day, got)
		}
	}
}

// TestFirstInstant: the first instant of each day is of that day, and the instant
// before it is of an earlier one; in zones where midnight is skipped, comes twice,
// or a whole day is missing.
func TestFirstInstant(t *testing.T) {
	for _, name := range []string{"UTC", "America/New_York", "Europe/London", "Australia/Lord_Howe", "America/Sao_Paulo",
		"America/Havana", "America/Argentina/Salta", "Pacific/Pitcairn", "Asia/Beirut", "Asia/Gaza", "America/Asuncion", "Africa/Cairo", "Asia/Amman", "Pacific/Apia", "Asia/Tehran", "Atlantic/Azores"} {
		zone := zoneOf(t, name)
		for d := civil.MustParse("1990-01-01"); d.String() < "2031"; d = d.AddDays(1) {
			want := d
			if name == "Pacific/Apia" && d.String() == "2011-12-30" {
				want = d.AddDays(1) // no such day there
			}
			at := d.In(zone)
			if on, before := civil.DayOf(at, zone), civil.DayOf(at.Add(-time.Nanosecond), zone); on != want || !before.Before(d) {
				t.Fatalf("%s in %s begins at %v, on %s, and the instant before is on %s", d, name, at, on, before)
			}
		}
	}
}
