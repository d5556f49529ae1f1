package drawing

import (
	"math"
	"strings"

	"wellshown/assessment/fault"
)

// outline turns an element into an outline.
func outline(element string, values map[string]string) ([]Segment, error) {
	if element == "path" {
		return readPath(values["d"])
	}
	if element == "polyline" || element == "polygon" {
		return polygon(values["points"], element == "polygon")
	}
	v := map[string]float64{}
	for _, name := range takes[element] {
		if values[name] == "" {
			continue // 0, as SVG has it
		}
		f, err := coordinate(values[name])
		if err != nil {
			return nil, err
		}
		v[name] = f
	}
	for _, name := range []string{"r", "rx", "ry", "width", "height"} {
		if v[name] < 0 {
			return nil, fault.Of(fault.Invalid, "In a drawing %q is not negative.", name)
		}
	}
	switch element {
	case "line":
		return []Segment{at(Move, v["x1"], v["y1"]), at(To, v["x2"], v["y2"])}, nil
	case "circle":
		return ellipse(v["cx"], v["cy"], v["r"], v["r"]), nil
	case "ellipse":
		return ellipse(v["cx"], v["cy"], v["rx"], v["ry"]), nil
	}
	return rect(v["x"], v["y"], v["width"], v["height"], v["rx"]), nil
}

func at(op Op, x, y float64) Segment { return Segment{Op: op, Points: [3]Point{{x, y}}} }

func curve(x1, y1, x2, y2, x, y float64) Segment {
	return Segment{Op: Curve, Points: [3]Point{{x1, y1}, {x2, y2}, {x, y}}}
}

// kappa places the handles of a cubic curve that comes near a quarter of a circle:
// 4/3·(√2 − 1).
const kappa = 4.0 / 3 * (math.Sqrt2 - 1)

func ellipse(x, y, rx, ry float64) []Segment {
	hx, hy := rx*kappa, ry*kappa
	return []Segment{at(Move, x+rx, y), curve(x+rx, y+hy, x+hx, y+ry, x, y+ry), curve(x-hx, y+ry, x-rx, y+hy, x-rx, y),
		curve(x-rx, y-hy, x-hx, y-ry, x, y-ry), curve(x+hx, y-ry, x+rx, y-hy, x+rx, y), {Op: Close}}
}

func rect(x, y, w, h, r float64) []Segment {
	r = min(r, w/2, h/2)
	if r == 0 {
		return []Segment{at(Move, x, y), at(To, x+w, y), at(To, x+w, y+h), at(To, x, y+h), {Op: Close}}
	}
	k := r * (1 - kappa)
	return []Segment{at(Move, x+r, y), at(To, x+w-r, y), curve(x+w-k, y, x+w, y+k, x+w, y+r), at(To, x+w, y+h-r), curve(x+w, y+h-k, x+w-k, y+h, x+w-r, y+h),
		at(To, x+r, y+h), curve(x+k, y+h, x, y+h-k, x, y+h-r), at(To, x, y+r), curve(x, y+k, x+k, y, x+r, y), {Op: Close}}
}

func polygon(points string, closed bool) ([]Segment, error) {
	all, err := numbers(points)
	if err != nil {
		return nil, err
	}
	if len(all) < 4 || len(all)%2 != 0 {
		return nil, fault.Of(fault.Invalid, "The points %q are no pairs.", short(points))
	}
	var path []Segment
	for i := 0; i < len(all); i += 2 {
		op := To
		if i == 0 {
			op = Move
		}
		path = append(path, at(op, all[i], all[i+1]))
	}
	if closed {
		path = append(path, Segment{Op: Close})
	}
	return path, nil
}

// numbers reads numbers parted by spaces and commas; a sign parts as well.
func numbers(s string) ([]float64, error) {
	var all []float64
	for s = strings.TrimLeft(s, " ,\t\r\n"); s != ""; s = strings.TrimLeft(s, " ,\t\r\n") {
		n := numberLength(s)
		f, err := coordinate(s[:max(n, 1)])
		if err != nil {
			return nil, err
		}
		all, s = append(all, f), s[n:]
	}
	return all, nil
}

// numberLength is how long the number is with which a text begins.
func numberLength(s string) int {
	i, point := 0, false
	if s[0] == '-' || s[0] == '+' {
		i++
	}
	for ; i < len(s); i++ {
		switch {
		case s[i] >= '0' && s[i] <= '9':
		case s[i] == '.' && !point:
			point = true
		case (s[i] == 'e' || s[i] == 'E') && i+1 < len(s) && strings.IndexByte("-+0123456789", s[i+1]) >= 0:
			i++
		default:
			return i
		}
	}
	return i
}
