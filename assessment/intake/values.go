package intake

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment/civil"
)

var (
	slashed = regexp.MustCompile(`^(\d{1,2})[./-](\d{1,2})[./-](\d{4})$`)
	ordered = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)
	clocked = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})[ T](\d{2}:\d{2})(?::(\d{2}))?$`)
)

// Day reads a day, written as YYYY-MM-DD and no other way. One that could be two days is
// refused with both.
func Day(s string) (civil.Date, error) {
	if m := slashed.FindStringSubmatch(s); m != nil {
		return civil.Date{}, fmt.Errorf("%s can be read in two ways, or not at all. %s", s, either(m))
	}
	if !ordered.MatchString(s) {
		return civil.Date{}, fmt.Errorf("%q is not a day. Write it as YYYY-MM-DD, such as 2026-03-04", s)
	}
	d, err := civil.Parse(s)
	if err != nil || d.String() != s {
		return civil.Date{}, fmt.Errorf("%s is in no calendar: that month has no such day. Write the day that it was", s)
	}
	return d, nil
}

// either says how to write a day that was written with its year last.
func either(m []string) string {
	var ways []string
	for _, way := range [][2]string{{m[1], m[2]}, {m[2], m[1]}} {
		month, _ := strconv.Atoi(way[0])
		day, _ := strconv.Atoi(way[1])
		text := fmt.Sprintf("%s-%02d-%02d", m[3], month, day)
		if d, err := civil.Parse(text); err == nil && d.String() == text && (len(ways) == 0 || ways[0] != text) {
			ways = append(ways, text)
		}
	}
	switch len(ways) {
	case 0:
		return "Write it as YYYY-MM-DD, such as 2026-03-04"
	case 1:
		return "Write it as " + ways[0]
	}
	return "Write " + ways[0] + " or " + ways[1] + ", whichever is meant"
}

// Instant reads a day and time on the clocks of a zone, or one with its own offset from UTC.
// What clocks skip or show twice is read by civil.Date.At, and noted in words.
func Instant(s string, zone *time.Location) (at time.Time, note string, err error) {
	if at, err := time.Parse(time.RFC3339, s); err == nil {
		if y := at.UTC().Year(); y < 1900 || y > 9998 {
			return time.Time{}, "", fmt.Errorf("%s is in no calendar of ours. Check the year", s)
		}
		return at, "", nil
	}
	m := clocked.FindStringSubmatch(s)
	if m == nil {
		day, _, _ := strings.Cut(s, " ")
		if ordered.MatchString(s) {
			return time.Time{}, "", fmt.Errorf("%s is a day without a time. Write both, as %s 19:00", s, s)
		}
		if slashed.MatchString(day) {
			_, err := Day(day)
			return time.Time{}, "", fmt.Errorf("%w, with the time after it", err)
		}
		return time.Time{}, "", fmt.Errorf("%q is not a day and time. Write them as YYYY-MM-DD HH:MM, such as 2026-12-01 19:00", s)
	}
	day, err := Day(m[1])
	if err != nil {
		return time.Time{}, "", err
	}
	clock, err := civil.ParseClock(m[2])
	if err != nil {
		return time.Time{}, "", fmt.Errorf("%s is not a time of day. Write it as HH:MM from 00:00 to 23:59; midnight is 00:00 of the next day", m[2])
	}
	if m[3] != "" && m[3] != "00" {
		return time.Time{}, "", fmt.Errorf("%s has seconds. Write hours and minutes alone, as %s %s", s, m[1], m[2])
	}
	at = day.At(clock, zone)
	return at, aboutClocks(at, day, clock, zone), nil
}

// aboutClocks says how a time was read that clocks skip or show twice.
func aboutClocks(at time.Time, day civil.Date, clock civil.Clock, zone *time.Location) string {
	shown := at.In(zone).Format("15:04")
	if civil.DayOf(at, zone) != day || shown != clock.String() {
		return fmt.Sprintf("clocks skip %s on %s: read as %s", clock, day, shown)
	}
	for _, by := range []time.Duration{30 * time.Minute, time.Hour, 2 * time.Hour} {
		if at.Add(by).In(zone).Format("2006-01-02 15:04") == at.In(zone).Format("2006-01-02 15:04") {
			return fmt.Sprintf("clocks show %s twice on %s: read as the first, %s", clock, day, at.In(zone).Format("MST"))
		}
	}
	return ""
}
