package reports

import "strings"

// colour is red, green and blue from 0 to 255.
type colour struct{ r, g, b uint8 }

// Colours of the look. On paper the margin line is the only one that carries
// anything, and nothing is lost when it is copied in grey.
var (
	ink      = colour{0x20, 0x24, 0x2C}
	softInk  = colour{0x5A, 0x60, 0x69}
	ruleInk  = colour{0xDC, 0xD3, 0xC2}
	marginal = colour{0xC9, 0x56, 0x3C}
)

// style is how a piece of text is set: sizes and distance of lines in points.
type style struct {
	face   faceID
	size   float64
	lead   float64
	colour colour
}

var (
	titleStyle   = style{serifBold, 22, 28, ink}
	nameStyle    = style{serifBold, 26, 33, ink}
	headStyle    = style{serifBold, 14.5, 19, ink}
	headingStyle = style{serifBold, 13, 18, ink}
	strongStyle  = style{sansBold, 10, 14, ink}
	textStyle    = style{sans, 10, 14, ink}
	softStyle    = style{sans, 9, 13, softInk}
	labelStyle   = style{sans, 8.5, 11.5, softInk}
	smallStyle   = style{sans, 7.5, 10.5, softInk}
	saidStyle    = style{sans, 9, 13, ink}
)

// baseline is how far below the top of a line of this style its letters stand.
func (s style) baseline() float64 { return s.lead/2 + 0.36*s.size }

// capital is the height of a capital letter.
func (s style) capital() float64 { return 0.73 * s.size }

// words is one piece of what a paper says: a text in a style, a shape before it,
// or a rule to write on. Texts may come from anybody and hold anything.
type words struct {
	style style
	text  string
	shape shape
	rule  bool // a line to write on by hand; text, a unit say, stands after it
}

func name(s string) words   { return words{style: nameStyle, text: s} }
func head(s string) words   { return words{style: headStyle, text: s} }
func strong(s string) words { return words{style: strongStyle, text: s} }
func text(s string) words   { return words{style: textStyle, text: s} }
func soft(s string) words   { return words{style: softStyle, text: s} }
func label(s string) words  { return words{style: labelStyle, text: s} }

// large is strong text a size larger, for the one fact that a paper is about.
func large(s string) words { return words{style: style{sansBold, 12.5, 17, ink}, text: s} }

// mark is a shape by itself. Where it stands for something, the word must stand
// beside it or in a key on the same paper.
func mark(s shape) words { return words{style: textStyle, shape: s} }

// marked is a shape with its word.
func marked(s shape, word string) words { return words{style: textStyle, shape: s, text: word} }

// hand is a rule to write on, as wide as there is room, with after it a unit.
func hand(unit string) words { return words{style: textStyle, text: unit, rule: true} }

// group is the heading of a section of a table.
func group(s string) words { return words{style: style{serifBold, 11.5, 15, ink}, text: s} }

// fitting is w in the largest of a few sizes in which it takes so many lines.
func (p *paper) fitting(w words, lines int) words {
	for range 3 {
		if len(p.lines(w, p.room())) <= lines {
			break
		}
		w.style.size *= 0.8
		w.style.lead *= 0.8
	}
	return w
}

// smaller is w as it is set in a table.
func (w words) smaller() words {
	w.style.size *= 0.9
	w.style.lead *= 0.9
	return w
}

// set cleans text for printing in style s and chooses the face that prints it:
// where the serif lacks a letter, the whole text is set in the bold sans, so that
// no name is patched together from two faces.
func (p *paper) set(s style, text string) (*face, string) {
	clean := normal(text)
	f := p.faces[s.face]
	if f.id == serifBold && !f.covers(strings.ReplaceAll(clean, "\n", "")) {
		f = p.faces[sansBold]
	}
	return f, f.boxed(clean)
}
