package reports

import (
	"testing"
	"time"

	"wellshown/assessment/civil"
)

// Spanish writes days with "de" and months in small letters (common practice, from memory).
func TestDates(t *testing.T) {
	day := civil.Of(2027, time.September, 5)
	for _, c := range []struct{ language, long, short string }{
		{"en", "5 September 2027", "5 Sep 2027"},
		{"en-GB", "5 September 2027", "5 Sep 2027"},
		{"es", "5 de septiembre de 2027", "5 sept 2027"},
		{"ES-mx", "5 de septiembre de 2027", "5 sept 2027"},
		{"vi", "5 September 2027", "5 Sep 2027"},
	} {
		say := phrasesIn(c.language)
		if got := say.date(day); got != c.long {
			t.Errorf("%s: %q, want %q", c.language, got, c.long)
		}
		if got := say.shortDate(day); got != c.short {
			t.Errorf("%s: %q, want %q", c.language, got, c.short)
		}
		if say.date(civil.Date{}) != "" || say.shortDate(civil.Date{}) != "" {
			t.Errorf("%s: no day has words", c.language)
		}
	}
}

// An instant is told as the agency's clocks showed it: its day may be another than in UTC.
func TestInstants(t *testing.T) {
	at := time.Date(2026, 11, 19, 2, 5, 0, 0, time.UTC)
	for want, zone := range map[string]*time.Location{
		"18 Nov 2026, 19:05 MST":       mountain,
		"19 Nov 2026, 02:05 UTC":       time.UTC,
		"18 Nov 2026, 23:05 UTC-03:00": time.FixedZone("-03", -3*3600),
		"19 Nov 2026, 07:35 UTC+05:30": time.FixedZone("+0530", 5*3600+1800),
	} {
		if got := english.instant(at, zone); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
