package reports

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// steps prints every step with its mark and what was read.
func (p *paper) steps(v office.DemonstrationView) {
	known := withDefaults(v)
	w := p.say.w
	t := table{columns: []column{{w.Say("step"), 3.6, toLeft}, {w.Say("mark"), 1.2, toLeft}, {w.Say("read"), 1.7, toLeft}}, empty: w.Say("The checklist has no steps.")}
	for _, s := range v.Checklist.Sections {
		t.rows = append(t.rows, tableRow{section: []words{group(theirs(w, s.Title))}})
		for _, step := range s.Steps {
			t.rows = append(t.rows, recordStep(w, v, known, step))
		}
	}
	p.table(t)
}

func recordStep(w wording.Words, v office.DemonstrationView, known assessment.Parameters, s assessment.Step) tableRow {
	e, there := v.Entries[s.No]
	weight := text
	if slices.ContainsFunc(v.Result.Reasons, func(r assessment.Reason) bool { return r.Step == s.No }) {
		weight = strong
	}
	step := []words{weight(theirs(w, s.Text))}
	if s.Critical {
		step = append(step, soft(w.Say("Critical: %s", ended(theirs(w, s.Because)))))
	}
	if e.Note != "" {
		step = append(step, soft(w.Say("Note: %s", ended(e.Note))))
	}
	mark := markGiven(w, v, s, e, there, weight)
	if at := v.MarkedTime(s.No); v.Bedside != nil && at != "" {
		mark = append(mark, soft(w.Say("at %s", at)))
	}
	return tableRow{left: label(fmt.Sprint(s.No)), cells: [][]words{step, mark, readings(w, v, known, s, e)}}
}

// markGiven is the mark as given and, where its values made it another, what it
// counts as; weight sets it apart where it is among the reasons.
func markGiven(w wording.Words, v office.DemonstrationView, s assessment.Step, e assessment.SheetEntry, there bool, weight func(string) words) []words {
	switch {
	case !there || e.Mark == "" && !e.NotApplicable:
		return cell(text(w.Say("not marked")))
	case e.NotApplicable:
		return cell(text(w.Say("not applicable")), soft(e.Reason))
	}
	if effective, judged := v.Effective[s.No]; judged && effective != e.Mark {
		return cell(weight(w.Of(e.Mark.Phrase())), soft(w.Say("counts as %s", effective.Phrase())))
	}
	return cell(weight(w.Of(e.Mark.Phrase())))
}

func readings(w wording.Words, v office.DemonstrationView, known assessment.Parameters, s assessment.Step, e assessment.SheetEntry) []words {
	var all []words
	for _, m := range s.Measures {
		read, given := e.Values[m.Name]
		if !given {
			continue
		}
		what := w.Say("%s: %s", theirs(w, m.Name), read.Phrase())
		out := slices.Contains(v.Result.Reasons, assessment.Reason{Rule: assessment.RuleValue, Step: s.No, Of: m.Name})
		if out {
			all = append(all, strong(what), soft(w.Say("outside: %s", acceptedPhrase(m, known, e))))
			continue
		}
		all = append(all, text(what), soft(w.Of(acceptedPhrase(m, known, e))))
	}
	return all
}

// acceptedPhrase is the range as it applied to the child, or as it is written
// where it cannot be worked out.
func acceptedPhrase(m assessment.Measure, known assessment.Parameters, e assessment.SheetEntry) phrase.Phrase {
	a, missing, err := m.Accepted(known, e.Values)
	if err != nil || missing != "" {
		return m.Phrase()
	}
	return a.Phrase()
}

// withDefaults is the child's values as they were kept, with the checklist's
// defaults for those that the record lacked: what the rules judged by.
func withDefaults(v office.DemonstrationView) assessment.Parameters {
	known := assessment.Parameters{}
	maps.Copy(known, v.Parameters)
	for _, p := range v.Checklist.Parameters {
		if _, set := known[p.Name]; !set && p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	return known
}

// childsValues prints the values of the child by which ranges were judged.
func (p *paper) childsValues(v office.DemonstrationView) {
	if len(v.Checklist.Parameters) == 0 {
		return
	}
	w := p.say.w
	t := table{columns: []column{{w.Say("by the child’s record on that day"), 3, toLeft}, {w.Say("value"), 1.4, toLeft}}}
	for _, q := range v.Checklist.Parameters {
		value := text(w.Say("not set"))
		if n, set := v.Parameters[q.Name]; set {
			value = text(w.Of(n.Phrase()))
		} else if said := v.Words[q.Name]; said != "" {
			value = text(said)
		} else if q.Default != nil {
			value = text(w.Say("%s, as nothing was set", q.Default.Phrase()))
		}
		t.rows = append(t.rows, tableRow{cells: cells(text(capital(valueCalled(w, q))), value)})
	}
	p.gap(10)
	p.table(t)
}

// valueCalled is what a value of the child is called: a starter's in short where that is known in
// the language.
func valueCalled(w wording.Words, q assessment.Parameter) string {
	short, _, _ := strings.Cut(q.Says, ",")
	if said, known := w.Theirs(short); known && said != short {
		return said
	}
	return q.Says
}
