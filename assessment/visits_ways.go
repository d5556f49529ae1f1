package assessment

import "slices"

// mostPasses is how often all visits are looked at for a shorter way; common practice is
// to stop where nothing gets shorter, which comes sooner.
const mostPasses = 20

// way is the homes of an educator-day in order, as visits.
type way []int

// shortenWays moves visits to other educator-days at which all their windows can be met,
// and exchanges two of them, as long as that makes the ways shorter. Met windows and the
// number of visits stay as they are.
func (d *draft) shortenWays() {
	ways := make([]way, len(d.p.slots))
	for s := range ways {
		ways[s] = d.shortest(s, slices.Clone(d.at[s]))
	}
	for range mostPasses {
		shorter := false
		for v := range d.visits {
			if len(d.visits[v].windows) > 0 && (d.goElsewhere(v, ways) || d.exchange(v, ways)) {
				shorter = true
			}
		}
		if !shorter {
			return
		}
	}
}

// goElsewhere moves a visit to where it makes the way least longer, if that is shorter.
func (d *draft) goElsewhere(v int, ways []way) bool {
	from := d.visits[v].at
	saved := d.minutesOf(from, ways[from]) - d.minutesOf(from, ways[from].less(v))
	best, more := -1, saved
	for to := range d.visits[v].can.each {
		if to == from || d.full(to) {
			continue
		}
		if _, longer := d.placed(to, ways[to], v); longer < more {
			best, more = to, longer
		}
	}
	if best < 0 {
		return false
	}
	ways[from] = d.shortest(from, ways[from].less(v))
	added, _ := d.placed(best, ways[best], v)
	ways[best] = d.shortest(best, added)
	d.put(v, best)
	return true
}

// exchange lets two visits change places where that is shorter.
func (d *draft) exchange(v int, ways []way) bool {
	a := d.visits[v].at
	restA := ways[a].less(v)
	shortA := d.minutesOf(a, restA)
	for b := range d.visits[v].can.each {
		if b == a || !d.full(b) {
			continue
		}
		for _, u := range ways[b] {
			if !d.visits[u].can.has(a) {
				continue
			}
			restB := ways[b].less(u)
			newA, moreA := d.placed(a, restA, u)
			newB, moreB := d.placed(b, restB, v)
			if shortA+moreA+d.minutesOf(b, restB)+moreB < d.minutesOf(a, ways[a])+d.minutesOf(b, ways[b]) {
				d.put(v, b)
				d.put(u, a)
				ways[a], ways[b] = d.shortest(a, newA), d.shortest(b, newB)
				return true
			}
		}
	}
	return false
}

func (w way) less(v int) way { return lessOne(w, v) }

// placed is a way with one more visit where it makes it least longer, and by how much.
func (d *draft) placed(slot int, w way, v int) (way, int) {
	place, least := 0, -1
	for i := range len(w) + 1 {
		before, after := d.placeOf(slot, w, i-1), d.placeOf(slot, w, i)
		here := d.visits[v].home
		longer := d.p.minutes[before][here] + d.p.minutes[here][after]
		if len(w) > 0 {
			longer -= d.p.minutes[before][after]
		}
		if least < 0 || longer < least {
			place, least = i, longer
		}
	}
	return slices.Insert(slices.Clone(w), place, v), least
}

// placeOf is where the i-th visit of a way is; before the first and after the last it is
// where the educator starts.
func (d *draft) placeOf(slot int, w way, i int) int {
	if i < 0 || i >= len(w) {
		return len(d.p.homes) + d.p.slots[slot].educator
	}
	return d.visits[w[i]].home
}

// minutesOf is the travel of an educator-day; none where nobody is visited.
func (d *draft) minutesOf(slot int, w way) int {
	sum := 0
	for i := range len(w) {
		sum += d.p.minutes[d.placeOf(slot, w, i-1)][d.placeOf(slot, w, i)]
	}
	if len(w) > 0 {
		sum += d.p.minutes[d.placeOf(slot, w, len(w)-1)][d.placeOf(slot, w, len(w))]
	}
	return sum
}

// mostTried is for how many homes all orders are gone through: 5,040.
const mostTried = 7

// shortest is the shortest order of a way of up to seven homes; a longer one stays as it is.
func (d *draft) shortest(slot int, w way) way {
	if len(w) < 2 || len(w) > mostTried {
		return w
	}
	best, least := slices.Clone(w), d.minutesOf(slot, w)
	var try func(done, minutes int)
	now := slices.Clone(w)
	try = func(done, minutes int) {
		if minutes >= least {
			return
		}
		if done == len(now) {
			if sum := minutes + d.p.minutes[d.placeOf(slot, now, done-1)][d.placeOf(slot, now, done)]; sum < least {
				best, least = slices.Clone(now), sum
			}
			return
		}
		for i := done; i < len(now); i++ {
			now[done], now[i] = now[i], now[done]
			try(done+1, minutes+d.p.minutes[d.placeOf(slot, now, done-1)][d.placeOf(slot, now, done)])
			now[done], now[i] = now[i], now[done]
		}
	}
	try(0, 0)
	return best
}

// leastTravel looks through all plans that are as good as a draft of which it is proven
// that none is better, for the one with the least travel. It answers whether it saw all.
func (p *planning) leastTravel(d *draft) bool {
	if len(p.windows) > mostSearched || slices.ContainsFunc(p.slots, func(s slot) bool { return s.room > mostTried }) {
		return false
	}
	homes := p.allHomes()
	s := p.searching(homes, make([]bool, len(p.slots)), workOnWays)
	s.ways, s.most, s.fewest = true, d.met, d.count
	for at, there := range d.at {
		s.minutes += d.minutesOf(at, d.shortest(at, there))
	}
	if s.minutes > 0 {
		s.branch()
	}
	if s.best != nil {
		d.replace(homes, s.best)
	}
	return s.work >= 0
}

func (p *planning) allHomes() []int {
	homes := make([]int, len(p.homes))
	for h := range homes {
		homes[h] = h
	}
	return homes
}

// waysOf is the travel of some visits.
func (p *planning) waysOf(visits []point) int {
	d := draft{p: p}
	ways := map[int]way{}
	for v, at := range visits {
		d.visits = append(d.visits, drafted{home: at.home})
		ways[at.slot] = append(ways[at.slot], v)
	}
	sum := 0
	for at, w := range ways {
		sum += d.minutesOf(at, d.shortest(at, w))
	}
	return sum
}
