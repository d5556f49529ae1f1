package reports

// tableRow sets one row. Its lines are strips that are kept together unless the
// row is longer than a page.
func (p *paper) tableRow(columns []column, widths []float64, r tableRow, again []atom) []atom {
	set := [][]line{p.lines(r.left, p.labelRight-p.labelLeft)}
	var edges []float64
	x := p.left
	for i, c := range r.cells {
		set = append(set, p.linesOf(smaller(c), widths[i]))
		edges = append(edges, x)
		x += widths[i] + columnGap
	}
	all := p.side(set, func(i int, l line) float64 {
		if i == 0 {
			return p.labelRight - l.width
		}
		return aligned(columns[i-1].align, edges[i-1], widths[i-1], l)
	})
	for i := range all {
		all[i].again = again
	}
	all[0] = lowered(all[0], cellAbove)
	last := &all[len(all)-1]
	last.height += cellBelow
	last.drawing = append(last.drawing, straight(p.left, last.height, p.right, last.height, 0.5, ruleInk))
	return unbroken(all)
}

func smaller(pieces []words) []words {
	all := make([]words, len(pieces))
	for i, w := range pieces {
		all[i] = w.smaller()
	}
	return all
}

// side puts columns of lines side by side as one atom that is read column by
// column, or, where no page could hold it, strip by strip.
func (p *paper) side(set [][]line, x func(column int, l line) float64) []atom {
	strips := level(set, x)
	one := atom{height: stack(strips)}
	if one.height > (p.bottom-p.freshTop())*0.8 { // the rest is for headers that are repeated above it
		return strips
	}
	for i, lines := range set {
		y := 0.0
		for n, l := range lines {
			one.drawing = append(one.drawing, l.at(x(i, l), y+standsOn(set, n))...)
			y += strips[n].height
		}
	}
	return []atom{one}
}

// level puts columns of lines side by side: strip n holds line n of each, all on
// one baseline. It makes one strip at least. The place of a line is given by x.
func level(set [][]line, x func(column int, l line) float64) []atom {
	count := 1
	for _, lines := range set {
		count = max(count, len(lines))
	}
	all := make([]atom, count)
	for n := range all {
		all[n] = strip(set, n, x)
	}
	return all
}

func strip(set [][]line, n int, x func(column int, l line) float64) atom {
	above, below := standsOn(set, n), 0.0
	for _, lines := range set {
		if n < len(lines) {
			below = max(below, lines[n].style.lead-lines[n].style.baseline())
		}
	}
	if above+below == 0 {
		return atom{height: textStyle.lead}
	}
	a := atom{height: above + below}
	for i, lines := range set {
		if n < len(lines) {
			a.drawing = append(a.drawing, lines[n].at(x(i, lines[n]), above)...)
		}
	}
	return a
}

// standsOn is the common baseline of line n of several columns, below the top of
// their strip.
func standsOn(set [][]line, n int) float64 {
	above := 0.0
	for _, lines := range set {
		if n < len(lines) {
			above = max(above, lines[n].style.baseline())
		}
	}
	return above
}

// lowered is an atom with its drawing moved down by that much.
func lowered(a atom, by float64) atom {
	a.drawing = a.drawing.moved(0, by)
	a.height += by
	return a
}
