// Package drawing reads simple line drawings in SVG into shapes of our own, and writes
// them anew. Nothing of what was sent is ever passed on: what is not on the short list
// of what draws is refused, so that no drawing can carry a script, a link or a text.
package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Class is how a shape is drawn. Pages and papers give each its stroke and tone.
type Class string

// The classes.
const (
	Line Class = "line" // an outline in ink
	Thin Class = "thin" // a fine outline
	Soft Class = "soft" // filled with the soft tone, and outlined
	Mark Class = "mark" // what to look at: outlined in the accent
	Dash Class = "dash" // a broken outline
	Spot Class = "spot" // filled with the accent
)

// Classes lists them.
var Classes = []Class{Line, Thin, Soft, Mark, Dash, Spot}

// Op is what a segment does.
type Op byte

// The operations: go to, a line to, a cubic Bézier curve to, and back to where the
// outline began.
const (
	Move  Op = 'M'
	To    Op = 'L'
	Curve Op = 'C'
	Close Op = 'Z'
)

// Point is a place in the drawing, in its units: x to the right, y down.
type Point struct{ X, Y float64 }

// Segment is one step of an outline; a curve has two handles and its end.
type Segment struct {
	Op     Op
	Points [3]Point // Move, To: the first; Curve: all; Close: none
}

// End is where a segment ends; a closing one has none of its own.
func (s Segment) End() Point {
	if s.Op == Curve {
		return s.Points[2]
	}
	return s.Points[0]
}

// Shape is an outline, or a digit that calls something out.
type Shape struct {
	Class Class
	Path  []Segment
	Digit byte // '1' to '9', centred on At; 0: none
	At    Point
}

// Drawing is a picture of shapes, the first at the bottom.
type Drawing struct {
	Width, Height float64 // units, 1 to 2000
	Shapes        []Shape
}

// SVG writes the drawing anew, for a page: paths with a class each, and digits. It holds
// no colours, which are the page's.
func (d Drawing) SVG() string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="%s">`, d.Box())
	for _, s := range d.Shapes {
		if s.Digit != 0 {
			x, y := s.Place()
			fmt.Fprintf(&b, `<text class="%s" x="%s" y="%s">%c</text>`, s.Class, x, y, s.Digit)
			continue
		}
		fmt.Fprintf(&b, `<path class="%s" d="%s"/>`, s.Class, s.Data())
	}
	b.WriteString("</svg>")
	return b.String()
}

// Box is the frame as SVG has it in viewBox.
func (d Drawing) Box() string { return "0 0 " + number(d.Width) + " " + number(d.Height) }

// Place is where a digit stands, as SVG has it in x and y.
func (s Shape) Place() (x, y string) { return number(s.At.X), number(s.At.Y) }

// Data is the outline as SVG has it in d.
func (s Shape) Data() string {
	var parts []string
	for _, s := range s.Path {
		words := string(s.Op)
		for i := range s.Op.points() {
			words += " " + number(s.Points[i].X) + " " + number(s.Points[i].Y)
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, " ")
}

// points is how many points a segment has.
func (o Op) points() int {
	switch o {
	case Curve:
		return 3
	case Close:
		return 0
	}
	return 1
}

// number writes a coordinate with at most two decimals.
func number(f float64) string {
	s := strconv.FormatFloat(f, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
