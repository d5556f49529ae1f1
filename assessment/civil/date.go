// Package civil is the calendar of competence: days without hours or zones.
//
// A competency is valid through the end of a civil day in the agency's zone, so
// every comparison here is by calendar and none by elapsed time.
package civil

import (
	"fmt"
	"time"
)

// Date is one day of the proleptic Gregorian calendar, from 0001-01-01 through
// 9999-12-31. The zero Date is no day at all; it sorts before every day.
type Date struct {
	n int32 // days since 0000-12-31, so that the zero value stays free
}

// Last is the last day that can be named. Arithmetic that would leave the
// calendar stops there or at the first day instead of wrapping.
var Last = Of(9999, time.December, 31)

var epoch = time.Date(0, time.December, 31, 0, 0, 0, 0, time.UTC).Unix()

// Of names the day y-m-d. Values outside their usual ranges are carried as
// time.Date does; use Parse for what people typed.
func Of(y int, m time.Month, d int) Date {
	return Date{int32((time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() - epoch) / 86400)}
}

// DayOf is the civil day on which the instant at falls in zone.
func DayOf(at time.Time, zone *time.Location) Date {
	y, m, d := at.In(zone).Date()
	return Of(y, m, d)
}

// Parse reads YYYY-MM-DD and refuses every other form and every day that no
// calendar has, such as 2026-02-31.
func Parse(s string) (Date, error) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil || len(s) != 10 || t.Year() < 1 {
		return Date{}, fmt.Errorf("%q is not a day: write it as YYYY-MM-DD, such as 2027-01-15", s)
	}
	return Of(t.Date()), nil
}

// MustParse is Parse for constants; it panics on a fault.
func MustParse(s string) Date {
	d, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return d
}

// IsZero reports whether d is no day.
func (d Date) IsZero() bool { return d.n == 0 }

// Civil gives the year, month and day of the month.
func (d Date) Civil() (int, time.Month, int) { return d.utc().Date() }

// In is the first instant of d in zone: midnight; the first of two where clocks
// go back over it; the end of the gap where they go forward over it, or where the
// zone never had the day at all.
func (d Date) In(zone *time.Location) time.Time {
	y, m, day := d.Civil()
	t := time.Date(y, m, day, 0, 0, 0, 0, zone)
	changed, changes := t.ZoneBounds()
	for _, at := range []time.Time{midnightBefore(changed, t), changed, t, changes} {
		if !at.IsZero() && d.beginsAt(at, zone) {
			return at
		}
	}
	return t
}

// midnightBefore is the midnight t by the clock that ran before it was changed.
func midnightBefore(changed, t time.Time) time.Time {
	if changed.IsZero() {
		return t
	}
	_, before := changed.Add(-time.Nanosecond).Zone()
	_, after := t.Zone()
	return t.Add(time.Duration(after-before) * time.Second)
}

// beginsAt reports whether d, or the first day after it that the zone has, begins
// at an instant.
func (d Date) beginsAt(at time.Time, zone *time.Location) bool {
	return !DayOf(at, zone).Before(d) && DayOf(at.Add(-time.Nanosecond), zone).Before(d)
}

// String is d as YYYY-MM-DD; the zero Date is the empty string.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.Format("2006-01-02")
}

// Format lays d out as time.Format does.
func (d Date) Format(layout string) string { return d.utc().Format(layout) }

// Weekday is d's day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

func (d Date) utc() time.Time { return time.Unix(epoch+int64(d.n)*86400, 0).UTC() }

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool { return d.n < e.n }

// After reports whether d comes after e.
func (d Date) After(e Date) bool { return d.n > e.n }

// Compare is -1, 0 or 1 as d is before, the same as or after e.
func (d Date) Compare(e Date) int {
	switch {
	case d.n < e.n:
		return -1
	case d.n > e.n:
		return 1
	}
	return 0
}

// AddDays is the day n days after d; n may be negative.
func (d Date) AddDays(n int) Date {
	return clamp(int64(d.n) + int64(n))
}

// Sub is the number of days from e to d: 1 when d is the day after e.
func (d Date) Sub(e Date) int { return int(d.n) - int(e.n) }

func clamp(n int64) Date {
	switch {
	case n < 1:
		return Date{1}
	case n > int64(Last.n):
		return Last
	}
	return Date{int32(n)}
}

// Earlier is the earlier of two days.
func Earlier(a, b Date) Date {
	if b.Before(a) {
		return b
	}
	return a
}

// Later is the later of two days.
func Later(a, b Date) Date {
	if b.After(a) {
		return b
	}
	return a
}
