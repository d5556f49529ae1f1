package assessment

import (
	"slices"
	"time"
)

// Stretch is a span of instants; the end is not part of it.
type Stretch struct{ From, To time.Time }

// Gaps lists the times between from and to in which none of the given stretches
// of awake, trained cover runs (ATS 2016, recommendation 3a: an awake, attentive,
// trained caregiver in the home at all times).
func Gaps(from, to time.Time, cover []Stretch) []Stretch {
	sorted := slices.Clone(cover)
	slices.SortFunc(sorted, func(a, b Stretch) int { return a.From.Compare(b.From) })
	var gaps []Stretch
	at := from
	for _, s := range sorted {
		if s.From.After(at) && at.Before(to) {
			gaps = append(gaps, Stretch{at, earliest(s.From, to)})
		}
		if s.To.After(at) {
			at = s.To
		}
	}
	if at.Before(to) {
		gaps = append(gaps, Stretch{at, to})
	}
	return gaps
}

func earliest(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}
