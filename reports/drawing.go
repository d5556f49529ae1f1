package reports

import "math"

// Everything on a page is first laid out as a drawing, in points from the page's
// top left corner, and printed at the end, when the number of pages is known.

// instruction is one thing to draw.
type instruction interface {
	// moved is the same thing, that much further right and down.
	moved(dx, dy float64) instruction
	// put draws it.
	put(*canvas)
}

type drawing []instruction

func (d drawing) moved(dx, dy float64) drawing {
	out := make(drawing, len(d))
	for i, it := range d {
		out[i] = it.moved(dx, dy)
	}
	return out
}

// writing is one line of clean text whose letters stand on y, or, upright, run up
// the page from y with their feet on x.
type writing struct {
	x, y    float64
	face    *face
	size    float64
	colour  colour
	text    string
	upright bool
}

func (w writing) moved(dx, dy float64) instruction { w.x += dx; w.y += dy; return w }
func (w writing) put(c *canvas)                    { c.write(w) }

// figure is a path of straight lines and curves, drawn in one colour: filled, or
// with a pen of the given width.
type figure struct {
	x, y   float64 // where the origin of the path lies
	path   []segment
	colour colour
	pen    float64 // width of the pen; zero fills
	broken bool    // the pen draws dashes
}

func (f figure) moved(dx, dy float64) instruction { f.x += dx; f.y += dy; return f }
func (f figure) put(c *canvas)                    { c.draw(f) }

// segment is one move of the pen: to x, y; up, straight, or by two control points.
type segment struct {
	kind           segmentKind
	x, y           float64
	x1, y1, x2, y2 float64
}

type segmentKind uint8

const (
	moveTo segmentKind = iota
	lineTo
	curveTo
	closePath
)

// blocks is filled rectangles in ink, for codes that a camera reads.
type blocks struct {
	x, y  float64
	rects []rect
}

type rect struct{ x, y, w, h float64 }

func (b blocks) moved(dx, dy float64) instruction { b.x += dx; b.y += dy; return b }
func (b blocks) put(c *canvas)                    { c.fill(b) }

// link makes a rectangle lead to an address.
type link struct {
	rect
	address string
}

func (l link) moved(dx, dy float64) instruction { l.x += dx; l.y += dy; return l }
func (l link) put(c *canvas)                    { c.link(l) }

// straight is a line from one point to another.
func straight(x1, y1, x2, y2, pen float64, c colour) figure {
	return figure{path: polyline(x1, y1, x2, y2), pen: pen, colour: c}
}

// polyline is an open path through points given as x, y, x, y, and so on.
func polyline(xy ...float64) []segment {
	var path []segment
	for i := 0; i+1 < len(xy); i += 2 {
		kind := lineTo
		if i == 0 {
			kind = moveTo
		}
		path = append(path, segment{kind: kind, x: xy[i], y: xy[i+1]})
	}
	return path
}

// polygon is a closed path through points.
func polygon(xy ...float64) []segment {
	return append(polyline(xy...), segment{kind: closePath})
}

// arc is a path along a circle around (x, y), clockwise from one angle to
// another in quarter turns counted from the right: arc(0, 0, r, 0, 4) is a circle.
func arc(x, y, r float64, from, quarters int) []segment {
	// The control points of the usual cubic approximation of a quarter circle.
	const k = 0.5522847498
	at := func(q int) (cos, sin float64) {
		s, c := math.Sincos(float64(q) * math.Pi / 2)
		return math.Round(c), math.Round(s)
	}
	c0, s0 := at(from)
	path := []segment{{kind: moveTo, x: x + r*c0, y: y + r*s0}}
	for q := from; q < from+quarters; q++ {
		c0, s0 = at(q)
		c1, s1 := at(q + 1)
		path = append(path, segment{
			kind: curveTo, x: x + r*c1, y: y + r*s1,
			x1: x + r*(c0+k*c1), y1: y + r*(s0+k*s1), x2: x + r*(c1+k*c0), y2: y + r*(s1+k*s0),
		})
	}
	return append(path, segment{kind: closePath})
}
