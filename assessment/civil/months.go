package civil

import "time"

// AddMonths is the day n months after d with the same day of the month, or the
// last day of that month where it has no such day: 31 January plus one month is
// 28 or 29 February. Always add to the anchor, never to an earlier result, or
// the clamp drifts. (time.AddDate normalises instead and gives 2 or 3 March.)
func (d Date) AddMonths(n int) Date {
	y, m, day := d.Civil()
	months := int64(y)*12 + int64(m-1) + int64(n)
	switch {
	case months < 12:
		return Date{1}
	case months >= 10000*12:
		return Last
	}
	ty, tm := int(months/12), time.Month(months%12+1)
	return Of(ty, tm, min(day, daysIn(ty, tm)))
}

// MonthEnd is the last day of d's month.
func (d Date) MonthEnd() Date {
	y, m, _ := d.Civil()
	return Of(y, m, daysIn(y, m))
}

func daysIn(y int, m time.Month) int {
	return time.Date(y, m+1, 0, 0, 0, 0, 0, time.UTC).Day()
}
