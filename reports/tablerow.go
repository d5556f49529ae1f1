package reports

// tableRow sets one row. Its lines are strips that are kept together unless the
// row is longer than a page.
func (p *paper) tableRow(columns []column, widths []float64, r tableRow, again []atom) []atom {
	set := make([][]line, len(r.cells), len(r.cells)+1)
	edges := make([]float64, len(r.cells))
	x := p.left
	for i, c := range r.cells {
		set[i] = p.linesOf(smaller(c), widths[i])
		edges[i] = x
		x += widths[i] + columnGap
	}
	set = append(set, p.lines(r.left, p.labelRight-p.labelLeft))
	all := level(set, func(i int, l line) float64 {
		if i == len(edges) {
			return p.labelRight - l.width
		}
		return aligned(columns[i].align, edges[i], widths[i], l)
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
	var above, below float64
	for _, lines := range set {
		if n < len(lines) {
			s := lines[n].style
			above = max(above, s.baseline())
			below = max(below, s.lead-s.baseline())
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

// lowered is an atom with its drawing moved down by that much.
func lowered(a atom, by float64) atom {
	a.drawing = a.drawing.moved(0, by)
	a.height += by
	return a
}
