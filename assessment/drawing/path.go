package drawing

import (
	"strings"

	"wellshown/assessment/fault"
)

// commands are the letters of path data that are read, with how many numbers each takes
// at a time (SVG 2, chapter 9).
var commands = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'Q': 4, 'Z': 0}

// pen goes along path data.
type pen struct {
	path      []Segment
	at, begun Point
}

// readPath reads path data into segments in absolute places.
func readPath(d string) ([]Segment, error) {
	var p pen
	for d = strings.TrimSpace(d); d != ""; d = strings.TrimSpace(d) {
		letter := d[0]
		upper := letter &^ 0x20
		n, known := commands[upper]
		if !known || len(p.path) == 0 && upper != 'M' {
			return nil, fault.Of(fault.Invalid, "The path of a drawing cannot have %q there.", short(d))
		}
		d = d[1:]
		end := strings.IndexAny(d, "MLHVCQZmlhvcqzAaSsTt")
		if end < 0 {
			end = len(d)
		}
		all, err := numbers(d[:end])
		if err != nil {
			return nil, err
		}
		d = d[end:]
		if n == 0 && len(all) > 0 || n > 0 && (len(all) == 0 || len(all)%n != 0) {
			return nil, fault.Of(fault.Invalid, "The path of a drawing has too many or too few numbers after %q.", string(letter))
		}
		p.run(upper, letter != upper, n, all)
	}
	if len(p.path) < 2 {
		return nil, fault.Of(fault.Invalid, "The path of a drawing draws nothing.")
	}
	return p.path, nil
}

// run carries out one command as often as it has numbers for.
func (p *pen) run(command byte, relative bool, n int, all []float64) {
	if n == 0 {
		p.path, p.at = append(p.path, Segment{Op: Close}), p.begun
		return
	}
	for i := 0; i < len(all); i += n {
		v := append([]float64(nil), all[i:i+n]...)
		if relative {
			p.shift(command, v)
		}
		p.step(command, v)
		if command == 'M' {
			command = 'L' // what follows a move are lines
		}
	}
}

// shift makes relative numbers absolute.
func (p *pen) shift(command byte, v []float64) {
	for i := range v {
		if command == 'V' || command != 'H' && i%2 == 1 {
			v[i] += p.at.Y
		} else {
			v[i] += p.at.X
		}
	}
}

func (p *pen) step(command byte, v []float64) {
	var s Segment
	switch command {
	case 'M':
		s = at(Move, v[0], v[1])
		p.begun = s.Points[0]
	case 'L':
		s = at(To, v[0], v[1])
	case 'H':
		s = at(To, v[0], p.at.Y)
	case 'V':
		s = at(To, p.at.X, v[0])
	case 'C':
		s = curve(v[0], v[1], v[2], v[3], v[4], v[5])
	case 'Q': // the cubic curve that is the same: its handles two thirds of the way
		third := func(from, to float64) float64 { return from + (to-from)*2/3 }
		s = curve(third(p.at.X, v[0]), third(p.at.Y, v[1]), third(v[2], v[0]), third(v[3], v[1]), v[2], v[3])
	}
	p.path, p.at = append(p.path, s), s.End()
}
