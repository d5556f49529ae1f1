package assessment

import "slices"

// search goes through all plans for some homes that could be better than the best known,
// branch and bound: of the windows that are still open it takes the one with the fewest
// educator-days left, and tries each of them and then to leave it unmet.
type search struct {
	p       *planning
	windows []int
	free    []bool // by educator-day: there is always room for these homes
	room    []int  // left, by educator-day
	open    slotSet
	done    []bool // by window: met, or given up
	met     int
	made    []point
	best    []point // nil: nothing better than at the start
	most    int     // of the best
	fewest  int
	work    int  // how much may still be done
	ways    bool // look for the least travel of those that are as good as the best
	minutes int  // the least known
}

// point is a visit to a home at an educator-day.
type point struct{ home, slot int }

// exact searches for homes, given the most windows and fewest visits known. It answers
// whether it saw all there is; what it found is in best.
func (p *planning) exact(homes []int, free []bool, most, fewest, work int) (*search, bool) {
	s := p.searching(homes, free, work)
	s.most, s.fewest = most, fewest
	s.branch()
	return s, s.work >= 0
}

func (p *planning) searching(homes []int, free []bool, work int) *search {
	s := &search{p: p, free: free, room: make([]int, len(p.slots)), open: p.noSlots(), done: make([]bool, len(p.windows)), work: work}
	for i, at := range p.slots {
		s.room[i] = at.room
		s.open.put(i)
	}
	for _, h := range homes {
		s.windows = append(s.windows, p.of[h]...)
	}
	return s
}

func (s *search) branch() {
	s.work -= len(s.windows) * (1 + len(s.open))
	if s.work < 0 {
		return
	}
	next, left := s.tightest()
	if s.ways && s.met == s.most && len(s.made) == s.fewest {
		if minutes := s.p.waysOf(s.made); minutes < s.minutes {
			s.minutes, s.best = minutes, slices.Clone(s.made)
		}
		return
	}
	if s.met > s.most || s.met == s.most && len(s.made) < s.fewest {
		s.most, s.fewest, s.best = s.met, len(s.made), append([]point{}, s.made...)
	}
	reach := s.met + left
	enough := s.fewest // visits: with so many it is no better
	if s.ways {
		enough++
	}
	if left == 0 || reach < s.most || reach == s.most && len(s.made)+s.apart() >= enough {
		return
	}
	for _, choice := range s.choices(next) {
		s.take(next, choice)
	}
	s.done[next] = true
	s.branch()
	s.done[next] = false
}

// choice is an educator-day with the open windows that a visit then would meet.
type choice struct {
	slot  int
	meets []int
}

// take tries a visit.
func (s *search) take(next int, c choice) {
	for _, w := range c.meets {
		s.done[w] = true
	}
	s.met += len(c.meets)
	s.made = append(s.made, point{s.p.home[next], c.slot})
	if s.room[c.slot]--; s.room[c.slot] == 0 && !s.free[c.slot] {
		s.open[c.slot/64] &^= 1 << (c.slot % 64)
	}
	s.branch()
	s.room[c.slot]++
	s.open.put(c.slot)
	s.made = s.made[:len(s.made)-1]
	s.met -= len(c.meets)
	for _, w := range c.meets {
		s.done[w] = false
	}
}

// tightest is the open window with the fewest educator-days left, and how many open
// windows have any.
func (s *search) tightest() (int, int) {
	next, least, left := -1, 0, 0
	for _, w := range s.windows {
		if s.done[w] {
			continue
		}
		if n := s.p.options[w].common(s.open); n > 0 {
			left++
			if next < 0 || n < least {
				next, least = w, n
			}
		}
	}
	return next, left
}

// apart counts open windows of which no two can be met by one visit.
func (s *search) apart() int {
	var chosen []int
	for _, w := range s.windows {
		if s.done[w] || s.p.options[w].common(s.open) == 0 {
			continue
		}
		if !slices.ContainsFunc(chosen, func(c int) bool { return s.p.together(c, w, s.open) }) {
			chosen = append(chosen, w)
		}
	}
	return len(chosen)
}

// together reports whether one visit could meet two windows, at an educator-day of some.
func (p *planning) together(a, b int, open slotSet) bool {
	return p.home[a] == p.home[b] && p.options[a].and(open).meets(p.options[b])
}

// choices are the visits that could meet a window, those that meet most first. Where there
// is always room, one that meets no more than another is left out.
func (s *search) choices(next int) []choice {
	var all []choice
	for at := range s.p.options[next].and(s.open).each {
		c := choice{slot: at}
		for _, w := range s.p.of[s.p.home[next]] {
			if !s.done[w] && s.p.options[w].has(at) {
				c.meets = append(c.meets, w)
			}
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b choice) int { return len(b.meets) - len(a.meets) })
	var kept []choice
	for _, c := range all {
		if !slices.ContainsFunc(kept, func(k choice) bool { return s.free[k.slot] && subset(c.meets, k.meets) }) {
			kept = append(kept, c)
		}
	}
	return kept
}

// subset reports whether each of a is in b; both are in order.
func subset(a, b []int) bool {
	for _, x := range a {
		if _, in := slices.BinarySearch(b, x); !in {
			return false
		}
	}
	return true
}
