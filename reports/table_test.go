package reports

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

func TestTwoHundredRows(t *testing.T) {
	p := blankPaper(t)
	p.table(longTable(200))
	inside(t, p)
	pages := pageTexts(p)
	for n, page := range pages {
		lines := strings.Split(page, "\n")
		if lines[0] != "skill" || !slices.Contains(lines, "days") {
			t.Errorf("page %d begins with %q", n+1, lines[0])
		}
		if strings.Count(page, "standing\n") != 1 {
			t.Errorf("page %d has the header %d times", n+1, strings.Count(page, "standing\n"))
		}
		if !strings.HasPrefix(lines[3], "Caregiver ") {
			t.Errorf("page %d does not say whose rows these are: %q", n+1, lines[3])
		}
	}
	all := strings.Split(strings.Join(pages, "\n"), "\n")
	for i := range 200 {
		label := fmt.Sprintf("no%d", i)
		if n := len(all) - len(slices.DeleteFunc(slices.Clone(all), func(s string) bool { return s == label })); n != 1 {
			t.Errorf("row %s is there %d times", label, n)
		}
	}
}

// Rows stand below one another without touching, on every page.
func TestRowsDoNotOverlap(t *testing.T) {
	p := blankPaper(t)
	p.table(longTable(120))
	p.flush()
	for n, d := range p.pages {
		last := 0.0
		for _, it := range d {
			w, ok := it.(writing)
			if !ok || !strings.HasPrefix(w.text, "no") {
				continue
			}
			if w.y < last+20 {
				t.Errorf("page %d: %s at %.1f follows a row at %.1f", n+1, w.text, w.y, last)
			}
			last = w.y
		}
	}
}

// Whoever has a page read aloud hears a row cell by cell, its label first, and not
// line by line across the cells.
func TestRowsAreReadCellByCell(t *testing.T) {
	p := blankPaper(t)
	long := strings.TrimSpace(strings.Repeat("step ", 40))
	p.table(table{columns: []column{{"step", 1, toLeft}, {"mark", 1, toLeft}}, rows: []tableRow{{left: label("7"), cells: [][]words{cell(text(long)), cell(text("cued"), text("twice"))}}}})
	if got, want := strings.Fields(pageTexts(p)[0]), strings.Fields("step mark 7 "+long+" cued twice"); !slices.Equal(got, want) {
		t.Errorf("read as %q", got)
	}
}

// A title set upright takes no more width than a box, and stands over the boxes.
func TestUprightTitles(t *testing.T) {
	p := blankPaper(t)
	p.table(table{columns: []column{{"step", 1, toLeft}, {"independent", 0.001, underUpright}}, rows: []tableRow{{cells: cells(text("a"), mark(shapeBox))}}})
	inside(t, p)
	for _, it := range p.pages[0] {
		switch it := it.(type) {
		case writing:
			if it.upright != (it.text == "independent") {
				t.Errorf("%q is upright: %t", it.text, it.upright)
			}
			if it.upright && (it.x < p.right-boxSide || it.x > p.right) {
				t.Errorf("the title stands at %.1f, its boxes at %.1f", it.x, p.right)
			}
		case figure:
			if it.pen == boxOutline.pen && it.x < p.right-boxSide {
				t.Errorf("the box lies at %.1f", it.x)
			}
		}
	}
	if got := said(t, filed(t, finished(t, p))); !strings.Contains(got, "independent") {
		t.Errorf("the upright title is not read: %q", got)
	}
}

func TestEmptyTable(t *testing.T) {
	for language, want := range map[string]string{"en": "Nothing to list.", "es": "No hay nada que mostrar."} {
		p := blankPaper(t, func(m *meta) { m.Language = language })
		p.table(table{columns: []column{{"skill", 1, toLeft}}})
		if got := pageTexts(p)[0]; got != want {
			t.Errorf("an empty table says %q, want %q", got, want)
		}
	}
	p := blankPaper(t)
	p.table(table{columns: []column{{"skill", 1, toLeft}}, empty: "Nobody is overdue."})
	if got := pageTexts(p)[0]; got != "Nobody is overdue." {
		t.Errorf("an empty table says %q", got)
	}
}

func TestEmptyCells(t *testing.T) {
	p := blankPaper(t)
	p.table(table{columns: []column{{"a", 1, toLeft}, {"b", 1, toLeft}}, rows: []tableRow{{}, {cells: cells(text(""))}, {cells: cells(text("x"), text("y"))}}})
	if got := pageTexts(p)[0]; got != "a\nb\nx\ny" {
		t.Errorf("table says %q", got)
	}
}

func TestNumbersStandFlushRight(t *testing.T) {
	p := blankPaper(t)
	p.table(table{columns: []column{{"skill", 1, toLeft}, {"days", 1, toRight}}, rows: []tableRow{
		{cells: cells(text("a"), text("7"))}, {cells: cells(text("b"), text("1034"))},
	}})
	p.flush()
	for _, it := range p.pages[0] {
		if w, ok := it.(writing); ok && strings.ContainsAny(w.text, "0123456789") {
			if end := w.x + w.face.width(w.text, w.size); end < p.right-0.01 || end > p.right+0.01 {
				t.Errorf("%q ends at %.2f, the column at %.2f", w.text, end, p.right)
			}
		}
	}
}

// A column is never narrower than its words, whatever share it was given.
func TestNarrowColumnsKeepTheirWords(t *testing.T) {
	p := blankPaper(t)
	row := tableRow{cells: cells(text(strings.Repeat("step ", 40)), mark(shapeBox), hand("mmHg"), text("independent"))}
	p.table(table{columns: []column{{"step", 50, toLeft}, {"assisted", 1, toMiddle}, {"value", 1, toLeft}, {"mark", 1, toLeft}}, rows: []tableRow{row}})
	inside(t, p)
	lines := strings.Split(pageTexts(p)[0], "\n")
	for _, want := range []string{"assisted", "mmHg", "independent"} {
		if !slices.Contains(lines, want) {
			t.Errorf("%q was broken: %q", want, lines)
		}
	}
}

func TestTooManyColumnsAreSqueezed(t *testing.T) {
	p := blankPaper(t)
	tb := table{rows: []tableRow{{}}}
	for range 14 {
		tb.columns = append(tb.columns, column{title: "Verantwortung", share: 1})
		tb.rows[0].cells = append(tb.rows[0].cells, cell(text("Zuständigkeit")))
	}
	p.table(tb)
	inside(t, p)
}
