package reports

// align is how a column stands: words to the left, numbers to the right, boxes in
// the middle, there also under a title that is set upright where it would be wider.
type align uint8

const (
	toLeft align = iota
	toRight
	toMiddle
	underUpright
)

// column is one column of a table. Shares divide the width of the words.
type column struct {
	title string
	share float64
	align align
}

// tableRow is one line of a table: cells of one or more pieces below one another,
// and left of the margin line a number, a label or a mark. A row with a section
// opens a group instead: it has no cells, spans the width, and is repeated with
// the header where its group goes on over the page.
type tableRow struct {
	left    words
	cells   [][]words
	section []words
}

// table is rows under a header that is repeated on every page. Without rows it
// prints the sentence that says so.
type table struct {
	columns  []column
	rows     []tableRow
	empty    string
	withNext bool // the last row stays on the page of what follows, such as signatures
}

// cell is one cell of several pieces, cells is a row of cells of one piece each.
func cell(pieces ...words) []words { return pieces }

func cells(pieces ...words) [][]words {
	all := make([][]words, len(pieces))
	for i, w := range pieces {
		all[i] = []words{w}
	}
	return all
}

const (
	columnGap    = 10
	cellAbove    = 4.5
	cellBelow    = 5
	sectionAbove = 8
	uprightRoom  = 70 // for a title that is set upright
)

// table prints t. A fault in its making, such as a row with more cells than there
// are columns, is reported by bytes.
func (p *paper) table(t table) {
	if len(t.rows) == 0 {
		p.empty(t.empty)
		return
	}
	widths, err := p.columnWidths(t)
	if err != nil {
		p.fail(err)
		return
	}
	header := p.tableHeader(t.columns, widths)
	p.add(header)
	header.keep, header.before = false, 0
	repeat := []atom{header}
	for i, r := range t.rows {
		if len(r.section) > 0 {
			p.add(p.sectionRow(r, header)...)
			repeat = []atom{header, p.continued(r)}
			continue
		}
		strips := p.tableRow(t.columns, widths, r, repeat)
		strips[len(strips)-1].keep = t.withNext && i == len(t.rows)-1
		p.add(strips...)
	}
}

func (p *paper) empty(sentence string) {
	if sentence == "" {
		sentence = p.say.empty
	}
	p.paragraph(sentence)
}

func (p *paper) tableHeader(columns []column, widths []float64) atom {
	titles := make([][]line, len(columns))
	deep := 0.0
	for i, c := range columns {
		if c.align == underUpright {
			titles[i] = p.lines(label(c.title), uprightRoom)
			deep = max(deep, longest(titles[i]))
			continue
		}
		titles[i] = p.lines(label(c.title), widths[i])
		deep = max(deep, height(titles[i]))
	}
	a := atom{before: 12, height: deep + 4, keep: true}
	x := p.left
	for i, c := range columns {
		a.drawing = append(a.drawing, titled(c.align, titles[i], x, widths[i], deep)...)
		x += widths[i] + columnGap
	}
	a.drawing = append(a.drawing, straight(p.left, deep+4, p.right, deep+4, 0.7, ink))
	return a
}

// titled is the title of a column from x over width, standing on foot.
func titled(a align, title []line, x, width, foot float64) drawing {
	var d drawing
	if a == underUpright {
		feet := x + (width-height(title))/2
		for _, l := range title {
			d = append(d, writing{x: feet + l.style.baseline(), y: foot, face: l.face, size: l.style.size, colour: l.style.colour, text: l.text, upright: true})
			feet += l.style.lead
		}
		return d
	}
	y := foot - height(title) + labelStyle.baseline()
	for _, l := range title {
		d = append(d, l.at(aligned(a, x, width, l), y)...)
		y += l.style.lead
	}
	return d
}

func longest(lines []line) float64 {
	far := 0.0
	for _, l := range lines {
		far = max(far, l.width)
	}
	return far
}

// aligned is where a line of a cell begins that reaches from x over width.
func aligned(a align, x, width float64, l line) float64 {
	switch a {
	case toRight:
		return x + width - l.width
	case toMiddle, underUpright:
		return x + (width-l.width)/2
	}
	return x
}

func (p *paper) sectionRow(r tableRow, header atom) []atom {
	all := atoms(p.linesOf(r.section, p.room()), p.left)
	for i := range all {
		all[i].keep = true
		all[i].again = []atom{header}
	}
	if len(all) > 0 {
		p.beside(all, r.left, r.section[0].style.baseline())
		all[0] = lowered(all[0], sectionAbove)
		all[0].before = 6
		all[len(all)-1].height += 1
	}
	return all
}

// continued is the first line of a section as it stands on the pages after its first.
func (p *paper) continued(r tableRow) atom {
	w := r.section[0]
	f, clean := p.set(w.style, oneLine(w.text))
	more := " " + p.say.continued
	moreFace := p.faces[sans]
	room := p.room() - moreFace.width(more, softStyle.size)
	l := line{style: w.style, face: f, text: clipped(f, w.style.size, clean, room)}
	l.width = f.width(l.text, w.style.size)
	rest := line{style: softStyle, face: moreFace, text: more}
	base := w.style.baseline() + sectionAbove
	return atom{height: w.style.lead + sectionAbove + 1, drawing: append(l.at(p.left, base), rest.at(p.left+l.width, base)...)}
}
