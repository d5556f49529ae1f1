package intake_test

import (
	"strings"
	"testing"
	"time"

	"wellshown/assessment/intake"
)

// ISO 8601, 5.2.1.2: the extended form of a calendar date, and no other; the Gregorian calendar has no 31 February.
func TestDays(t *testing.T) {
	if d, err := intake.Day("2028-02-29"); err != nil || d.String() != "2028-02-29" {
		t.Errorf("a leap day is %v, %v", d, err)
	}
	for typed, says := range map[string]string{
		"03/04/2026": "Write 2026-03-04 or 2026-04-03",
		"4.4.2026":   "Write it as 2026-04-04",
		"31/12/2026": "Write it as 2026-12-31",
		"31/31/2026": "Write it as YYYY-MM-DD",
		"2026-02-31": "in no calendar",
		"2027-02-29": "in no calendar",
		"2026-2-3":   "Write it as YYYY-MM-DD",
		"46095":      "Write it as YYYY-MM-DD",
		"March 4":    "Write it as YYYY-MM-DD",
		"20260304":   "Write it as YYYY-MM-DD",
	} {
		if d, err := intake.Day(typed); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s is read as %v, %v", typed, d, err)
		}
	}
}

// RFC 5545, section 3.3.5, on clocks that skip a time or show it twice; the time zone database has when.
func TestInstants(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{
		"2026-12-01 19:00":          "2026-12-02T00:00:00Z",
		"2026-12-01T19:00":          "2026-12-02T00:00:00Z",
		"2026-12-01 19:00:00":       "2026-12-02T00:00:00Z",
		"2026-12-02 00:00":          "2026-12-02T05:00:00Z",
		"2026-12-01T19:00:00+01:00": "2026-12-01T18:00:00Z",
		"2027-03-14 02:30":          "2027-03-14T07:30:00Z clocks skip 02:30",
		"2026-11-01 01:30":          "2026-11-01T05:30:00Z clocks show 01:30 twice",
	} {
		at, note, err := intake.Instant(typed, zone)
		when, about, _ := strings.Cut(want, " ")
		if err != nil || at.UTC().Format(time.RFC3339) != when || !strings.Contains(note, about) || about == "" && note != "" {
			t.Errorf("%s is read as %s (%s), %v", typed, at.UTC().Format(time.RFC3339), note, err)
		}
	}
	for typed, says := range map[string]string{
		"2026-12-01": "without a time", "2026-02-31 19:00": "in no calendar", "2026-12-01 24:00": "00:00 of the next day", "2026-12-01 7:00": "YYYY-MM-DD HH:MM",
		"03/04/2026 19:00": "Write 2026-03-04 or 2026-04-03", "2026-12-01 19:00:30": "seconds", "0001-01-01T00:00:00Z": "in no calendar", "19:00": "YYYY-MM-DD HH:MM",
	} {
		if at, _, err := intake.Instant(typed, zone); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s is read as %v, %v", typed, at, err)
		}
	}
}

// Unicode Standard Annex 15 (marks on letters); otherwise common practice, no source.
func TestNamesThatAreAlike(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want intake.Likeness
	}{
		{"Nan Orme", "Nan  Orme", intake.SameName}, {"Nan Orme", "nan orme", intake.Alike}, {"Orme, Nan", "Nan Orme", intake.Alike},
		{"Jose\u0301 Pen\u0303a", "José Peña", intake.SameName}, {"José Peña", "Jose Pena", intake.Alike}, {"Łukasz Wójcik", "Lukasz Wojcik", intake.Alike},
		{"Nguyễn Thị Hoa", "Nguyen Thi Hoa", intake.Alike}, {"Anne-Marie O'Dea", "Anne Marie O’Dea", intake.Alike},
		{"Nan Orme", "Nan Orne", intake.Near}, {"Nan Orme", "Nna Orme", intake.Near}, {"Katherine Lee", "Catherine Leigh", intake.Unlike}, {"Jon Smith", "John Smith", intake.Near},
		{"Lee Ann", "Leo Anne", intake.Unlike}, {"Nan Orme", "Mira Lund", intake.Unlike}, {"Li", "Lu", intake.Near}, {"王芳", "李芳", intake.Near}, {"王芳", "李明", intake.Unlike},
	} {
		a, b := intake.NewName(c.a), intake.NewName(c.b)
		if got := a.Like(b); got != c.want || b.Like(a) != got {
			t.Errorf("%s and %s are %d, and the other way round %d; %d was wanted", c.a, c.b, got, b.Like(a), c.want)
		}
	}
}
