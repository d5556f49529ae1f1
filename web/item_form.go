package web

import (
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment/knowledge"
	"wellshown/assessment/wording"
)

// leastRows is how many rows a form has to begin with.
const leastRows = 4

// oneLine is what was typed with its line breaks as spaces: a browser breaks lines in a
// box where it likes.
func oneLine(typed string) string { return strings.Join(strings.Fields(typed), " ") }

// fill makes the fields of the form from what is typed, with what is wrong with each.
func (p *ItemPage) fill(t knowledge.Typed, more int) {
	p.Head, p.Rows, p.Right, p.Teach, p.Tail, p.More = nil, nil, nil, ItemRow{}, nil, false
	if p.Kind == "" || p.Action == "" {
		return
	}
	if p.ID == "" {
		p.Head = append(p.Head, p.field("id", "Id", t.ID, "text", "It stays for ever. It stands in the address of this page."))
	}
	hard := p.field("difficulty", "Difficulty", t.Difficulty, "radios", "Your estimate. Every form has as many of each.")
	hard.Options = []Option{{Value: "1", Text: "Easy"}, {Value: "2", Text: "Middling"}, {Value: "3", Text: "Hard"}}
	p.Head = append(p.Head, hard)
	p.Rows = append(p.Rows, p.both("The question", "ask", func(s knowledge.TypedText) string { return s.Ask }, t))
	rows := rowsShown(t, more)
	for row := range rows {
		p.Rows = append(p.Rows, p.option(t, row)...)
	}
	p.More = p.hasRows() && rows < knowledge.Rows
	p.Right = p.right(t, rows)
	p.Teach = p.both("What it teaches", "teach", func(s knowledge.TypedText) string { return s.Teach }, t)
	p.Tail = []Field{p.field("critical", "It is critical: a wrong answer fails the check, whatever the score", ticked(t.Critical), "check", ""),
		p.field("source", "Source", t.Source, "text", "As it is published: who, what, which year."), p.field("no-source", "Common practice: there is no source", ticked(t.NoSource), "check", "")}
}

func (p *ItemPage) hasRows() bool { return p.Kind != string(knowledge.Numeric) }

// rowsShown is how many rows a form has: those that are filled, and room for one more.
func rowsShown(t knowledge.Typed, more int) int {
	if t.Kind == knowledge.Numeric {
		return 0
	}
	filled := 0
	for _, said := range t.Said {
		for _, all := range [][]string{said.Options, said.Pairs} {
			for n, text := range all {
				if text != "" {
					filled = max(filled, n+1)
				}
			}
		}
	}
	return min(max(filled, leastRows)+more, knowledge.Rows)
}

// option is one row of answers, in both languages.
func (p *ItemPage) option(t knowledge.Typed, row int) []ItemRow {
	no := strconv.Itoa(row + 1)
	said := func(which func(knowledge.TypedText) []string) func(knowledge.TypedText) string {
		return func(s knowledge.TypedText) string {
			if all := which(s); row < len(all) {
				return all[row]
			}
			return ""
		}
	}
	left := said(func(s knowledge.TypedText) []string { return s.Options })
	switch t.Kind {
	case knowledge.Match:
		one := p.both("Pair "+no, "option-"+no, left, t)
		two := p.both("", "pair-"+no, said(func(s knowledge.TypedText) []string { return s.Pairs }), t)
		for i := range two.Fields {
			two.Fields[i].Label = "What belongs to it, in " + tongue(wording.Languages[i])
		}
		one.Fields = append(one.Fields, two.Fields...)
		return []ItemRow{one}
	case knowledge.Order:
		return []ItemRow{p.both("Step "+no, "option-"+no, left, t)}
	}
	return []ItemRow{p.both("Answer "+no, "option-"+no, left, t)}
}

// tongue is a language as an educator calls it.
func tongue(l wording.Language) string {
	if l == wording.Spanish {
		return "Spanish"
	}
	return "English"
}

// both is one thing in each language.
func (p *ItemPage) both(title, name string, of func(knowledge.TypedText) string, t knowledge.Typed) ItemRow {
	row := ItemRow{Title: title}
	for _, l := range wording.Languages {
		f := p.field(name+"-"+string(l), "In "+tongue(l), of(t.Said[string(l)]), "area", "")
		f.Lang = string(l)
		row.Fields = append(row.Fields, f)
	}
	return row
}

// right is what is right, said once, whatever the language.
func (p *ItemPage) right(t knowledge.Typed, rows int) []Field {
	var all []Field
	switch t.Kind {
	case knowledge.Single, knowledge.Multiple:
		f := p.field("right", "Which is right", "", "radios", "")
		if t.Kind == knowledge.Multiple {
			f.Kind, f.Label = "checks", "Which are right"
		}
		for row := range rows {
			o := Option{Value: strconv.Itoa(row + 1), Text: "Answer " + strconv.Itoa(row+1)}
			for _, r := range t.Right {
				if r == row+1 {
					f.Value, o.Chosen = o.Value, true
				}
			}
			f.Options = append(f.Options, o)
		}
		all = append(all, f)
	case knowledge.Numeric:
		all = append(all, p.field("low", "Right from", t.Low, "number", ""), p.field("high", "Right up to", t.High, "number", "Both ends count. Write the same twice where one number alone is right."),
			p.field("unit", "Unit that is right", t.Unit, "text", "Such as s, mL or cmH2O."), p.field("units", "Units offered", t.Units, "text", "Parted by commas, such as s, min. A number in another unit is not right, and nothing is converted."))
	}
	return all
}

// ticked is the value of a box.
func ticked(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

// field makes one that must be filled, or another one instead of it.
func (p *ItemPage) field(name, label, value, kind, hint string) Field {
	return Field{ID: p.Faults.ID(name), Name: name, Label: label, Value: value, Kind: kind, Hint: hint, Fault: p.Faults.For(name), Either: true}
}

// labels name all fields of the form for their faults, in its order.
func (p *ItemPage) labels() []FieldFault {
	var all []FieldFault
	note := func(fields []Field) {
		for _, f := range fields {
			all = append(all, label(f.Name, f.Label))
		}
	}
	note(p.Head)
	for _, r := range append(slices.Clone(p.Rows), p.Teach) {
		for _, f := range r.Fields {
			all = append(all, label(f.Name, r.Title+": "+f.Label))
		}
	}
	note(p.Right)
	note(p.Tail)
	return all
}
