package assessment

import (
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// RetentionFloor is the least number of years that records are kept, and
// RetentionCeiling the most that can be set. The floor is the longer of two: six
// years from when something was made or was last in effect, whichever is later
// (45 CFR 164.316(b)(2)(i)), and five years after a patient was discharged unless
// state law says longer (42 CFR 484.110(c), from memory). For children state law
// often counts from the day they come of age, so an agency sets more.
const (
	RetentionFloor   = 6
	RetentionCeiling = 100
)

// Retention is how many years an agency keeps records before it may be asked to
// erase any; zero: for ever. It deletes nothing itself.
type Retention struct{ Years int }

// ReadRetention reads how many years, zero for ever; fewer than the floor are
// refused.
func ReadRetention(years int) (Retention, error) {
	switch {
	case years == 0 || years >= RetentionFloor && years <= RetentionCeiling:
		return Retention{years}, nil
	case years > RetentionCeiling:
		return Retention{}, fault.Of(fault.Invalid, "At most %d years can be set. Leave it empty to keep everything for ever.", RetentionCeiling)
	}
	return Retention{}, fault.Of(fault.Invalid, "Records are kept for %d years at least. Enter %d or more, or leave it empty to keep everything for ever.", RetentionFloor, RetentionFloor)
}

// Through is the last day on which something that was last in effect on a day is
// kept. 29 February counts to 1 March where the year has none: rather a day too
// long. The zero day: for ever.
func (r Retention) Through(last civil.Date) civil.Date {
	if r.Years == 0 || last.IsZero() {
		return civil.Date{}
	}
	end := last.AddMonths(12 * r.Years)
	_, _, was := last.Civil()
	if _, _, is := end.Civil(); is != was {
		end = end.AddDays(1)
	}
	return end
}

// MayErase reports whether what was last in effect on one day may be erased on
// another.
func (r Retention) MayErase(last, today civil.Date) bool {
	end := r.Through(last)
	return !end.IsZero() && today.After(end)
}

// ErasureVerdict is what became of an erasure that was asked for.
type ErasureVerdict string

// The verdicts; none yet: it is still open.
const (
	CarriedOut   ErasureVerdict = "carried out"
	NotErased    ErasureVerdict = "refused"
	TakenBackAsk ErasureVerdict = "taken back"
)
