package reports

// line is one line of clean text, ready to be drawn.
type line struct {
	style  style
	face   *face
	text   string
	width  float64 // of all of it, shape and gap too
	indent float64 // of the text, behind a shape
	shape  shape
	rule   float64 // length of the rule to write on, before the text
}

// lines sets one piece of what a paper says to a width.
func (p *paper) lines(w words, width float64) []line {
	if w.rule {
		return []line{p.ruled(w, width)}
	}
	indent := w.shape.span()
	if w.shape != noShape && w.text != "" {
		indent += shapeGap
	}
	f, clean := p.set(w.style, w.text)
	var out []line
	for _, t := range wrap(f, w.style.size, clean, width-indent) {
		out = append(out, line{style: w.style, face: f, text: t, indent: indent, width: indent + f.width(t, w.style.size)})
	}
	if w.shape != noShape {
		if len(out) == 0 {
			out = []line{{style: w.style, face: f, width: indent}}
		}
		out[0].shape = w.shape
	}
	return out
}

// balanced is lines of about equal length, as many as it takes to fill width.
func (p *paper) balanced(w words, width float64) []line {
	best := p.lines(w, width)
	for narrow := width * 0.95; narrow > width/2; narrow -= width * 0.05 {
		tried := p.lines(w, narrow)
		if len(tried) > len(best) {
			break
		}
		best = tried
	}
	return best
}

// ruled is a rule as long as there is room, with its unit behind it.
func (p *paper) ruled(w words, width float64) line {
	f, clean := p.set(w.style, oneLine(w.text))
	l := line{style: w.style, face: f, width: width}
	if clean != "" {
		l.text = clipped(f, w.style.size, clean, width*0.6)
		l.rule = width - f.width(l.text, w.style.size) - 4
		l.indent = l.rule + 4
		return l
	}
	l.rule = width
	return l
}

// at draws l from x, its letters standing on y.
func (l line) at(x, y float64) drawing {
	var d drawing
	if l.shape != noShape {
		d = append(d, l.shape.at(x+l.shape.span()/2, y-l.style.capital()/2)...)
	}
	if l.rule > 0 {
		d = append(d, straight(x, y+2, x+l.rule, y+2, 0.6, ink))
	}
	if l.text != "" {
		d = append(d, writing{x: x + l.indent, y: y, face: l.face, size: l.style.size, colour: l.style.colour, text: l.text})
	}
	return d
}

// height is the height of lines on top of one another.
func height(lines []line) float64 {
	sum := 0.0
	for _, l := range lines {
		sum += l.style.lead
	}
	return sum
}

// linesOf sets several pieces one below the other.
func (p *paper) linesOf(pieces []words, width float64) []line {
	var all []line
	for _, w := range pieces {
		all = append(all, p.lines(w, width)...)
	}
	return all
}

// atoms makes each line an atom at x.
func atoms(lines []line, x float64) []atom {
	all := make([]atom, len(lines))
	for i, l := range lines {
		all[i] = atom{height: l.style.lead, drawing: l.at(x, l.style.baseline())}
	}
	return all
}

// unbroken keeps the atoms on one page.
func unbroken(all []atom) []atom {
	for i := range all {
		all[i].keep = i < len(all)-1
	}
	return all
}

// unorphaned lets a paragraph break, but never behind its first line or before its last.
func unorphaned(all []atom) []atom {
	n := len(all)
	for i := range all {
		all[i].keep = n > 1 && (i == 0 || i == n-2)
	}
	return all
}
