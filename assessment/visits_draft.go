package assessment

import "slices"

// draft is a plan that is being made: which windows are met by which visit at which
// educator-day. Slices within slices are never changed in place, so that a copy is cheap.
type draft struct {
	p      *planning
	visits []drafted
	of     []int   // the visit of each window; -1: none
	at     [][]int // visits by educator-day
	byHome [][]int // visits by home
	met    int
	count  int // visits
}

// drafted is one visit. One without windows is no visit any more.
type drafted struct {
	home    int
	windows []int
	can     slotSet // educator-days at which all its windows can be met
	at      int     // -1: nowhere
}

func (p *planning) empty() *draft {
	d := &draft{p: p, of: make([]int, len(p.windows)), at: make([][]int, len(p.slots)), byHome: make([][]int, len(p.homes))}
	for w := range d.of {
		d.of[w] = -1
	}
	return d
}

func (d *draft) copied() *draft {
	c := *d
	c.visits, c.of = slices.Clone(d.visits), slices.Clone(d.of)
	c.at, c.byHome = slices.Clone(d.at), slices.Clone(d.byHome)
	return &c
}

// better reports whether d meets more windows than e, or as many with fewer visits.
func (d *draft) better(e *draft) bool {
	return d.met > e.met || d.met == e.met && d.count < e.count
}

// draft meets windows by earliest deadline, moving visits where that makes room.
func (p *planning) draft() *draft {
	d := p.empty()
	for w := range p.windows {
		d.insert(w)
	}
	return d
}

// insert meets a window by a visit that is made anyway, or else by a new one.
func (d *draft) insert(w int) bool { return d.of[w] >= 0 || d.join(w) || d.begin(w) }

// join meets a window by a visit to its home: one that need not move, if there is any.
func (d *draft) join(w int) bool {
	options := d.p.options[w]
	for _, v := range d.byHome[d.p.home[w]] {
		if options.has(d.visits[v].at) {
			d.take(v, w, d.visits[v].can.and(options))
			return true
		}
	}
	for _, v := range d.byHome[d.p.home[w]] {
		if both := d.visits[v].can.and(options); !both.empty() && d.move(v, both) {
			d.take(v, w, both)
			return true
		}
	}
	return false
}

func (d *draft) take(v, w int, can slotSet) {
	d.visits[v].windows = append(slices.Clip(d.visits[v].windows), w)
	d.visits[v].can = can
	d.of[w] = v
	d.met++
}

// begin meets a window by a visit of its own.
func (d *draft) begin(w int) bool {
	v := len(d.visits)
	d.visits = append(d.visits, drafted{home: d.p.home[w], at: -1})
	if !d.move(v, d.p.options[w]) {
		d.visits = d.visits[:v]
		return false
	}
	h := d.p.home[w]
	d.byHome[h] = append(slices.Clip(d.byHome[h]), v)
	d.count++
	d.take(v, w, d.p.options[w])
	return true
}

// remove takes a visit out of the plan; it answers the windows that it met.
func (d *draft) remove(v int) []int {
	was := d.visits[v]
	d.put(v, -1)
	d.byHome[was.home] = lessOne(d.byHome[was.home], v)
	for _, w := range was.windows {
		d.of[w] = -1
	}
	d.met -= len(was.windows)
	d.count--
	d.visits[v].windows = nil
	return was.windows
}

// put moves a visit to an educator-day, or to none, whatever room there is.
func (d *draft) put(v, slot int) {
	if was := d.visits[v].at; was >= 0 {
		d.at[was] = lessOne(d.at[was], v)
	}
	d.visits[v].at = slot
	if slot >= 0 {
		d.at[slot] = append(slices.Clip(d.at[slot]), v)
	}
}

func lessOne(list []int, v int) []int {
	left := make([]int, 0, len(list))
	for _, x := range list {
		if x != v {
			left = append(left, x)
		}
	}
	return left
}

func (d *draft) full(slot int) bool { return len(d.at[slot]) >= d.p.slots[slot].room }

// move finds an educator-day among some for a visit, moving others out of the way where
// that helps: a shortest augmenting path (Kuhn 1955), so that whatever can be placed
// together is.
func (d *draft) move(v int, can slotSet) bool {
	from := make([]int, len(d.p.slots)) // the visit that would come to an educator-day
	end, _ := d.reach(v, can, from)
	if end < 0 {
		return false
	}
	for {
		mover := from[end]
		next := d.visits[mover].at
		d.put(mover, end)
		if mover == v {
			return true
		}
		end = next
	}
}

// reach looks for an educator-day with room that a visit, or one that it pushes on, could
// come to. Where there is none it answers -1 and all educator-days that it came across:
// all full, and none of the visits there can be anywhere else.
func (d *draft) reach(v int, can slotSet, from []int) (int, slotSet) {
	seen := d.p.noSlots()
	queue := make([]int, 0, len(from))
	look := func(mover int, open slotSet) int {
		for i, word := range open {
			fresh := slotSet{word &^ seen[i]}
			for k := range fresh.each {
				s := i*64 + k
				seen.put(s)
				from[s] = mover
				if !d.full(s) || mover != v && d.visits[v].at == s {
					return s
				}
				queue = append(queue, s)
			}
		}
		return -1
	}
	if end := look(v, can); end >= 0 {
		return end, seen
	}
	for len(queue) > 0 {
		s := queue[0]
		queue = queue[1:]
		for _, other := range d.at[s] {
			if other == v {
				continue
			}
			if end := look(other, d.visits[other].can); end >= 0 {
				return end, seen
			}
		}
	}
	return -1, seen
}
