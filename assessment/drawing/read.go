package drawing

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment/fault"
)

// The limits of a drawing.
const (
	MostBytes    = 64 << 10
	MostSegments = 4000
	mostSize     = 2000
	mostDepth    = 8
)

// takes are the attributes that each element may have beside its class.
var takes = map[string][]string{
	"g": nil, "path": {"d"}, "line": {"x1", "y1", "x2", "y2"}, "circle": {"cx", "cy", "r"}, "ellipse": {"cx", "cy", "rx", "ry"},
	"rect": {"x", "y", "width", "height", "rx"}, "polyline": {"points"}, "polygon": {"points"}, "text": {"x", "y"},
}

const svgSpace = "http://www.w3.org/2000/svg"

// Read reads a drawing. What is not known to draw is refused, by name.
func Read(src []byte) (Drawing, error) {
	if len(src) > MostBytes {
		return Drawing{}, fault.Of(fault.Invalid, "The drawing is larger than %d kB.", MostBytes>>10)
	}
	r := reader{tokens: xml.NewDecoder(bytes.NewReader(src))}
	r.tokens.Entity = map[string]string{}
	if err := r.document(); err != nil {
		return Drawing{}, err
	}
	if len(r.drawn.Shapes) == 0 {
		return Drawing{}, fault.Of(fault.Invalid, "The drawing is empty.")
	}
	return r.drawn, nil
}

type reader struct {
	tokens   *xml.Decoder
	drawn    Drawing
	classes  []Class // of the groups around, innermost last
	segments int
	begun    bool
}

func (r *reader) document() error {
	for {
		token, err := r.tokens.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fault.Of(fault.Invalid, "The drawing is not well-formed SVG: %s.", err)
		}
		switch t := token.(type) {
		case xml.StartElement:
			if err := r.element(t); err != nil {
				return err
			}
		case xml.EndElement:
			if len(r.classes) > 0 {
				r.classes = r.classes[:len(r.classes)-1]
			}
		case xml.CharData:
			if strings.TrimSpace(string(t)) != "" {
				return fault.Of(fault.Invalid, "A drawing holds no words: %q is not let through.", short(string(t)))
			}
		case xml.Comment:
		case xml.ProcInst:
			if t.Target != "xml" {
				return fault.Of(fault.Invalid, "A drawing takes no processing instruction %q.", short(t.Target))
			}
		default:
			return fault.Of(fault.Invalid, "A drawing takes no document type.")
		}
	}
}

func (r *reader) element(e xml.StartElement) error {
	if e.Name.Space != svgSpace && e.Name.Space != "" {
		return notLet(e.Name.Local)
	}
	if !r.begun {
		return r.root(e)
	}
	allowed, known := takes[e.Name.Local]
	if !known {
		return notLet(e.Name.Local)
	}
	class := Line
	if n := len(r.classes); n > 0 {
		class = r.classes[n-1]
	}
	values := map[string]string{}
	for _, a := range e.Attr {
		switch {
		case a.Name.Space == "" && a.Name.Local == "class":
			if class = Class(a.Value); !slices.Contains(Classes, class) {
				return fault.Of(fault.Invalid, "A drawing knows no class %q.", short(a.Value))
			}
		case a.Name.Space == "" && slices.Contains(allowed, a.Name.Local):
			values[a.Name.Local] = a.Value
		default:
			return fault.Of(fault.Invalid, "In a drawing %q takes no %q.", e.Name.Local, short(a.Name.Local))
		}
	}
	if len(r.classes) >= mostDepth {
		return fault.Of(fault.Invalid, "The drawing nests its groups too deep.")
	}
	switch e.Name.Local {
	case "g":
		r.classes = append(r.classes, class)
		return nil
	case "text":
		return r.digit(class, values)
	}
	path, err := outline(e.Name.Local, values)
	if err != nil {
		return err
	}
	return r.add(Shape{Class: class, Path: path}, true)
}

// add keeps a shape that lies within the drawing. Its element is still open.
func (r *reader) add(s Shape, open bool) error {
	if r.segments += len(s.Path) + 1; r.segments > MostSegments {
		return fault.Of(fault.Invalid, "The drawing has more than %d segments.", MostSegments)
	}
	for _, g := range s.Path {
		for i := range g.Op.points() {
			if !r.within(g.Points[i]) {
				return fault.Of(fault.Invalid, "The drawing goes far beyond its frame.")
			}
		}
	}
	r.drawn.Shapes = append(r.drawn.Shapes, s)
	if open {
		r.classes = append(r.classes, s.Class) // its end takes it off again
	}
	return nil
}

// within leaves room for handles of curves, which may lie outside.
func (r *reader) within(p Point) bool {
	w, h := r.drawn.Width, r.drawn.Height
	return p.X >= -w && p.X <= 2*w && p.Y >= -h && p.Y <= 2*h
}

func (r *reader) root(e xml.StartElement) error {
	r.begun = true
	if e.Name.Local != "svg" || e.Name.Space != svgSpace {
		return fault.Of(fault.Invalid, "This is no SVG drawing.")
	}
	for _, a := range e.Attr {
		switch {
		case a.Name.Local == "xmlns" && a.Name.Space == "":
		case a.Name.Local == "viewBox" && a.Name.Space == "":
			box, err := numbers(a.Value)
			if err != nil || len(box) != 4 || box[0] != 0 || box[1] != 0 || box[2] < 1 || box[3] < 1 || box[2] > mostSize || box[3] > mostSize {
				return fault.Of(fault.Invalid, "The drawing’s frame must be viewBox=\"0 0 width height\", each 1 to %d.", mostSize)
			}
			r.drawn.Width, r.drawn.Height = box[2], box[3]
		default:
			return fault.Of(fault.Invalid, "In a drawing %q takes no %q.", "svg", short(a.Name.Local))
		}
	}
	if r.drawn.Width == 0 {
		return fault.Of(fault.Invalid, "The drawing has no viewBox.")
	}
	r.classes = append(r.classes, Line)
	return nil
}

// digit reads a call-out: one digit and its end.
func (r *reader) digit(class Class, values map[string]string) error {
	x, errX := coordinate(values["x"])
	y, errY := coordinate(values["y"])
	token, err := r.tokens.Token()
	text, isText := token.(xml.CharData)
	if errX != nil || errY != nil || err != nil || !isText || len(text) != 1 || text[0] < '1' || text[0] > '9' || !r.within(Point{x, y}) {
		return fault.Of(fault.Invalid, "A text in a drawing is one digit from 1 to 9, with x and y.")
	}
	return r.add(Shape{Class: class, Digit: text[0], At: Point{x, y}}, true)
}

func notLet(name string) error {
	return fault.Of(fault.Invalid, "A drawing takes no element %q.", short(name))
}

// short keeps what is repeated in a refusal from growing long.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

func coordinate(s string) (float64, error) {
	f, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
		return 0, fault.Of(fault.Invalid, "%q is no number.", short(s))
	}
	return f, nil
}
