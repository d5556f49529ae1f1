package assessment

import (
	"math/bits"
	"slices"

	"wellshown/assessment/civil"
)

// slotSet is a set of educator-days by number.
type slotSet []uint64

func (s slotSet) has(i int) bool { return s[i/64]>>(i%64)&1 == 1 }
func (s slotSet) put(i int)      { s[i/64] |= 1 << (i % 64) }

func (s slotSet) empty() bool {
	for _, word := range s {
		if word != 0 {
			return false
		}
	}
	return true
}

func (s slotSet) meets(t slotSet) bool {
	for i, word := range s {
		if word&t[i] != 0 {
			return true
		}
	}
	return false
}

func (s slotSet) within(t slotSet) bool {
	for i, word := range s {
		if word&^t[i] != 0 {
			return false
		}
	}
	return true
}

func (s slotSet) and(t slotSet) slotSet {
	both := make(slotSet, len(s))
	for i, word := range s {
		both[i] = word & t[i]
	}
	return both
}

// each gives the members in order until told to stop.
func (s slotSet) each(yield func(int) bool) {
	for i, word := range s {
		for ; word != 0; word &= word - 1 {
			if !yield(i*64 + bits.TrailingZeros64(word)) {
				return
			}
		}
	}
}

// slot is one educator on one day, with room for visits.
type slot struct {
	educator int
	on       civil.Date
	room     int
}

// planning is a Visiting in numbers: windows by deadline, homes by id, and educator-days
// with room, in order of day and then of educator.
type planning struct {
	v       Visiting
	windows []Window // those that can be met, by deadline
	lost    []Unmet  // those that cannot
	slots   []slot
	options []slotSet // by window: where it can be met
	homes   []ClientID
	home    []int   // by window
	of      [][]int // windows by home
	minutes [][]int // between homes, and from where each educator starts: those come after the homes
}

func newPlanning(v Visiting) *planning {
	p := &planning{v: v}
	ordered := slices.Clone(v.Windows)
	slices.SortFunc(ordered, byDeadline)
	p.makeSlots(ordered)
	skills := map[string]slotSet{}
	for _, w := range ordered {
		seen, known := skills[w.Need.Skill]
		if !known {
			seen = p.seenAt(w.Need.Skill)
			skills[w.Need.Skill] = seen
		}
		open := p.optionsOf(w, seen)
		if open.empty() {
			p.lost = append(p.lost, v.cannot(w, nil))
			continue
		}
		p.windows, p.options = append(p.windows, w), append(p.options, open)
		p.homes = append(p.homes, w.Home)
	}
	slices.Sort(p.homes)
	p.homes = slices.Compact(p.homes)
	p.of = make([][]int, len(p.homes))
	for i, w := range p.windows {
		h, _ := slices.BinarySearch(p.homes, w.Home)
		p.home = append(p.home, h)
		p.of[h] = append(p.of[h], i)
	}
	p.measure()
	return p
}

// measure takes the distances between all places.
func (p *planning) measure() {
	var places []string
	for _, h := range p.homes {
		places = append(places, string(h))
	}
	for _, e := range p.v.Educators {
		places = append(places, e.Base)
	}
	p.minutes = make([][]int, len(places))
	for a := range places {
		p.minutes[a] = make([]int, len(places))
		for b := range places {
			p.minutes[a][b] = p.v.Distances.Between(places[a], places[b])
		}
	}
}

// makeSlots lists the educator-days of the days that lie in some window.
func (p *planning) makeSlots(ordered []Window) {
	var next civil.Date // the days before it are done
	spans := slices.Clone(ordered)
	slices.SortFunc(spans, func(a, b Window) int { return a.Opens.Compare(b.Opens) })
	for _, w := range spans {
		from := civil.Later(civil.Later(w.Opens, p.v.From), next)
		for i := range civil.Earlier(w.Through, p.v.last()).Sub(from) + 1 {
			day := from.AddDays(i)
			for e, educator := range p.v.Educators {
				if room := educator.room(day); room > 0 {
					p.slots = append(p.slots, slot{e, day, room})
				}
			}
			next = day.AddDays(1)
		}
	}
}

func (p *planning) noSlots() slotSet { return make(slotSet, (len(p.slots)+63)/64) }

func (p *planning) seenAt(skill string) slotSet {
	seen := p.noSlots()
	for i, s := range p.slots {
		if p.v.Educators[s.educator].mayObserve(skill, s.on) {
			seen.put(i)
		}
	}
	return seen
}

// optionsOf are the educator-days at which a window can be met.
func (p *planning) optionsOf(w Window, seen slotSet) slotSet {
	open := p.noSlots()
	first, _ := slices.BinarySearchFunc(p.slots, w.Opens, func(s slot, d civil.Date) int { return s.on.Compare(d) })
	for i := first; i < len(p.slots) && !p.slots[i].on.After(w.Through); i++ {
		if seen.has(i) && p.v.Educators[p.slots[i].educator].Person != w.Person {
			open.put(i)
		}
	}
	return open
}

// cannot says why a window is met by no visit; visits tells how many an educator makes on
// a day of the plan.
func (v Visiting) cannot(w Window, visits map[dayOf]int) Unmet {
	u := Unmet{Window: w, Why: NobodyObserves}
	from := civil.Later(w.Opens, v.From)
	switch {
	case w.Through.Before(from):
		u.Why = WindowOver
		return u
	case v.last().Before(from):
		u.Why = OpensLater
		return u
	}
	for _, e := range v.Educators {
		if e.Person == w.Person || len(e.Observes[w.Need.Skill]) == 0 {
			continue
		}
		f := Unfree{Person: e.Person, Name: e.Name}
		for i := range civil.Earlier(w.Through, v.last()).Sub(from) + 1 {
			day := from.AddDays(i)
			switch {
			case !e.mayObserve(w.Need.Skill, day):
			case e.isOff(day):
				f.Off = append(f.Off, day)
			case e.room(day) <= visits[dayOf{e.Person, day}]:
				f.Full = append(f.Full, day)
			}
		}
		if len(f.Off)+len(f.Full) > 0 {
			u.Why, u.Educators = OffOrFull, append(u.Educators, f)
		}
	}
	return u
}

// dayOf is an educator's day.
type dayOf struct {
	educator PersonID
	on       civil.Date
}
