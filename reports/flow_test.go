package reports

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// inside proves that nothing a document says lies off the paper, in the foot or
// across the right edge.
func inside(t *testing.T, p *paper) {
	t.Helper()
	p.flush()
	const hair = 0.05
	for n, d := range p.pages {
		for _, it := range d {
			w, ok := it.(writing)
			if !ok {
				continue
			}
			end := w.x + w.face.width(w.text, w.size)
			if w.upright {
				if w.y-(end-w.x) < p.top-hair || w.y > p.bottom || w.x-w.size < p.left || w.x > p.right {
					t.Fatalf("page %d: %q at %.1f, %.1f runs off", n+1, w.text, w.x, w.y)
				}
				continue
			}
			if w.x < p.labelLeft-hair || end > p.right+hair || w.y < p.top || w.y > p.bottom {
				t.Fatalf("page %d: %q from %.1f to %.1f at %.1f is outside", n+1, w.text, w.x, end, w.y)
			}
		}
	}
}

// filledTo is a paper on which that many lines stand.
func filledTo(t *testing.T, lines int) *paper {
	p := blankPaper(t)
	for range lines {
		p.add(atom{height: textStyle.lead})
	}
	return p
}

// Wherever the page ends, a heading is followed by words on its own page, and so
// is a table's header and the heading of a group in it.
func TestNoHeadingIsOrphaned(t *testing.T) {
	for lines := range 60 {
		p := filledTo(t, lines)
		p.heading("What is left")
		p.row(label("one"), strong("Two family caregivers"), soft("one is current"))
		p.heading("Table")
		p.table(longTable(3))
		for _, pair := range [][2]string{{"What is left", "Two family caregivers"}, {"Two family caregivers", "one is current"}, {"Table", "no0"}, {"Caregiver 0", "no0"}} {
			if a, b := pageOf(p, pair[0]), pageOf(p, pair[1]); a < 0 || a != b {
				t.Errorf("after %d lines %q is on page %d and %q on page %d", lines, pair[0], a, pair[1], b)
			}
		}
	}
}

func TestTogether(t *testing.T) {
	for lines := range 60 {
		p := filledTo(t, lines)
		p.together(func() {
			p.heading("Signed")
			p.paragraph("first")
			p.gap(30)
			p.paragraph("second")
			p.signatures(label("by"), signature{Name: "Noor Haddadin", At: issued})
		})
		p.paragraph("after")
		if a, b := pageOf(p, "Signed"), pageOf(p, "18 Nov 2026, 15:42 MST"); a < 0 || a != b {
			t.Errorf("after %d lines the block is on pages %d and %d", lines, a, b)
		}
		if pageOf(p, "after") < 0 {
			t.Error("what follows is lost")
		}
	}
}

// A gap stands where it was asked for, and nowhere at the top of a page.
func TestGap(t *testing.T) {
	at := func(write func(*paper)) (y float64) {
		p := blankPaper(t)
		write(p)
		p.flush()
		last := p.pages[len(p.pages)-1]
		return last[len(last)-1].(writing).y
	}
	two := func(gap float64) float64 {
		return at(func(p *paper) {
			p.together(func() { p.paragraph("first"); p.gap(gap); p.paragraph("second") })
		})
	}
	if got := two(30) - two(0); got < 29.9 || got > 30.1 {
		t.Errorf("a gap of 30 moves the next line by %.1f", got)
	}
	turned := func(gap float64) float64 {
		return at(func(p *paper) {
			p.add(atom{height: p.bottom - p.y})
			p.gap(gap)
			p.paragraph("on the next page")
		})
	}
	if turned(0) != turned(30) {
		t.Error("a gap is left at the top of a page")
	}
}

// The last row of a table goes along to the page of the signatures below it.
func TestSignaturesDoNotStandAlone(t *testing.T) {
	for rows := range 40 {
		p := blankPaper(t)
		tb := longTable(rows + 1)
		tb.withNext = true
		p.table(tb)
		p.signatures(label("by"), signature{Name: "Noor Haddadin", At: issued})
		if a, b := pageOf(p, fmt.Sprintf("no%d", rows)), pageOf(p, "Noor Haddadin"); a < 0 || a != b {
			t.Errorf("with %d rows the last is on page %d and the signature on page %d", rows+1, a, b)
		}
	}
}

func TestParagraphsBreakInTheMiddle(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("word ", 150))
	for lines := 40; lines < 55; lines++ {
		p := filledTo(t, lines)
		p.paragraph(long)
		var counts []int
		for _, page := range pageTexts(p) {
			if page != "" {
				counts = append(counts, strings.Count(page, "\n")+1)
			}
		}
		if slices.Contains(counts, 1) {
			t.Errorf("after %d lines the paragraph leaves one line alone: %v", lines, counts)
		}
		if n := strings.Count(strings.Join(pageTexts(p), " "), "word"); n != 150 {
			t.Errorf("%d of 150 words are there", n)
		}
	}
}

// Blocks longer than a page are broken; nothing of them is lost.
func TestWhatNoPageHolds(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("word ", 3000))
	for name, write := range map[string]func(*paper){
		"row":       func(p *paper) { p.row(label("all"), text(long)) },
		"paragraph": func(p *paper) { p.paragraph(long) },
		"title":     func(p *paper) { p.letterhead(long) },
		"together":  func(p *paper) { p.together(func() { p.paragraph(long) }) },
		"table row": func(p *paper) {
			p.table(table{columns: []column{{"step", 1, toLeft}, {"n", 1, toRight}}, rows: []tableRow{{cells: cells(text(long), text("1"))}}})
		},
		"signature": func(p *paper) { p.signatures(label("by"), signature{Name: "A", Meaning: long, At: issued}) },
	} {
		p := blankPaper(t)
		write(p)
		inside(t, p)
		if n := strings.Count(strings.Join(pageTexts(p), " "), "word"); n != 3000 {
			t.Errorf("%s: %d of 3000 words are there", name, n)
		}
		if len(p.pages) < 3 {
			t.Errorf("%s: on %d pages", name, len(p.pages))
		}
		finished(t, p)
	}
}

func TestLongNamesStayOnThePaper(t *testing.T) {
	for _, who := range []string{
		"Maximiliana Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh Cholmondeley-Majoribanks y Villanueva de la Cañada",
		strings.Repeat("W", 200), strings.Repeat("ễ", 120), strings.Repeat("a\u0323\u0316", 90), strings.Repeat("😀", 80),
	} {
		p := everywhere(t, who)
		inside(t, p)
		finished(t, p)
	}
}

func TestTheCheckStandsAtTheFoot(t *testing.T) {
	for lines := range 60 {
		p := filledTo(t, lines)
		p.check(check{Code: "4H7K", Address: checkAddress})
		inside(t, p)
		last := len(p.pages) - 1
		if pageOf(p, "Check code 4H7K") != last {
			t.Errorf("after %d lines the check is not on the last page", lines)
		}
		for _, it := range p.pages[last] {
			if b, ok := it.(blocks); ok && (b.y < p.bottom-qrSide-1 || b.y+qrSide > p.foot) {
				t.Errorf("after %d lines the code stands at %.0f, the foot is at %.0f", lines, b.y, p.bottom)
			}
		}
	}
}

func TestPageNumbers(t *testing.T) {
	p := blankPaper(t)
	p.letterhead("A long list")
	p.table(longTable(60))
	p.check(check{Code: "4H7K", Address: checkAddress})
	path := filed(t, finished(t, p))
	for n := 1; n <= len(p.pages); n++ {
		got := tool(t, "pdftotext", "-layout", "-f", fmt.Sprint(n), "-l", fmt.Sprint(n), path, "-")
		for _, want := range []string{fmt.Sprintf("4H7K · Page %d of %d", n, len(p.pages)), "In an emergency call the local emergency number.", "Issued 18 Nov 2026, 15:42 MST", "A long list", "Larkmoor Home Nursing"} {
			if !strings.Contains(got, want) {
				t.Errorf("page %d does not say %q:\n%s", n, want, got)
			}
		}
	}
}
