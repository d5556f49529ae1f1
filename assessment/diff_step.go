package assessment

import (
	"fmt"
	"strconv"
	"strings"
)

// placedStep is a step with the heading it stands under.
type placedStep struct {
	Step
	section string
	number  int // of its section, from 0
}

func placed(c Checklist) []placedStep {
	var all []placedStep
	for i, s := range c.Sections {
		for _, step := range s.Steps {
			all = append(all, placedStep{step, s.Title, i})
		}
	}
	return all
}

// inWords is the whole step, for one that came or went.
func (s Step) inWords() string {
	parts := []string{s.Text, string(s.Kind), s.criticalInWords()}
	for _, m := range s.Measures {
		parts = append(parts, m.Name+": "+m.inWords())
	}
	parts = append(parts, s.mayNotApplyInWords())
	return strings.Join(parts, "; ")
}

func (s Step) criticalInWords() string {
	if !s.Critical {
		return "not critical"
	}
	return fmt.Sprintf("critical (%s), at least %s", s.Because, s.Least)
}

func (s Step) mayNotApplyInWords() string {
	if s.MayNotApply == "" {
		return "always applies"
	}
	return "may not apply: " + s.MayNotApply
}

// inWords is the accepted range with all that decides how it is used.
func (m Measure) inWords() string {
	w := m.RangeInWords()
	if m.Either != "" {
		w += fmt.Sprintf(" (one of %q)", m.Either)
	}
	return w
}

// step shows what changed in a step that both revisions have.
func (d *differ) step(old, new placedStep, moved bool) {
	where := "Step " + strconv.Itoa(new.No)
	if moved {
		d.note(where, "moved", "step "+strconv.Itoa(old.No), where)
	}
	// A renamed heading is a change of the heading, not of its steps.
	if old.number != new.number && old.section != new.section {
		d.note(where, "section", old.section, new.section)
	}
	d.note(where, "text", old.Text, new.Text)
	d.note(where, "kind", string(old.Kind), string(new.Kind))
	d.note(where, "critical", old.criticalInWords(), new.criticalInWords())
	d.note(where, "weight", strconv.Itoa(old.Weight), strconv.Itoa(new.Weight))
	d.note(where, "not applicable", old.mayNotApplyInWords(), new.mayNotApplyInWords())
	d.note(where, "note", old.Note, new.Note)
	d.measures(where, old.Measures, new.Measures)
}

func (d *differ) measures(where string, old, new []Measure) {
	before := len(d.changes)
	for _, m := range old {
		n, kept := (Step{Measures: new}).measure(m.Name)
		if !kept {
			d.note(where, "value removed", m.Name+": "+m.inWords(), "")
			continue
		}
		d.measure(where, m, n)
	}
	for _, m := range new {
		if _, had := (Step{Measures: old}).measure(m.Name); !had {
			d.note(where, "value added", "", m.Name+": "+m.inWords())
		}
	}
	if len(d.changes) == before {
		d.note(where, "order of values", namesOf(old), namesOf(new))
	}
}

func namesOf(all []Measure) string {
	var names []string
	for _, m := range all {
		names = append(names, m.Name)
	}
	return strings.Join(names, ", ")
}

func (d *differ) measure(where string, old, new Measure) {
	before := len(d.changes)
	d.note(where, "unit of "+old.Name, unitName(old.Unit), unitName(new.Unit))
	d.note(where, "accepted range of "+old.Name, old.inWords(), new.inWords())
	if len(d.changes) == before {
		d.note(where, "accepted range of "+old.Name, old.exactly(), new.exactly())
	}
}

// exactly spells a range out where its words hide a difference.
func (m Measure) exactly() string {
	return fmt.Sprintf("%s (low %s; high %s; ends excluded %t; minus sign ignored %t)",
		m.inWords(), m.Low.exactly(), m.High.exactly(), m.Exclusive, m.Magnitude)
}

func (b *Bound) exactly() string {
	switch {
	case b == nil:
		return "none"
	case b.Parameter != "":
		return "parameter " + b.phrase().String()
	case b.Measure != "":
		return "value " + b.phrase().String()
	}
	return b.phrase().String()
}
