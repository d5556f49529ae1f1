package assessment

import "slices"

// How much is tried to make a plan better and to prove it best, in steps and not in time,
// so that the same input gives the same plan.
const (
	triesToMeet  = 300_000   // over the number of visits: ways to make room for an unmet window
	workOnGroups = 8_000_000 // in all: looking at one window in 64 educator-days is one
	workOnHome   = 100_000   // for one home by itself
	workOnWays   = 2_000_000 // looking for the least travel
	mostSearched = 64        // windows in a group that is searched through
)

// visitBounds are what no plan can pass.
type visitBounds struct{ most, fewest int }

// improve makes a draft better where it can and says how good one could be.
func (p *planning) improve(d *draft) visitBounds {
	if d.met < len(p.windows) {
		if c := p.crowdsFirst(); c.better(d) {
			*d = *c
		}
	}
	d.makeRoom(triesToMeet / (1 + len(d.visits)))
	d.dissolve()
	d.regroup()
	free, groups := p.groups()
	var all visitBounds
	work, exactly, plain := workOnGroups, 0, 0
	for _, homes := range groups {
		windows := 0
		for _, h := range homes {
			windows += len(p.of[h])
		}
		met, count := d.metAt(homes)
		most, least := p.mostMet(d, homes, windows), p.leastVisits(d, homes)
		fewest := least - (windows - met)
		if (met < most || count > fewest) && windows <= mostSearched {
			s, all := p.exact(homes, free, met, count, work)
			work = max(s.work, 0)
			if s.best != nil {
				d.replace(homes, s.best)
				met, count = s.most, s.fewest
			}
			fewest = least - (windows - met)
			if all {
				most, fewest = met, count
			}
		}
		all.most += most
		exactly += max(fewest, 0)
		plain += least
	}
	all.fewest = exactly
	if d.met < all.most { // as many could be met with more of them in one group and fewer in another
		exactly = plain - (len(p.windows) - d.met)
	}
	all.fewest = max(exactly, p.visitsFor(d.met))
	return all
}

// groups are the homes that could be in each other's way, and the educator-days at which
// there is room for all who could want it.
func (p *planning) groups() ([]bool, [][]int) {
	free, group := make([]bool, len(p.slots)), make([]int, len(p.homes))
	wanted := make([]slotSet, len(p.homes))
	for h, windows := range p.of {
		group[h] = h
		wanted[h] = p.noSlots()
		for _, w := range windows {
			for i, word := range p.options[w] {
				wanted[h][i] |= word
			}
		}
	}
	for at := range p.slots {
		var who []int
		for h := range p.homes {
			if wanted[h].has(at) {
				who = append(who, h)
			}
		}
		if free[at] = len(who) <= p.slots[at].room; free[at] {
			continue
		}
		for _, h := range who[1:] {
			if from, to := group[h], group[who[0]]; from != to {
				for i, g := range group {
					if g == from {
						group[i] = to
					}
				}
			}
		}
	}
	members := make([][]int, len(p.homes))
	for h, g := range group {
		members[g] = append(members[g], h)
	}
	return free, slices.DeleteFunc(members, func(m []int) bool { return len(m) == 0 })
}

// metAt counts the windows met and the visits of some homes.
func (d *draft) metAt(homes []int) (int, int) {
	met, count := 0, 0
	for _, h := range homes {
		count += len(d.byHome[h])
		for _, v := range d.byHome[h] {
			met += len(d.visits[v].windows)
		}
	}
	return met, count
}

// replace gives homes other visits.
func (d *draft) replace(homes []int, with []point) {
	for _, h := range homes {
		for _, v := range slices.Clone(d.byHome[h]) {
			d.remove(v)
		}
	}
	for _, point := range with {
		d.visitAt(point.home, point.slot)
	}
}

// makeRoom tries to meet what is unmet: in the place of another visit, the windows of
// which go elsewhere, together or each by itself.
func (d *draft) makeRoom(tries int) {
	for again := true; again; {
		again = false
		for w := range d.p.windows {
			if d.insert(w) {
				continue
			}
			for at := range d.p.options[w].each {
				for _, other := range d.at[at] {
					if tries--; tries < 0 {
						return
					}
					if c := d.inPlaceOf(other, w, at); c.better(d) {
						*d, again = *c, true
						break
					}
				}
				if d.of[w] >= 0 {
					break
				}
			}
		}
	}
}

// inPlaceOf is the draft with a visit for an unmet window where another was.
func (d *draft) inPlaceOf(other, w, at int) *draft {
	c := d.copied()
	loose := c.remove(other)
	c.visitAt(c.p.home[w], at)
	for _, l := range loose {
		c.insert(l)
	}
	return c
}

// dissolve spares visits whose windows others to the same home can meet.
func (d *draft) dissolve() {
	for h := range d.p.homes {
		for _, v := range slices.Clone(d.byHome[h]) {
			if len(d.byHome[h]) < 2 {
				break
			}
			c, spared := d.copied(), true
			for _, w := range c.remove(v) {
				spared = spared && c.join(w)
			}
			if spared {
				*d = *c
			}
		}
	}
}
