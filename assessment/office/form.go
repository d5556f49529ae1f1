package office

import (
	"regexp"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// form reads what was typed, field by field, and gathers all faults of it. Each
// reader hands back what was typed in the form in which it is kept.
type form struct{ fault.Fields }

// line is one line of text that must not be empty, at most so many characters.
func (f *form) line(field, typed string, most int, missing string) string {
	s := f.maybe(field, typed, most)
	if s == "" {
		f.Add(field, "%s", missing)
	}
	return s
}

// maybe is one line of text, or nothing. Runs of white space become one space, so
// that two who mean the same write the same.
func (f *form) maybe(field, typed string, most int) string {
	s := strings.Join(strings.Fields(typed), " ")
	if strings.IndexFunc(s, unprintable) < 0 && hides(s) {
		f.Add(field, "This holds characters that cannot be seen. Type it again by hand.")
		return s
	}
	f.readable(field, s, most)
	return s
}

// words is text of several lines, or nothing.
func (f *form) words(field, typed string, most int) string {
	s := strings.TrimSpace(strings.ReplaceAll(typed, "\r\n", "\n"))
	f.readable(field, s, most)
	return s
}

func (f *form) readable(field, s string, most int) {
	switch {
	case !utf8.ValidString(s) || strings.IndexFunc(s, unprintable) >= 0:
		f.Add(field, "This holds characters that cannot be read or printed. Type it again.")
	case utf8.RuneCountInString(s) > most:
		f.Add(field, "This is longer than %d characters. Shorten it.", most)
	}
}

// unprintable are control characters, and the marks that make a printed line read
// in another order than it is written.
func unprintable(r rune) bool {
	return unicode.IsControl(r) && r != '\n' && r != '\t' || r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069'
}

// joined are the scripts whose letters take an unseen joiner between them (RFC 5892,
// appendix A: after a virama, or between letters that join).
var joined = []*unicode.RangeTable{unicode.Arabic, unicode.Syriac, unicode.Mongolian, unicode.Nko, unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati,
	unicode.Oriya, unicode.Tamil, unicode.Telugu, unicode.Kannada, unicode.Malayalam, unicode.Sinhala, unicode.Khmer, unicode.Myanmar, unicode.Tibetan}

// hides reports characters in a line that nobody sees, so that two lines that look
// alike are told apart or one is read as another: those that Unicode calls format
// characters, separators of lines and paragraphs, or ignorable by default.
func hides(s string) bool {
	all := []rune(s)
	for i, r := range all {
		joiner := (r == '\u200c' || r == '\u200d') && i > 0 && i+1 < len(all) && unicode.In(all[i-1], joined...) && unicode.In(all[i+1], joined...)
		if !joiner && unseen(r) {
			return true
		}
	}
	return false
}

func unseen(r rune) bool {
	return unicode.In(r, unicode.Zl, unicode.Zp, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) || r == '\u2800' ||
		unicode.Is(unicode.Cf, r) && !unicode.Is(unicode.Prepended_Concatenation_Mark, r)
}

var emailForm = regexp.MustCompile(`^[^@\s]+@[^@\s]+$`)

func (f *form) email(field, typed string) string {
	s := f.maybe(field, typed, 254)
	if s != "" && !emailForm.MatchString(s) {
		f.Add(field, "This is not an e-mail address. Write it as name@example.org, or leave it empty.")
	}
	return s
}

// day is a day that must be given.
func (f *form) day(field, typed string) civil.Date {
	d := f.maybeDay(field, typed)
	if strings.TrimSpace(typed) == "" {
		f.Add(field, "Give the day, as YYYY-MM-DD.")
	}
	return d
}

// maybeDay is a day, or the zero one for nothing.
func (f *form) maybeDay(field, typed string) civil.Date {
	s := strings.TrimSpace(typed)
	if s == "" {
		return civil.Date{}
	}
	d, err := civil.Parse(s)
	f.Take(field, err)
	return d
}

// span is a first day, which must be given, and a last day, zero for open.
func (f *form) span(from, through string) (civil.Date, civil.Date) {
	first, last := f.day("from", from), f.maybeDay("through", through)
	if !last.IsZero() && last.Before(first) {
		f.Add("through", "The last day is before the first.")
	}
	return first, last
}

// instant is a day and time, on the agency's clocks where it has no offset.
func (f *form) instant(field, typed string, now Moment) time.Time {
	at, err := readInstant(strings.TrimSpace(typed), now.Zone)
	f.Take(field, err)
	return at.Truncate(time.Microsecond)
}

// readInstant reads a day and time. A time that the clocks skip or show twice on
// that day is refused where no offset tells which is meant.
func readInstant(s string, zone *time.Location) (time.Time, error) {
	if at, err := time.Parse(time.RFC3339, s); err == nil && inCalendar(at) {
		return at, nil
	}
	for _, layout := range []string{"2006-01-02T15:04", "2006-01-02 15:04", "2006-01-02T15:04:05"} {
		at, err := time.ParseInLocation(layout, s, zone)
		if err != nil || !inCalendar(at) {
			continue
		}
		if at.Format(layout) != s {
			return time.Time{}, fault.Of(fault.Invalid, "The clocks skip %s on that day. Give the time that they showed.", s)
		}
		if shownTwice(at, layout) {
			return time.Time{}, fault.Of(fault.Invalid, "The clocks show %s twice on that day. Add which one is meant, such as %s.", s, at.Format(time.RFC3339))
		}
		return at, nil
	}
	return time.Time{}, fault.Of(fault.Invalid, "Give the day and the time, such as 2027-01-15 19:30.")
}

func inCalendar(at time.Time) bool { y := at.UTC().Year(); return y >= 1 && y <= 9999 }

// shownTwice looks as far as clocks are ever put back: half an hour to two hours.
func shownTwice(at time.Time, layout string) bool {
	for _, by := range []time.Duration{30 * time.Minute, time.Hour, 2 * time.Hour} {
		if at.Add(by).Format(layout) == at.Format(layout) || at.Add(-by).Format(layout) == at.Format(layout) {
			return true
		}
	}
	return false
}

// idOr is the id that whoever sends a form has made, so that sending it twice is
// harmless, or a new one.
func idOr[T ~string](o *Office, typed string, at time.Time) (T, error) {
	if typed == "" {
		return newID[T](o, at)
	}
	return assessment.ParseID[T](typed)
}

// gone reports whether somebody who left on a day is no longer there on another.
// They are not from the day they left; the zero day is not yet.
func gone(left, on civil.Date) bool { return !left.IsZero() && !on.Before(left) }
