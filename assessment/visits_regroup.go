package assessment

import "slices"

// crowdsFirst makes a draft the other way round: always the visit that meets most of what
// is left, at a time for which there is room, and then whatever can still be met. Where
// educators are too few it does better than going by deadlines.
func (p *planning) crowdsFirst() *draft {
	d := p.empty()
	meets := make([][]int, len(p.homes)) // what is left, by home and educator-day
	for h, windows := range p.of {
		meets[h] = make([]int, len(p.slots))
		for _, w := range windows {
			for at := range p.options[w].each {
				meets[h][at]++
			}
		}
	}
	for {
		home, slot := d.largest(meets)
		if home < 0 {
			break
		}
		d.visitAt(home, slot)
		for at := range meets[home] {
			meets[home][at] = 0
		}
		for _, w := range p.of[home] {
			if d.of[w] < 0 {
				for at := range p.options[w].each {
					meets[home][at]++
				}
			}
		}
	}
	for w := range p.windows {
		d.insert(w)
	}
	return d
}

// largest is the home and educator-day with room at which most is left to be met, the
// first of several; -1 where nothing is.
func (d *draft) largest(meets [][]int) (int, int) {
	home, slot, most := -1, -1, 0
	for at := range d.p.slots {
		if d.full(at) {
			continue
		}
		for h := range meets {
			if meets[h][at] > most {
				home, slot, most = h, at, meets[h][at]
			}
		}
	}
	return home, slot
}

// visitAt adds a visit that meets all that is left of a home and can be met there and
// then, whatever room there is.
func (d *draft) visitAt(home, slot int) {
	v := len(d.visits)
	d.visits = append(d.visits, drafted{home: home, at: -1, can: d.p.everySlot()})
	d.put(v, slot)
	d.byHome[home] = append(slices.Clip(d.byHome[home]), v)
	d.count++
	for _, w := range d.p.of[home] {
		if d.of[w] < 0 && d.p.options[w].has(slot) {
			d.take(v, w, d.visits[v].can.and(d.p.options[w]))
		}
	}
}

// regroup gives a home that has more visits than it could do with the fewest, where room
// can be made for them.
func (d *draft) regroup() {
	for h := range d.p.homes {
		found, sure := d.p.alone(h)
		if !sure || len(d.byHome[h]) <= found.fewest {
			continue
		}
		c := d.copied()
		for _, v := range c.byHome[h] {
			c.remove(v)
		}
		for _, point := range found.best {
			c.visitAt(h, point.slot)
			v := len(c.visits) - 1
			c.put(v, -1)
			if !c.move(v, c.visits[v].can) {
				c.remove(v)
			}
		}
		for _, w := range c.p.of[h] {
			c.insert(w)
		}
		if c.better(d) {
			*d = *c
		}
	}
}
