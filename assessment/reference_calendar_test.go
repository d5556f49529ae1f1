package assessment_test

import "time"

// The calendar of the second implementation: plain counts of days, and dates
// found by stepping.

// refDay counts days; refDate is the same as year, month and day.
type refDay int

type refDate struct{ y, m, d int }

// refCount turns a date into a count of days: years start in March, so that the
// leap day comes last.
func refCount(t refDate) refDay {
	y, m := t.y, t.m-3
	if m < 0 {
		y, m = y-1, m+12
	}
	return refDay(365*y + y/4 - y/100 + y/400 + (153*m+2)/5 + t.d)
}

func refLeap(y int) bool { return y%4 == 0 && (y%100 != 0 || y%400 == 0) }

func refMonthLength(y, m int) int {
	switch m {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if refLeap(y) {
			return 29
		}
		return 28
	}
	return 31
}

// refName finds the date of a count by stepping from a near year.
func refName(n refDay) refDate {
	t := refDate{int(n) * 400 / 146097, 1, 1}
	for refCount(refDate{t.y + 1, 1, 1}) <= n {
		t.y++
	}
	for refCount(t) > n {
		t.y--
	}
	for t.m < 12 && refCount(refDate{t.y, t.m + 1, 1}) <= n {
		t.m++
	}
	t.d = int(n-refCount(t)) + 1
	return t
}

// refAdd is add(a, n) of the rules: same day of the month, or its last day.
func refAdd(a refDay, months int) refDay {
	t := refName(a)
	for range months {
		if t.m++; t.m == 13 {
			t.y, t.m = t.y+1, 1
		}
	}
	t.d = min(t.d, refMonthLength(t.y, t.m))
	return refCount(t)
}

func refOn(at time.Time, zone *time.Location) refDay {
	y, m, d := at.In(zone).Date()
	return refCount(refDate{y, int(m), d})
}
