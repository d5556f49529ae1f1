package reports

// letterhead opens a paper: the agency, small, and the finding as a sentence.
func (p *paper) letterhead(finding string) {
	p.finding = finding
	agency := words{style: style{sans, 10, 15, softInk}, text: p.meta.Agency}
	all := atoms(p.lines(agency, p.room()), p.left)
	title := atoms(p.balanced(words{style: titleStyle, text: finding}, p.room()), p.left)
	if len(title) > 0 {
		title[0].before = 13
	}
	p.add(unbroken(append(all, title...))...)
	p.gap(20)
}

// heading opens a part. It never stands alone at the foot of a page.
func (p *paper) heading(s string) {
	all := atoms(p.lines(words{style: headingStyle, text: s}, p.room()), p.left)
	for i := range all {
		all[i].keep = true
	}
	if len(all) == 0 {
		return
	}
	all[0].before = 18
	p.add(all...)
}

// paragraph is running text.
func (p *paper) paragraph(s string) { p.running(text(s)) }

// note is running text of less weight.
func (p *paper) note(s string) { p.running(soft(s)) }

func (p *paper) running(w words) {
	all := unorphaned(atoms(p.lines(w, p.room()), p.left))
	if len(all) == 0 {
		return
	}
	all[0].before = 7
	p.add(all...)
}

// row puts pieces of text below one another, right of the margin line, and one
// label or mark left of it, level with the first of them. It stays on one page
// unless no page can hold it.
func (p *paper) row(left words, right ...words) {
	lines := p.linesOf(right, p.room())
	all := atoms(lines, p.left)
	first := textStyle
	if len(lines) > 0 {
		first = lines[0].style
	} else {
		all = []atom{{height: first.lead}}
	}
	all[0].before = 10
	p.beside(all, left, first.baseline())
	p.add(unbroken(all)...)
}

// beside draws what stands left of the margin line beside atoms, its first line on
// baseline, and makes room below where it reaches deeper than they do. It is
// drawn before them, as it is to be read aloud before them.
func (p *paper) beside(all []atom, left words, baseline float64) {
	deep, y := 0.0, baseline
	var first drawing
	for _, l := range p.lines(left, p.labelRight-p.labelLeft) {
		first = append(first, l.at(p.labelRight-l.width, y)...)
		deep = y + l.style.lead - l.style.baseline()
		y += l.style.lead
	}
	all[0].drawing = append(first, all[0].drawing...)
	for _, a := range all {
		deep -= a.height
	}
	all[len(all)-1].height += max(deep, 0)
}

// choices puts short pieces side by side, as many on a line as there is room for:
// boxes to tick with their words, or the key to the shapes on a paper.
func (p *paper) choices(left words, items ...words) {
	const between = 18
	lead := textStyle.lead + 3
	all := []atom{{before: 9, height: lead}}
	x := p.left
	for _, item := range items {
		lines := p.lines(item, p.room())
		if len(lines) == 0 {
			continue
		}
		if x > p.left && x+lines[0].width > p.right {
			x = p.left
			all = append(all, atom{height: lead})
		}
		last := &all[len(all)-1]
		last.drawing = append(last.drawing, lines[0].at(x, textStyle.baseline())...)
		for _, l := range lines[1:] {
			all = append(all, atom{height: lead, drawing: l.at(x, textStyle.baseline())})
		}
		x += lines[0].width + between
	}
	p.beside(all, left, textStyle.baseline())
	p.add(unorphaned(all)...)
}

// blanks are rules to write on by hand, side by side, each with its name below.
func (p *paper) blanks(left words, names ...string) {
	const between = 16
	if len(names) == 0 {
		return
	}
	w := (p.room() - between*float64(len(names)-1)) / float64(len(names))
	const rule, base = 24, 24 + 11
	var d drawing
	deep := 0.0
	for i, n := range names {
		x := p.left + float64(i)*(w+between)
		d = append(d, straight(x, rule, x+w, rule, 0.6, ink))
		y := float64(base)
		for _, l := range p.lines(label(n), w) {
			d = append(d, l.at(x, y)...)
			y += l.style.lead
		}
		deep = max(deep, y-base)
	}
	all := []atom{{before: 4, height: rule + 2 + deep, drawing: d}}
	p.beside(all, left, rule)
	p.add(all...)
}
