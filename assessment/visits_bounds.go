package assessment

import (
	"math/bits"
	"slices"
)

// common counts the members of both.
func (s slotSet) common(t slotSet) int {
	n := 0
	for i, word := range s {
		n += bits.OnesCount64(word & t[i])
	}
	return n
}

func (p *planning) everySlot() slotSet {
	all := p.noSlots()
	for i := range p.slots {
		all.put(i)
	}
	return all
}

// leastVisits is how many visits some homes need for all their windows, were there room
// on every day: windows of which no two can be met by one visit each need their own.
// Where a draft makes more, each home is searched through by itself.
func (p *planning) leastVisits(d *draft, homes []int) int {
	all, every := 0, p.everySlot()
	for _, h := range homes {
		s := search{p: p, windows: p.of[h], open: every, done: make([]bool, len(p.windows))}
		least := s.apart()
		if len(d.byHome[h]) > least {
			if found, sure := p.alone(h); sure {
				least = found.fewest
			}
		}
		all += least
	}
	return all
}

// mostMet is how many windows of some homes any plan could meet. What a draft leaves unmet
// can only be met at educator-days that are all full, of visits that can be nowhere else
// (König 1931, Hall 1935): with so many visits no more than so many of the windows that
// lie there altogether can be met.
func (p *planning) mostMet(d *draft, homes []int, windows int) int {
	var crowded []slotSet // sets that have nothing in common
	from := make([]int, len(p.slots))
	for _, h := range homes {
		for _, w := range p.of[h] {
			if d.of[w] >= 0 {
				continue
			}
			d.visits = append(d.visits, drafted{home: h, at: -1})
			end, there := d.reach(len(d.visits)-1, p.options[w], from)
			d.visits = d.visits[:len(d.visits)-1]
			if end >= 0 {
				return windows
			}
			crowded = slices.DeleteFunc(crowded, func(other slotSet) bool {
				if !other.meets(there) {
					return false
				}
				for i, word := range other {
					there[i] |= word
				}
				return true
			})
			crowded = append(crowded, there)
		}
	}
	for _, there := range crowded {
		windows -= p.tooMany(homes, there)
	}
	return windows
}

// tooMany is how many of the windows that can be met at some educator-days alone cannot
// be, all the same.
func (p *planning) tooMany(homes []int, there slotSet) int {
	visits := 0
	for at := range there.each {
		visits += p.slots[at].room
	}
	gains, inside := p.gains(homes, there)
	for _, g := range gains[:min(visits, len(gains))] {
		inside -= g
	}
	return inside
}

// gains are what each further visit to some homes can meet at most, the most first, of
// the windows that can be met at some educator-days alone; and how many those are.
func (p *planning) gains(homes []int, there slotSet) ([]int, int) {
	var gains []int
	inside := 0
	for _, h := range homes {
		most, own := 0, 0
		meets := map[int]int{}
		for _, w := range p.of[h] {
			if p.options[w].within(there) {
				own++
				for at := range p.options[w].each {
					meets[at]++
					most = max(most, meets[at])
				}
			}
		}
		inside += own
		for ; own > 0; own -= most {
			gains = append(gains, min(most, own))
		}
	}
	slices.SortFunc(gains, func(a, b int) int { return b - a })
	return gains, inside
}

// visitsFor is how many visits at least it takes to meet so many windows, whichever.
func (p *planning) visitsFor(met int) int {
	gains, _ := p.gains(p.allHomes(), p.everySlot())
	for i, g := range gains {
		if met <= 0 {
			return i
		}
		met -= g
	}
	return len(gains)
}

// alone searches for the fewest visits that one home could do with, were there room each
// day, and answers whether it saw all there is.
func (p *planning) alone(home int) (*search, bool) {
	free := make([]bool, len(p.slots))
	for i := range free {
		free[i] = true
	}
	return p.exact([]int{home}, free, 0, 0, workOnHome)
}
