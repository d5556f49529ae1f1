package reports

import (
	"strings"

	"wellshown/assessment/lesson"
)

// fragment is clean text in one face.
type fragment struct {
	face *face
	text string
}

// tokens are the pieces of spans between which a line may end: each a word with the
// spaces behind it, in as many faces as it has.
func (p *paper) tokens(spans lesson.Spans, s style) [][]fragment {
	var all [][]fragment
	open := false // the last token goes on
	for _, span := range spans {
		of := s
		if span.Strong {
			of.face = sansBold
		}
		f, clean := p.set(of, oneLineKeepingEnds(span.Text))
		for rest := clean; rest != ""; {
			n := pieceLen(rest)
			piece := fragment{f, rest[:n]}
			rest = rest[n:]
			if open {
				all[len(all)-1] = append(all[len(all)-1], piece)
			} else {
				all = append(all, []fragment{piece})
			}
			open = rest == "" && !strings.HasSuffix(piece.text, " ")
		}
	}
	return all
}

// oneLineKeepingEnds is text without line feeds, with the spaces around it as they are.
func oneLineKeepingEnds(s string) string { return strings.ReplaceAll(s, "\n", " ") }

func widthOf(token []fragment, size float64) float64 {
	sum := 0.0
	for _, f := range token {
		sum += f.face.width(f.text, size)
	}
	return sum
}

// spanned sets words of two weights to a width, as atoms at x.
func (p *paper) spanned(spans lesson.Spans, s style, x, width float64) []atom {
	var all []atom
	var line []fragment
	end := func() {
		if len(line) > 0 {
			all = append(all, atom{height: s.lead, drawing: inARow(unspaced(line), s, x)})
		}
		line = nil
	}
	for _, token := range p.tokens(spans, s) {
		if widthOf(line, s.size)+widthOf(unspaced(token), s.size) > width {
			end()
		}
		line = joined(line, token)
	}
	end()
	return all
}

// joined puts fragments behind others; those of one face become one.
func joined(line, token []fragment) []fragment {
	for _, f := range token {
		if n := len(line); n > 0 && line[n-1].face == f.face {
			line[n-1].text += f.text
		} else {
			line = append(line, f)
		}
	}
	return line
}

func inARow(line []fragment, s style, x float64) drawing {
	var d drawing
	for _, f := range line {
		d = append(d, writing{x: x, y: s.baseline(), face: f.face, size: s.size, colour: s.colour, text: f.text})
		x += f.face.width(f.text, s.size)
	}
	return d
}

// unspaced is fragments without the spaces behind the last of them.
func unspaced(all []fragment) []fragment {
	last := len(all) - 1
	out := append([]fragment(nil), all...)
	out[last].text = strings.TrimRight(out[last].text, " ")
	return out
}
