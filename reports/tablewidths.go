package reports

import (
	"fmt"
	"strings"
)

const (
	handRoom  = 34 // least length of a rule to write on
	widestYet = 90 // a longer word may be broken, so that one name cannot take the table
)

// columnWidths shares the width of the words among the columns, but gives none
// less than its longest word needs, so that numbers, dates and headings stay whole.
func (p *paper) columnWidths(t table) ([]float64, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	room := p.room() - columnGap*float64(len(t.columns)-1)
	least := p.leastWidths(t)
	widths := make([]float64, len(t.columns))
	fixed := make([]bool, len(t.columns))
	for range t.columns {
		free, shares := room, 0.0
		for i, c := range t.columns {
			if fixed[i] {
				free -= widths[i]
			} else {
				shares += c.share
			}
		}
		settled := true
		for i, c := range t.columns {
			if fixed[i] {
				continue
			}
			widths[i] = free * c.share / shares
			if widths[i] < least[i] {
				widths[i], fixed[i], settled = least[i], true, false
			}
		}
		if settled {
			break
		}
	}
	return squeezed(widths, room), nil
}

// squeezed shrinks widths that are too wide together, each by the same part.
func squeezed(widths []float64, room float64) []float64 {
	sum := 0.0
	for _, w := range widths {
		sum += max(w, 1)
	}
	if sum <= room {
		return widths
	}
	for i := range widths {
		widths[i] = max(widths[i], 1) * room / sum
	}
	return widths
}

func (t table) check() error {
	if len(t.columns) == 0 {
		return fmt.Errorf("table has no columns")
	}
	for _, c := range t.columns {
		if !(c.share > 0) {
			return fmt.Errorf("table column %q has no share of the width", c.title)
		}
	}
	for i, r := range t.rows {
		if len(r.cells) > len(t.columns) {
			return fmt.Errorf("table row %d has %d cells in %d columns", i+1, len(r.cells), len(t.columns))
		}
	}
	return nil
}

func (p *paper) leastWidths(t table) []float64 {
	least := make([]float64, len(t.columns))
	for i, c := range t.columns {
		if c.align != underUpright {
			least[i] = p.least(label(c.title))
		}
	}
	for _, r := range t.rows {
		for i, c := range r.cells {
			for _, w := range c {
				least[i] = max(least[i], p.least(w.smaller()))
			}
		}
	}
	return least
}

// least is the width below which a word of w would be broken, or its rule too
// short to write on.
func (p *paper) least(w words) float64 {
	f, clean := p.set(w.style, w.text)
	longest := 0.0
	for word := range strings.FieldsSeq(clean) {
		longest = max(longest, f.width(word, w.style.size))
	}
	longest = min(longest, widestYet)
	switch {
	case w.rule:
		return handRoom + longest
	case w.shape != noShape && w.text != "":
		return w.shape.span() + shapeGap + longest
	}
	return max(w.shape.span(), longest)
}
