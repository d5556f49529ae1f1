package civil

import (
	"fmt"
	"time"
)

// Clock is a time of day as a clock on the wall shows it, in minutes after midnight:
// 0 through 1439.
type Clock int

// ParseClock reads HH:MM of a 24-hour clock, 00:00 through 23:59, and refuses every
// other form.
func ParseClock(s string) (Clock, error) {
	t, err := time.Parse("15:04", s)
	if err != nil || len(s) != len("15:04") {
		return 0, fmt.Errorf("%q is not a time of day: write it as HH:MM from 00:00 to 23:59, such as 07:30", s)
	}
	return Clock(t.Hour()*60 + t.Minute()), nil
}

// String is c as HH:MM.
func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// At is the instant at which clocks in zone show c on day d. Where clocks go forward
// over it, it is counted on from before they went: 02:30 that night is 03:30. Where
// clocks go back and show it twice, it is the first of the two. Both are the rules of
// RFC 5545, section 3.3.5, so that a calendar that is written and read back agrees.
func (d Date) At(c Clock, zone *time.Location) time.Time {
	y, m, day := d.Civil()
	shown := time.Date(y, m, day, 0, int(c), 0, 0, time.UTC)
	near := time.Date(y, m, day, 0, int(c), 0, 0, zone)
	changed, changes := near.ZoneBounds()
	for _, at := range []time.Time{changed, changes} {
		if at.IsZero() {
			continue
		}
		before, after := shown.Add(-offset(at.Add(-time.Nanosecond), zone)), shown.Add(-offset(at, zone))
		skipped := !before.Before(at) && after.Before(at)
		twice := before.Before(at) && !after.Before(at)
		if skipped || twice {
			return before.In(zone)
		}
	}
	return near
}

func offset(at time.Time, zone *time.Location) time.Duration {
	_, seconds := at.In(zone).Zone()
	return time.Duration(seconds) * time.Second
}
