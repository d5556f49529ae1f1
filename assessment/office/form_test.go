package office

import (
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the same zones on every machine
	"unicode/utf8"

	"wellshown/assessment/fault"
)

func zoneOf(tb testing.TB, name string) *time.Location {
	tb.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		tb.Fatal(err)
	}
	return z
}

// The changes of clocks are those of the IANA time zone database: in America/
// Denver 02:00 to 03:00 are skipped on 8 March 2026 and 01:00 to 02:00 come twice
// on 1 November 2026; in Australia/Lord_Howe clocks move by half an hour, back at
// 02:00 on 5 April 2026.
func TestInstants(t *testing.T) {
	for _, c := range []struct{ zone, typed, want string }{
		{"America/Denver", "2026-01-05T19:30", "2026-01-06T02:30:00Z"},
		{"America/Denver", "2026-07-05 19:30", "2026-07-06T01:30:00Z"},
		{"America/Denver", "2026-07-05T19:30:15", "2026-07-06T01:30:15Z"},
		{"America/Denver", "2026-07-05T19:30:00+02:00", "2026-07-05T17:30:00Z"},
		{"America/Denver", "2026-03-08T01:59", "2026-03-08T08:59:00Z"},
		{"America/Denver", "2026-03-08T02:30", "skip"},
		{"America/Denver", "2026-03-08T03:00", "2026-03-08T09:00:00Z"},
		{"America/Denver", "2026-11-01T00:59", "2026-11-01T06:59:00Z"},
		{"America/Denver", "2026-11-01T01:00", "twice"},
		{"America/Denver", "2026-11-01T01:59", "twice"},
		{"America/Denver", "2026-11-01T01:30:00-06:00", "2026-11-01T07:30:00Z"},
		{"America/Denver", "2026-11-01T02:00", "2026-11-01T09:00:00Z"},
		{"Australia/Lord_Howe", "2026-04-05T01:45", "twice"},
		{"Australia/Lord_Howe", "2026-04-05T02:00", "2026-04-04T15:30:00Z"},
		{"America/Denver", "2026-02-30T10:00", "Give the day and the time"},
		{"America/Denver", "2026-01-05", "Give the day and the time"},
		{"America/Denver", "tomorrow", "Give the day and the time"},
		{"America/Denver", "0000-01-01T10:00", "Give the day and the time"},
		{"America/Denver", "", "Give the day and the time"},
	} {
		got, err := readInstant(c.typed, zoneOf(t, c.zone))
		said := got.UTC().Format(time.RFC3339)
		if err != nil {
			said = err.Error()
		}
		if !strings.Contains(said, c.want) {
			t.Errorf("%s in %s: got %s, want %s", c.typed, c.zone, said, c.want)
		}
	}
}

func FuzzInstant(f *testing.F) {
	for _, s := range []string{"2026-01-05T19:30", "2026-11-01T01:30", "9999-12-31T23:59:59+23:59", "0001-01-01T00:00:00Z", "\x00"} {
		f.Add(s)
	}
	zone := zoneOf(f, "America/Denver")
	f.Fuzz(func(t *testing.T, s string) {
		at, err := readInstant(s, zone)
		if err != nil {
			if fault.KindOf(err) != fault.Invalid {
				t.Errorf("%q: %v", s, err)
			}
			return
		}
		again, err := readInstant(at.UTC().Format(time.RFC3339Nano), zone)
		if err != nil || !again.Equal(at) {
			t.Errorf("%q is %s, which reads as %s, %v", s, at, again, err)
		}
	})
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		most        int
		typed, want string
	}{
		{20, "  Łucja   Zoë\tNguyễn ", "Łucja Zoë Nguyễn"},
		{20, "Ольга", "Ольга"},
		{20, "a\u202egnp", "cannot be read"}, // a mark that turns the direction of reading
		{20, "a\x00b", "cannot be read"},
		{20, "a\xffb", "cannot be read"},
		{10, "ééééé ééééé", "longer than 10"}, // characters, not bytes
		{10, "éééééééééé", "éééééééééé"},
		{10, " \n ", "Give it."},
	} {
		var f form
		got := f.line("name", c.typed, c.most, "Give it.")
		if err := f.Err(); err != nil {
			got = err.Error()
		}
		if !strings.Contains(got, c.want) {
			t.Errorf("%q: got %q, want %q", c.typed, got, c.want)
		}
	}
}

// Whatever is taken can be kept and printed: valid text without control
// characters, no longer than asked for.
func FuzzText(f *testing.F) {
	for _, s := range []string{"Zoë", "a\x00", "\u202e", "a\r\nb", "\xff", strings.Repeat("é", 99)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var one, more form
		line, words := one.maybe("f", s, 50), more.words("f", s, 50)
		if one.Err() == nil && (!utf8.ValidString(line) || strings.ContainsAny(line, "\x00\n\r\u202e") || utf8.RuneCountInString(line) > 50) {
			t.Errorf("%q is kept as the line %q", s, line)
		}
		if more.Err() == nil && (!utf8.ValidString(words) || strings.ContainsAny(words, "\x00\r\u202e") || utf8.RuneCountInString(words) > 50) {
			t.Errorf("%q is kept as %q", s, words)
		}
	})
}

func FuzzPlace(f *testing.F) {
	f.Add("MDE5NGZlMmUtNzZhOC03ZGViLTgwMDAtMDAwMDAwMDAwMDAwWm_Dqw")
	f.Add("")
	f.Add("!")
	f.Fuzz(func(t *testing.T, s string) {
		id, name, err := readPlace(s)
		if err == nil && (len(id) != 36 || !utf8.ValidString(name) || strings.Contains(name, "\x00")) {
			t.Errorf("%q is the place %q, %q", s, id, name)
		}
	})
}

// Unicode 15.0.0, DerivedCoreProperties: Default_Ignorable_Code_Point, general
// categories Cf, Zl and Zp; RFC 5892 appendix A for the joiners. U+2800, the empty
// braille cell, is none of them and empty all the same (common practice, no source).
func TestLinesHideNothing(t *testing.T) {
	for _, hidden := range []string{"Nan\u200bOrme", "Nan\u200dOrme", "Nan\u200cOrme", "Nan\u202eemrO", "Nan\u2066Orme\u2069", "Nan\u00adOrme", "\ufeffNan Orme", "Nan\u2060Orme",
		"Nan\u3164Orme", "Nan\u115fOrme", "Nan\u034fOrme", "Nan\ufe0fOrme", "Nan\U000e0061Orme", "Nan\u180eOrme", "Nan Orme\u200d", "Nan\u2800Orme", "\u200f\u05e8\u05d5\u05ea"} {
		var f form
		f.line("name", hidden, 200, "")
		if f.Err() == nil {
			t.Errorf("%+q is taken", hidden)
		}
	}
	for typed, want := range map[string]string{
		"Nan\u2028Orme": "Nan Orme", "Nan\u00a0 Orme": "Nan Orme", "Zoë O’Neil-Ørsted": "Zoë O’Neil-Ørsted",
		"\u0645\u06cc\u200c\u0634\u0648\u062f": "\u0645\u06cc\u200c\u0634\u0648\u062f", // Persian, with the joiner it is written with
		"\u0dc1\u0dca\u200d\u0dbb\u0dd3":       "\u0dc1\u0dca\u200d\u0dbb\u0dd3",       // Sinhala
	} {
		var f form
		if got := f.line("name", typed, 200, ""); got != want || f.Err() != nil {
			t.Errorf("%+q becomes %+q: %v", typed, got, f.Err())
		}
	}
}
