package assessment_test

import (
	"math/bits"
	"slices"

	"wellshown/assessment"
)

// visitPoint is a visit that could be made: to a home, by an educator, on a day.
type visitPoint struct {
	home assessment.ClientID
	e, d int
}

// everyVisit lists all visits that could be made in the days of the windows.
func everyVisit(v assessment.Visiting) []visitPoint {
	days := 0
	for _, w := range v.Windows {
		days = max(days, w.Through.Sub(planned)+1)
	}
	var points []visitPoint
	for _, home := range []assessment.ClientID{"h0", "h1", "h2"} {
		for e := range v.Educators {
			for d := range days {
				if slices.ContainsFunc(v.Windows, func(w assessment.Window) bool { return w.Home == home }) {
					points = append(points, visitPoint{home, e, d + 1})
				}
			}
		}
	}
	return points
}

// meetsBy are the visits that meet each window, as bits.
func meetsBy(v assessment.Visiting, points []visitPoint) []uint32 {
	meets := make([]uint32, len(v.Windows))
	for i, w := range v.Windows {
		for j, p := range points {
			e, on := v.Educators[p.e], dayNo(p.d)
			may := slices.ContainsFunc(e.Observes[w.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(on) })
			if w.Home == p.home && w.Holds(on) && may && w.Person != e.Person {
				meets[i] |= 1 << j
			}
		}
	}
	return meets
}

// roomBy are the visits of each educator's day, as bits, and how many of them there may be.
func roomBy(v assessment.Visiting, points []visitPoint) map[uint32]int {
	of := map[[2]int]uint32{}
	for j, p := range points {
		of[[2]int{p.e, p.d}] |= 1 << j
	}
	room := map[uint32]int{}
	for day, mask := range of {
		e, on := v.Educators[day[0]], dayNo(day[1])
		room[mask] = e.PerDay - e.Taken[on]
		if slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(on) }) {
			room[mask] = 0
		}
	}
	return room
}

// everyPlan goes through every set of visits there is: each home, educator and day, or
// not. It answers the most windows met, the fewest visits for that, and the least travel
// for those.
func everyPlan(v assessment.Visiting) (int, int, int) {
	points := everyVisit(v)
	meets, room := meetsBy(v, points), roomBy(v, points)
	most, fewest, least := 0, 0, 0
	for set := range uint32(1) << len(points) {
		met, visits, fits := 0, bits.OnesCount32(set), true
		for _, m := range meets {
			if m&set != 0 {
				met++
			}
		}
		if met < most || met == most && visits > fewest {
			continue
		}
		for mask, n := range room {
			fits = fits && bits.OnesCount32(mask&set) <= n
		}
		if !fits {
			continue
		}
		if minutes := travelOf(v, points, set); met > most || visits < fewest || minutes < least {
			least = minutes
		}
		most, fewest = met, visits
	}
	return most, fewest, least
}

// travelOf is the least travel of a set of visits.
func travelOf(v assessment.Visiting, points []visitPoint, set uint32) int {
	ways := map[[2]int][]string{}
	for j, p := range points {
		if set>>j&1 == 1 {
			ways[[2]int{p.e, p.d}] = append(ways[[2]int{p.e, p.d}], string(p.home))
		}
	}
	minutes := 0
	for day, homes := range ways {
		minutes += everyOrder(v.Distances, v.Educators[day[0]].Base, v.Educators[day[0]].Base, homes)
	}
	return minutes
}

// everyOrder is the least travel from a place through some homes, in any order, to another.
func everyOrder(d assessment.Distances, from, to string, homes []string) int {
	if len(homes) == 0 {
		return d.Between(from, to)
	}
	least := 1 << 30
	for i, h := range homes {
		others := append(slices.Clone(homes[:i]), homes[i+1:]...)
		least = min(least, d.Between(from, h)+everyOrder(d, h, to, others))
	}
	return least
}
