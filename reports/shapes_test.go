package reports

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

var allShapes = map[shape]string{
	shapeCurrent: "current", shapeDue: "due", shapeLapsed: "lapsed", shapeWithdrawn: "withdrawn", shapeLearning: "learning",
	shapeWaived: "waived", shapeNotStarted: "not started", shapeMet: "met", shapeNotMet: "not met", shapeTicked: "ticked",
}

// Each shape is told from each other in black and white at 100 dots an inch, half
// of what a fax has: any two differ in at least a third of the dark dots of the lighter. (A limit of our own; there is no source for it.)
func TestShapesSurviveACopier(t *testing.T) {
	seen := map[shape][]byte{}
	for s := range allShapes {
		seen[s] = copied(t, s)
		if dark(seen[s]) < 6 {
			t.Errorf("%s leaves %d dots", allShapes[s], dark(seen[s]))
		}
	}
	for a, one := range seen {
		for b, other := range seen {
			if a >= b {
				continue
			}
			differing := 0
			for i := range one {
				differing += int(one[i] ^ other[i])
			}
			if least := min(dark(one), dark(other)); 3*differing < least {
				t.Errorf("%s and %s differ in %d of %d dots", allShapes[a], allShapes[b], differing, least)
			}
		}
	}
}

// copied is a page with one shape on it, as a copier without greys sees it.
func copied(t *testing.T, s shape) []byte {
	t.Helper()
	p := blankPaper(t)
	p.draw(s.at(306, 396))
	path := filed(t, finished(t, p))
	tool(t, "pdftoppm", "-r", "100", "-gray", "-singlefile", "-x", "415", "-y", "540", "-W", "24", "-H", "24", path, strings.TrimSuffix(path, ".pdf"))
	file, err := os.ReadFile(strings.TrimSuffix(path, ".pdf") + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	grey, ok := bytes.CutPrefix(file, []byte("P5\n24 24\n255\n"))
	if !ok {
		t.Fatalf("not an image of 24 by 24 greys: %q", file[:min(20, len(file))])
	}
	for i := range grey {
		grey[i] /= 128 // 0 is dark, 1 is white
	}
	return grey
}

func dark(dots []byte) int { return bytes.Count(dots, []byte{0}) }

func TestShapesKeepToTheirRoom(t *testing.T) {
	for s, name := range allShapes {
		half := s.span()/2 + 0.7
		for _, it := range s.at(0, 0) {
			f, ok := it.(figure)
			if !ok {
				t.Fatalf("%s is made of %T", name, it)
			}
			for _, g := range f.path {
				if g.kind != closePath && (g.x < -half || g.x > half || g.y < -half || g.y > half) {
					t.Errorf("%s reaches to %.1f, %.1f; its room is ±%.1f", name, g.x, g.y, half)
				}
			}
		}
	}
}
