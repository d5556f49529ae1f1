package reports

import (
	"fmt"
	"regexp"
	"strings"

	"wellshown/assessment"
)

// tickSteps prints every step with a box for each mark, and for "not applicable"
// only where the step allows it.
func (p *paper) tickSteps(c assessment.Checklist, keys map[string]string) {
	p.heading("Steps")
	p.note("Tick one box a step. Independent is without any help; cued is help by word or gesture; assisted is help by showing or touching. Where a step does not apply, say why on its line.")
	t := table{columns: []column{{"step", 1, toLeft}}, empty: "This checklist has no steps yet."}
	for _, m := range assessment.Marks {
		t.columns = append(t.columns, column{string(m), tickShare, underUpright})
	}
	t.columns = append(t.columns, column{"not applicable", tickShare, underUpright})
	for _, s := range c.Sections {
		t.rows = append(t.rows, tableRow{section: []words{group(s.Title)}})
		for _, step := range s.Steps {
			t.rows = append(t.rows, tickStep(c, step, keys))
		}
	}
	p.table(t)
}

const tickShare = 0.001 // of the width: a column of boxes takes no more than a box

func tickStep(c assessment.Checklist, s assessment.Step, keys map[string]string) tableRow {
	said := []words{text(toFill(s.Text, keys))}
	if s.Critical {
		said = append(said, strongly("Critical: "+ended(toFill(s.Because, keys))))
	}
	said = append(said, toRead(c, s, keys)...)
	note := ended(toFill(s.Note, keys))
	if s.Kind == assessment.Said {
		note = strings.TrimSpace("Said aloud. " + note)
	}
	said = append(said, soft(note))
	row := tableRow{left: label(fmt.Sprint(s.No))}
	boxed := make([]words, 0, len(assessment.Marks)+1)
	for range assessment.Marks {
		boxed = append(boxed, mark(shapeBox))
	}
	if s.MayNotApply != "" {
		said = append(said, soft("Not applicable where: "+ended(toFill(s.MayNotApply, keys))), whyNot())
		boxed = append(boxed, mark(shapeBox))
	}
	row.cells = append([][]words{said}, cells(boxed...)...)
	return row
}

// whyNot is a rule to say why a step does not apply.
func whyNot() words {
	w := handIn("")
	w.style, w.text = style{sans, 9, penLead, softInk}, "why it does not apply"
	return w
}

func strongly(s string) words { return words{style: style{sansBold, 9, 13, ink}, text: s} }

// toRead is a line to fill in for each value, with what it must be.
func toRead(c assessment.Checklist, s assessment.Step, keys map[string]string) []words {
	var lines []words
	either := map[string]bool{}
	for _, m := range s.Measures {
		name := m.Name
		if m.Either != "" && either[m.Either] {
			name = "or " + name
		}
		either[m.Either] = true
		unit := assessment.UnitInWords(unitOf(c, m))
		if strings.Contains(m.RangeInWords(), "{") {
			m.Unit = "" // stands behind the first blank already, and the line is long
		}
		said := name + ": " + strings.TrimSpace(longBlank+" "+unit) + " · " + toFill(m.RangeInWords(), keys)
		lines = append(lines, words{style: style{sans, 10, penLead, ink}, text: said})
	}
	return lines
}

// unitOf is the unit in which a value is read: the written one, else that of the
// parameter that bounds it.
func unitOf(c assessment.Checklist, m assessment.Measure) string {
	if m.Unit != "" {
		return m.Unit
	}
	for _, b := range []*assessment.Bound{m.Low, m.High} {
		if b == nil {
			continue
		}
		for _, q := range c.Parameters {
			if q.Name == b.Parameter {
				return q.Unit
			}
		}
	}
	return ""
}

const (
	longBlank  = "_________"
	shortBlank = "______"
)

var inBraces = regexp.MustCompile(`\{([^{}]*)\}`)

// toFill puts a blank, with the letter that stands for it, where a text names a
// value of the child in braces.
func toFill(s string, keys map[string]string) string {
	return inBraces.ReplaceAllStringFunc(s, func(braced string) string {
		name := strings.Trim(braced, "{}")
		key, known := keys[name]
		if !known {
			key = strings.ReplaceAll(name, "_", " ")
		}
		return shortBlank + "\u00a0(" + key + ")"
	})
}

// letters names parameters A, B, C … in their order, after Z AA, AB and so on.
func letters(all []assessment.Parameter) map[string]string {
	keys := map[string]string{}
	for i, q := range all {
		key := ""
		for n := i + 1; n > 0; n = (n - 1) / 26 {
			key = string(rune('A'+(n-1)%26)) + key
		}
		keys[q.Name] = key
	}
	return keys
}
