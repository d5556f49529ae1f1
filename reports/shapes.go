package reports

import "math"

// shape is a small sign that is told from every other by its outline, so that it
// survives a copier. The zero shape is no shape.
type shape uint8

const (
	noShape shape = iota
	shapeCurrent
	shapeDue
	shapeLapsed
	shapeWithdrawn
	shapeLearning
	shapeWaived
	shapeNotStarted
	shapeMet    // a tick
	shapeNotMet // an empty box
	shapeBox    // a box to tick by hand, larger
	shapeTicked // the same box, ticked
)

const (
	shapeRadius = 4.5 // of the signs that stand beside text, in points
	boxSide     = 10.5
	shapePen    = 1.0
	shapeGap    = 5 // between a shape and its word
)

// span is the room that a shape takes, in points, equal for all but the boxes.
func (s shape) span() float64 {
	switch s {
	case noShape:
		return 0
	case shapeBox, shapeTicked:
		return boxSide
	}
	return 2 * (shapeRadius + shapePen/2)
}

// at draws the shape with its middle at x, y.
func (s shape) at(x, y float64) drawing {
	return s.draw(shapeRadius).moved(x, y)
}

func (s shape) draw(r float64) drawing {
	ring := penned(arc(0, 0, r, 0, 4))
	switch s {
	case shapeCurrent:
		return drawing{filled(arc(0, 0, r+shapePen/2, 0, 4))}
	case shapeDue:
		return drawing{ring, filled(arc(0, 0, r, 1, 2))}
	case shapeLapsed:
		return drawing{ring, penned(polyline(-r, 0, r, 0))}
	case shapeWithdrawn:
		d := r * math.Sqrt2 / 2
		return drawing{ring, penned(polyline(-d, -d, d, d)), penned(polyline(-d, d, d, -d))}
	case shapeLearning:
		return dotted(r)
	case shapeWaived:
		return drawing{penned(polygon(0, -r-0.6, r+0.6, 0, 0, r+0.6, -r-0.6, 0))}
	case shapeNotStarted:
		return drawing{penned(polyline(-0.7*r, 0, 0.7*r, 0))}
	case shapeMet:
		return drawing{tick(r)}
	case shapeNotMet:
		return drawing{penned(square(1.75 * r))}
	case shapeBox:
		return drawing{boxOutline}
	case shapeTicked:
		return drawing{boxOutline, tick(0.8 * r)}
	}
	return nil
}

var boxOutline = figure{path: square(boxSide - 0.8), pen: 0.8, colour: ink}

// dotted is a ring of eight dots; a dashed line would close up in a copy.
func dotted(r float64) drawing {
	var d drawing
	for i := range 8 {
		sin, cos := math.Sincos(math.Pi * (float64(i) + 0.5) / 4)
		d = append(d, filled(arc(r*cos, r*sin, 0.85, 0, 4)))
	}
	return d
}

func tick(r float64) figure {
	return figure{path: polyline(-r, 0.05*r, -0.3*r, 0.75*r, r, -0.85*r), pen: 1.7, colour: ink}
}

func square(side float64) []segment {
	h := side / 2
	return polygon(-h, -h, h, -h, h, h, -h, h)
}

func filled(path []segment) figure { return figure{path: path, colour: ink} }
func penned(path []segment) figure { return figure{path: path, pen: shapePen, colour: ink} }
