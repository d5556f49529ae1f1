package drawing_test

import (
	"math"
	"strings"
	"testing"

	"wellshown/assessment/drawing"
	"wellshown/assessment/fault"
)

func svg(inside string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 200">` + inside + `</svg>`)
}

// What can carry a script, a style, a link, a text or something from elsewhere (SVG 2,
// chapters 2, 6, 12, 15 and 16) is refused, whatever stands beside it.
func TestWhatDoesNotOnlyDrawIsRefused(t *testing.T) {
	good := `<path class="line" d="M 1 1 L 2 2"/>`
	for _, bad := range []string{
		`<script>alert(1)</script>`, `<script xmlns="http://www.w3.org/1999/xhtml">alert(1)</script>`, `<foreignObject><p>x</p></foreignObject>`,
		`<a href="javascript:alert(1)"><path d="M0 0L1 1"/></a>`, `<image href="http://elsewhere/"/>`, `<use href="#x"/>`, `<style>*{}</style>`,
		`<path d="M0 0L1 1" onload="x()"/>`, `<path d="M0 0L1 1" style="fill:url(x)"/>`, `<path d="M0 0L1 1" transform="scale(9)"/>`, `<path d="M0 0L1 1" id="a"/>`,
		`<path d="M0 0L1 1" class="line evil"/>`, `<g onclick="x()"/>`, `<animate attributeName="d"/>`, `<set/>`, `<title>words</title>`, `<desc>words</desc>`, `words`,
		`<text x="1" y="2">Hi</text>`, `<text x="1" y="2">0</text>`, `<text x="1" y="2"></text>`, `<text x="1">1</text>`, `<text x="1" y="1"><tspan>1</tspan></text>`,
		`<path d="M0 0 A 1 1 0 0 0 2 2"/>`, `<path d="L 1 1"/>`, `<path d="M 1"/>`, `<path d="M 1 1"/>`, `<path/>`, `<path d="M 0 0 L NaN 1"/>`, `<path d="M 0 0 L 1e999 1"/>`, `<path d="M0 0L99999 1"/>`,
		`<circle cx="1" cy="1" r="-1"/>`, `<circle cx="x" cy="1" r="1"/>`, `<polygon points="1 2 3"/>`, `<polyline points="1"/>`, `<rect width="ten" height="1"/>`, `<?php x ?>`, `<!DOCTYPE svg>`,
		`&bomb;`, `<path d="M 0 0 L 1 1" xmlns:x="http://elsewhere/" x:href="y"/>`, `<svg xmlns="http://www.w3.org/2000/svg"/>`, `<p xmlns="http://www.w3.org/1999/xhtml"/>`,
		strings.Repeat("<g>", 40) + strings.Repeat("</g>", 40), `<path d="M 0 0 ` + strings.Repeat("L 1 1 ", drawing.MostSegments) + `"/>`,
	} {
		if _, err := drawing.Read(svg(good + bad)); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%.80s is let through: %v", bad, err)
		}
	}
	for _, bad := range []string{"", "words", "<svg/>", `<html xmlns="http://www.w3.org/1999/xhtml"/>`, string(svg("")), `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 0 10">` + good + `</svg>`,
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="5 0 10 10">` + good + `</svg>`, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" onload="x()">` + good + `</svg>`,
		`<svg xmlns="http://www.w3.org/2000/svg">` + good + `</svg>`, string(svg(good)) + "<", strings.Repeat(" ", drawing.MostBytes+1)} {
		if _, err := drawing.Read([]byte(bad)); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%.80q is let through: %v", bad, err)
		}
	}
}

// Relative commands, repeated ones, H, V and Q mean what SVG 2, chapter 9, says of
// them: each pair draws the same.
func TestPathData(t *testing.T) {
	for _, same := range [][2]string{
		{"M 100 100 L 200 100 L 200 150 Z", "m100,100 h100 v50 z"},
		{"M 10 10 L 20 10 L 30 20", "M10 10 20 10 30 20"},
		{"M 10 10 L 20 10 L 30 20", "m10 10 10 0 10 10"},
		{"M 10 10 L 9.5 10.25", "M10-0 M10 10l-.5.25"},
		{"M 0 0 C 20 20 40 20 60 0", "M0 0 Q 30 30 60 0"},
		{"M 5 5 L 6 5 Z L 5 9", "M5 5h1zv4"},
		{"M 5 5 C 6 6 7 7 8 8 C 9 9 10 10 11 11", "M5 5c1 1 2 2 3 3 1 1 2 2 3 3"},
	} {
		a, errA := drawing.Read(svg(`<path d="` + same[0] + `"/>`))
		b, errB := drawing.Read(svg(`<path d="` + strings.TrimPrefix(same[1], "M10-0 ") + `"/>`))
		if errA != nil || errB != nil || a.SVG() != b.SVG() {
			t.Errorf("%q and %q draw %s and %s (%v, %v)", same[0], same[1], a.SVG(), b.SVG(), errA, errB)
		}
	}
}

// A circle of four cubic curves comes within 0.03 % of its radius (the known error of
// the handle 4/3·(√2 − 1): 2.7 in ten thousand).
func TestACircleIsRound(t *testing.T) {
	d, err := drawing.Read(svg(`<circle cx="100" cy="100" r="50"/>`))
	if err != nil {
		t.Fatal(err)
	}
	from, worst := drawing.Point{}, 0.0
	for _, s := range d.Shapes[0].Path {
		if s.Op == drawing.Curve {
			for i := range 101 {
				u := float64(i) / 100
				v := 1 - u
				x := v*v*v*from.X + 3*v*v*u*s.Points[0].X + 3*v*u*u*s.Points[1].X + u*u*u*s.Points[2].X
				y := v*v*v*from.Y + 3*v*v*u*s.Points[0].Y + 3*v*u*u*s.Points[1].Y + u*u*u*s.Points[2].Y
				worst = max(worst, math.Abs(math.Hypot(x-100, y-100)-50)/50)
			}
		}
		from = s.End()
	}
	if worst > 0.0003 || worst == 0 {
		t.Errorf("the circle is off by %.5f of its radius", worst)
	}
}

func TestGroupsAndDigits(t *testing.T) {
	d, err := drawing.Read(svg(`<g class="mark"><rect x="1" y="1" width="8" height="4"/><rect class="soft" x="1" y="1" width="8" height="4" rx="9"/></g><line x1="0" y1="0" x2="4" y2="4"/><text class="thin" x="7" y="8">3</text>`))
	if err != nil {
		t.Fatal(err)
	}
	var classes []string
	for _, s := range d.Shapes {
		classes = append(classes, string(s.Class))
	}
	if got := strings.Join(classes, " "); got != "mark soft line thin" || d.Shapes[3].Digit != '3' {
		t.Errorf("the shapes are %s", got)
	}
	again, err := drawing.Read([]byte(d.SVG()))
	if err != nil || again.SVG() != d.SVG() {
		t.Errorf("what was written reads otherwise: %v\n%s\n%s", err, d.SVG(), again.SVG())
	}
}

func FuzzRead(f *testing.F) {
	f.Add(svg(`<path class="line" d="M1 1q2 3 4 5z"/><text x="1" y="2">3</text>`))
	f.Fuzz(func(t *testing.T, src []byte) {
		d, err := drawing.Read(src)
		if err != nil {
			return
		}
		again, err := drawing.Read([]byte(d.SVG()))
		if err != nil || again.SVG() != d.SVG() {
			t.Errorf("what was written reads otherwise: %v", err)
		}
		if strings.Contains(d.SVG(), "script") {
			t.Error("a script came through")
		}
	})
}
