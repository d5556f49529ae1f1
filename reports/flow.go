package reports

// atom is a strip of a page that is never broken: a line of text, a row of a
// table, a block of signatures. Its drawing starts at y = 0; x is that of the page.
type atom struct {
	before  float64 // space above it, left out at the top of a page
	height  float64
	drawing drawing
	keep    bool   // stays on the page of the atom that follows
	again   []atom // printed above it when it begins a page: a table's header
}

// add puts atoms on the paper, one below the other. An atom that is kept with the
// next waits for it.
func (p *paper) add(atoms ...atom) {
	for _, a := range atoms {
		a.before += p.space
		p.space = 0
		if len(p.places) > 0 {
			a.drawing = append(begins(p.places), a.drawing...)
			p.places = nil
		}
		p.held = append(p.held, a)
		if p.bound == 0 && !a.keep {
			p.flush()
		}
	}
}

// together keeps all that fill adds on one page, where one page can hold it.
func (p *paper) together(fill func()) {
	p.bound++
	fill()
	p.bound--
	if n := len(p.held); p.bound == 0 && n > 0 && !p.held[n-1].keep {
		p.flush()
	}
}

// gap adds space, which is left out at the top of a page.
func (p *paper) gap(height float64) { p.space += height }

// flush places what was held: on this page or the next if one holds all of it,
// else chain by chain, and a chain longer than a page atom by atom from the top of one.
func (p *paper) flush() {
	group := p.held
	p.held = nil
	if p.place(group) || len(group) == 0 {
		return
	}
	for _, chain := range chains(group) {
		if p.place(chain) {
			continue
		}
		if !p.fresh() {
			p.turn(chain[0])
		}
		for i := range chain {
			p.force(chain[i : i+1])
		}
	}
}

// chains splits a group behind each atom that is not kept with the next.
func chains(group []atom) [][]atom {
	var all [][]atom
	from := 0
	for i, a := range group {
		if !a.keep || i == len(group)-1 {
			all = append(all, group[from:i+1])
			from = i + 1
		}
	}
	return all
}

// place puts the whole group on this page or on the next and reports whether it
// could. What could not is left for smaller pieces.
func (p *paper) place(group []atom) bool {
	if p.fits(group) {
		p.force(group)
		return true
	}
	if len(group) == 0 || stack(group[0].again)+stack(group) > p.bottom-p.freshTop() {
		return false
	}
	p.turn(group[0])
	p.force(group)
	return true
}

// force puts a group here, turning the page first where it does not fit.
func (p *paper) force(group []atom) {
	if !p.fits(group) && !p.fresh() {
		p.turn(group[0])
	}
	for _, a := range group {
		if !p.fresh() {
			p.y += a.before
		}
		p.draw(a.drawing.moved(0, p.y))
		p.y += a.height
	}
}

func (p *paper) fits(group []atom) bool {
	need := stack(group)
	if !p.fresh() && len(group) > 0 {
		need += group[0].before
	}
	return p.y+need <= p.bottom+0.01
}

// stack is the height of atoms on top of one another at the top of a page.
func stack(group []atom) float64 {
	sum := 0.0
	for i, a := range group {
		sum += a.height
		if i > 0 {
			sum += a.before
		}
	}
	return sum
}

// turn begins a page, repeating what next wants above itself.
func (p *paper) turn(next atom) {
	p.pages, p.heads = append(p.pages, nil), append(p.heads, p.finding)
	p.y = p.freshTop()
	p.start = p.y
	for _, a := range next.again {
		p.draw(a.drawing.moved(0, p.y))
		p.y += a.height
	}
	p.start = p.y
}

// fresh reports whether nothing has been put on this page yet, repeated headers aside.
func (p *paper) fresh() bool { return p.y == p.start }

// freshTop is where the words of the page begin that comes next.
func (p *paper) freshTop() float64 { return p.top + runningHead }

// sink puts an atom at the foot of this page, or of the next where there is no
// room for it.
func (p *paper) sink(a atom) {
	p.flush()
	if !p.fits([]atom{a}) && !p.fresh() {
		p.turn(a)
	}
	p.y = max(p.y, p.bottom-a.height)
	p.draw(a.drawing.moved(0, p.y))
	p.y = p.bottom
}

func (p *paper) draw(d drawing) {
	last := len(p.pages) - 1
	p.pages[last] = append(p.pages[last], d...)
}

// begins are the places that begin with an atom, at its top.
func begins(all []place) drawing {
	var d drawing
	for _, a := range all {
		d = append(d, a)
	}
	return d
}
