package assessment

import (
	"slices"

	"wellshown/assessment/civil"
)

// MoveFault says what keeps a visit from being where it is moved to.
type MoveFault string

// What can be wrong with a place, whatever is to be seen there.
const (
	MovedTooEarly MoveFault = "that day is not planned"
	MovedToNobody MoveFault = "there is no such educator"
	MovedToDayOff MoveFault = "they are off on that day"
	MovedTooMany  MoveFault = "they have as many visits on that day as they can make"
	MovedToNoHome MoveFault = "the agency no longer looks after the child on that day" // Move knows no homes: whoever plans says it
)

// Moved is what comes of moving a visit.
type Moved struct {
	Visits  []HomeVisit // all of the plan, with the visit moved and met windows as they then are
	Faults  []MoveFault // where there is one the visit cannot be made, and meets nothing
	Breaks  []Window    // met before, and by no visit then; by deadline
	Gains   []Window    // met by no visit before, and then
	Minutes int         // of travel on all days then; a visit that cannot be made is left out
	Longer  int         // how much more travel than before, in minutes; negative: less
}

// Move answers what comes of making one visit of a plan on another day, by another
// educator or both; it changes nothing. A window that the visit no longer meets may be
// met by another that is made anyway. A number that is no visit's answers false.
func (v Visiting) Move(visits []HomeVisit, number int, on civil.Date, educator PersonID) (Moved, bool) {
	if number < 0 || number >= len(visits) {
		return Moved{}, false
	}
	after := slices.Clone(visits)
	after[number].On, after[number].Educator = on, educator
	m := Moved{Faults: v.faultsOf(after, number)}
	before := v.metBy(visits, -1)
	barred := -1
	if len(m.Faults) > 0 {
		barred = number
	}
	then := v.metBy(after, barred)
	for i := range after {
		after[i].Windows = nil
	}
	ordered := slices.Clone(v.Windows)
	slices.SortFunc(ordered, byDeadline)
	for _, w := range ordered {
		was, is := before[w] >= 0, then[w] >= 0
		if is {
			after[then[w]].Windows = append(after[then[w]].Windows, w)
		}
		switch {
		case was && !is:
			m.Breaks = append(m.Breaks, w)
		case is && !was:
			m.Gains = append(m.Gains, w)
		}
	}
	m.Visits = after
	m.Minutes = v.minutesOf(after, barred)
	m.Longer = m.Minutes - v.minutesOf(visits, -1)
	return m, true
}

// faultsOf says what keeps a visit from being made where it is.
func (v Visiting) faultsOf(visits []HomeVisit, number int) []MoveFault {
	here := visits[number]
	var faults []MoveFault
	if here.On.Before(v.From) || here.On.After(v.last()) {
		faults = append(faults, MovedTooEarly)
	}
	e, known := v.educator(here.Educator)
	switch {
	case !known:
		return append(faults, MovedToNobody)
	case e.isOff(here.On):
		return append(faults, MovedToDayOff)
	}
	same := 0
	for _, other := range visits {
		if other.Educator == here.Educator && other.On == here.On {
			same++
		}
	}
	if same > e.room(here.On) {
		faults = append(faults, MovedTooMany)
	}
	return faults
}

func (v Visiting) educator(p PersonID) (VisitEducator, bool) {
	i := slices.IndexFunc(v.Educators, func(e VisitEducator) bool { return e.Person == p })
	if i < 0 {
		return VisitEducator{}, false
	}
	return v.Educators[i], true
}

// metBy says which visit meets each window: one that was to meet it, or else the first
// that does; -1 for none. A barred visit meets nothing.
func (v Visiting) metBy(visits []HomeVisit, barred int) map[Window]int {
	by := map[Window]int{}
	for _, w := range v.Windows {
		by[w] = -1
		for i, visit := range visits {
			if i == barred || !v.meets(visit, w) {
				continue
			}
			if by[w] < 0 || slices.Contains(visit.Windows, w) && !slices.Contains(visits[by[w]].Windows, w) {
				by[w] = i
			}
		}
	}
	return by
}

// meets reports whether a window is met by a visit that is made.
func (v Visiting) meets(visit HomeVisit, w Window) bool {
	e, known := v.educator(visit.Educator)
	return known && visit.Home == w.Home && w.Holds(visit.On) && w.Person != visit.Educator && e.mayObserve(w.Need.Skill, visit.On)
}

// minutesOf is the travel of all visits but a barred one, each day in the order of the least.
func (v Visiting) minutesOf(visits []HomeVisit, barred int) int {
	homes := map[dayOf][]ClientID{}
	for i, visit := range visits {
		if i != barred {
			key := dayOf{visit.Educator, visit.On}
			homes[key] = append(homes[key], visit.Home)
		}
	}
	sum := 0
	for key, there := range homes {
		e, _ := v.educator(key.educator)
		sum += v.Round(e, there).Minutes
	}
	return sum
}

// Round is an educator's way to some homes and back in the order of the least travel, up
// to seven homes; more are put in one by one where they make the way least longer.
func (v Visiting) Round(e VisitEducator, homes []ClientID) EducatorDay {
	ordered := slices.Clone(homes)
	slices.Sort(ordered)
	p := planning{v: Visiting{Educators: []VisitEducator{e}, Distances: v.Distances}, homes: ordered, slots: []slot{{}}}
	p.measure()
	d := draft{p: &p}
	var w way
	for i := range ordered {
		d.visits = append(d.visits, drafted{home: i})
		w, _ = d.placed(0, w, i)
	}
	day := EducatorDay{Educator: e.Person}
	w = d.shortest(0, w)
	for _, i := range w {
		day.Homes = append(day.Homes, ordered[i])
	}
	day.Minutes = d.minutesOf(0, w)
	return day
}
