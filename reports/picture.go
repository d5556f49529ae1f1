package reports

import (
	sketch "wellshown/assessment/drawing"
)

// How the classes of a line drawing are inked: fills first, then the outline.
var inked = map[sketch.Class]struct {
	fill, pen colour
	width     float64 // of the pen, in the drawing's units; 0: no outline
	filled    bool
	broken    bool
}{
	sketch.Line: {pen: ink, width: 2},
	sketch.Thin: {pen: ink, width: 1.2},
	sketch.Soft: {fill: colour{0xEF, 0xE8, 0xDA}, filled: true, pen: ink, width: 1.5},
	sketch.Mark: {pen: marginal, width: 3},
	sketch.Dash: {pen: ink, width: 1.5, broken: true},
	sketch.Spot: {fill: marginal, filled: true},
}

// pictureWidth is how wide a line drawing is printed, in points.
const pictureWidth = 270

// picture prints a line drawing, and below it what it shows. Both stay on one page.
func (p *paper) picture(d sketch.Drawing, says string) {
	scale := min(pictureWidth, p.room()) / d.Width
	var out drawing
	for _, s := range d.Shapes {
		out = append(out, p.inkedShape(s, scale)...)
	}
	caption := atoms(p.lines(soft(says), p.room()), p.left)
	if len(caption) > 0 {
		caption[0].before = 4
	}
	p.add(unbroken(append([]atom{{before: 10, height: d.Height * scale, drawing: out.moved(p.left, 0)}}, caption...))...)
}

func (p *paper) inkedShape(s sketch.Shape, scale float64) drawing {
	how := inked[s.Class]
	if s.Digit != 0 {
		return p.calledOut(s, scale)
	}
	path := scaled(s.Path, scale)
	var out drawing
	if how.filled {
		out = append(out, figure{path: path, colour: how.fill})
	}
	if how.width > 0 {
		out = append(out, figure{path: path, pen: how.width * scale, colour: how.pen, broken: how.broken})
	}
	return out
}

// calledOut is a digit in a ring, on white, centred on its place.
func (p *paper) calledOut(s sketch.Shape, scale float64) drawing {
	const size, ring = 9.0, 7.5
	x, y := s.At.X*scale, s.At.Y*scale
	f, clean := p.set(strongStyle, string(s.Digit))
	return drawing{
		figure{x: x, y: y, path: arc(0, 0, ring, 0, 4), colour: colour{0xFF, 0xFF, 0xFF}},
		figure{x: x, y: y, path: arc(0, 0, ring, 0, 4), pen: 0.8, colour: ink},
		writing{x: x - f.width(clean, size)/2, y: y + 0.36*size, face: f, size: size, colour: ink, text: clean},
	}
}

func scaled(path []sketch.Segment, scale float64) []segment {
	var out []segment
	for _, s := range path {
		a, b, c := s.Points[0], s.Points[1], s.Points[2]
		switch s.Op {
		case sketch.Move:
			out = append(out, segment{kind: moveTo, x: a.X * scale, y: a.Y * scale})
		case sketch.To:
			out = append(out, segment{kind: lineTo, x: a.X * scale, y: a.Y * scale})
		case sketch.Curve:
			out = append(out, segment{kind: curveTo, x1: a.X * scale, y1: a.Y * scale, x2: b.X * scale, y2: b.Y * scale, x: c.X * scale, y: c.Y * scale})
		case sketch.Close:
			out = append(out, segment{kind: closePath})
		}
	}
	return out
}
