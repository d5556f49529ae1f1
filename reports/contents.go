package reports

import "strconv"

// place is where something begins that the contents and the reader's list of bookmarks
// lead to.
type place struct {
	y     float64
	name  string // as others lead to it
	title string // in the list of bookmarks
	level int    // of it there, from 0
}

func (a place) moved(_, dy float64) instruction { a.y += dy; return a }
func (a place) put(c *canvas)                   { c.bookmark(a) }

// leap makes a rectangle lead to a place in the same document.
type leap struct {
	rect
	to string
}

func (l leap) moved(dx, dy float64) instruction { l.x += dx; l.y += dy; return l }
func (l leap) put(c *canvas)                    { c.pdf.Link(l.x, l.y, l.w, l.h, c.places[l.to]) }

// pageNumber stands for the number of the page on which a place is, up to the right edge x.
// It is set once all pages are laid out.
type pageNumber struct {
	x, y float64
	to   string
}

func (n pageNumber) moved(dx, dy float64) instruction { n.x += dx; n.y += dy; return n }
func (n pageNumber) put(*canvas)                      {}

// listing is one line of the contents.
type listing struct {
	to    string
	title string
	level int // from 0
}

// here marks the place where what is added next begins.
func (p *paper) here(name, title string, level int) {
	p.places = append(p.places, place{name: name, title: oneLine(title), level: level})
}

// contents lists what comes with the numbers of its pages; each line leads there.
func (p *paper) contents(all []listing) {
	for i, e := range all {
		style, x := textStyle, p.left
		if e.level > 0 {
			style, x = softStyle, p.left+14
		}
		f, clean := p.set(style, oneLine(e.title))
		said := line{style: style, face: f, text: clipped(f, style.size, clean, p.right-x-34)}
		d := append(said.at(x, style.baseline()), pageNumber{p.right, style.baseline(), e.to}, leap{rect{x, 0, p.right - x, style.lead}, e.to})
		a := atom{height: style.lead + 1, drawing: d}
		if i > 0 && e.level == 0 {
			a.before = 3
		}
		p.add(a)
	}
}

// numbered puts the numbers of pages where they are stood for. What leads nowhere is a
// fault of whoever drew it.
func (p *paper) numbered(pages []drawing) {
	at := map[string]int{}
	for i, d := range pages {
		for _, it := range d {
			if a, ok := it.(place); ok {
				at[a.name] = i + 1
			}
		}
	}
	for _, d := range pages {
		for i, it := range d {
			n, ok := it.(pageNumber)
			if !ok {
				continue
			}
			f, text := p.set(textStyle, strconv.Itoa(at[n.to]))
			if at[n.to] == 0 {
				p.fail(errLeadsNowhere(n.to))
			}
			d[i] = writing{x: n.x - f.width(text, textStyle.size), y: n.y, face: f, size: textStyle.size, colour: textStyle.colour, text: text}
		}
	}
}

type errLeadsNowhere string

func (e errLeadsNowhere) Error() string {
	return "the contents name “" + string(e) + "”, which is not there"
}

// find gives every place of the pages a number for links, before any page is drawn: what
// leads to it may come first.
func (c *canvas) find(pages []drawing) {
	c.places = map[string]int{}
	for _, d := range pages {
		for _, it := range d {
			if a, ok := it.(place); ok {
				c.places[a.name] = c.pdf.AddLink()
			}
		}
	}
}

func (c *canvas) bookmark(a place) {
	c.pdf.SetFont(c.sans, "", textStyle.size) // the library writes a bookmark as the letters of a page are
	c.face, c.size = nil, 0
	c.pdf.SetLink(c.places[a.name], a.y, -1)
	c.pdf.Bookmark(a.title, a.level, a.y)
}
