package assessment

import (
	"strconv"

	"wellshown/assessment/phrase"
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

// phrase is the whole step, for one that came or went.
func (s Step) phrase() phrase.Phrase {
	parts := []phrase.Phrase{ours(s.Text), s.Kind.phrase(), s.criticalPhrase()}
	for _, m := range s.Measures {
		parts = append(parts, m.named())
	}
	return inTurn(append(parts, s.mayNotApplyPhrase()))
}

func (k Kind) phrase() phrase.Phrase {
	switch k {
	case Done:
		return phrase.Of("done")
	case Timed:
		return phrase.Of("timed")
	case Measured:
		return phrase.Of("measured")
	case Said:
		return phrase.Of("said aloud")
	}
	return phrase.Text(string(k))
}

func (s Step) criticalPhrase() phrase.Phrase {
	if !s.Critical {
		return phrase.Of("not critical")
	}
	return phrase.Of("critical (%s), at least %s", phrase.Step(s.Because), s.Least.Phrase())
}

func (s Step) mayNotApplyPhrase() phrase.Phrase {
	if s.MayNotApply == "" {
		return phrase.Of("always applies")
	}
	return phrase.Of("may not apply: %s", phrase.Step(s.MayNotApply))
}

// whole is the accepted range with all that decides how it is used.
func (m Measure) whole() phrase.Phrase {
	if m.Either == "" {
		return m.Phrase()
	}
	return phrase.Of(`%s (one of "%s")`, m.Phrase(), m.Either)
}

func (m Measure) named() phrase.Phrase { return phrase.Of("%s: %s", phrase.Step(m.Name), m.whole()) }

// step shows what changed in a step that both revisions have.
func (d *differ) step(old, new placedStep, moved bool) {
	where := phrase.Of("Step %d", new.No)
	if moved {
		d.whole(Moves, where, phrase.Of("step %d", old.No), where)
	}
	// A renamed heading is a change of the heading, not of its steps.
	if old.number != new.number && old.section != new.section {
		d.note(where, phrase.Of("section"), ours(old.section), ours(new.section))
	}
	d.note(where, phrase.Of("text"), ours(old.Text), ours(new.Text))
	d.note(where, phrase.Of("kind"), old.Kind.phrase(), new.Kind.phrase())
	d.note(where, phrase.Of("critical"), old.criticalPhrase(), new.criticalPhrase())
	d.note(where, phrase.Of("weight"), phrase.Text(strconv.Itoa(old.Weight)), phrase.Text(strconv.Itoa(new.Weight)))
	d.note(where, phrase.Of("not applicable"), old.mayNotApplyPhrase(), new.mayNotApplyPhrase())
	d.note(where, phrase.Of("note"), ours(old.Note), ours(new.Note))
	d.measures(where, old.Measures, new.Measures)
}

func (d *differ) measures(where phrase.Phrase, old, new []Measure) {
	before := len(d.changes)
	for _, m := range old {
		n, kept := (Step{Measures: new}).measure(m.Name)
		if !kept {
			d.note(where, phrase.Of("value removed"), m.named(), phrase.Phrase{})
			continue
		}
		d.measure(where, m, n)
	}
	for _, m := range new {
		if _, had := (Step{Measures: old}).measure(m.Name); !had {
			d.note(where, phrase.Of("value added"), phrase.Phrase{}, m.named())
		}
	}
	if len(d.changes) == before {
		d.note(where, phrase.Of("order of values"), namesOf(old), namesOf(new))
	}
}

func namesOf(all []Measure) phrase.Phrase {
	var names []string
	for _, m := range all {
		names = append(names, m.Name)
	}
	return inTurn(eachOurs(names))
}

func (d *differ) measure(where phrase.Phrase, old, new Measure) {
	before, accepted := len(d.changes), phrase.Of("accepted range of %s", phrase.Step(old.Name))
	d.note(where, phrase.Of("unit of %s", phrase.Step(old.Name)), phrase.Text(unitName(old.Unit)), phrase.Text(unitName(new.Unit)))
	d.note(where, accepted, old.whole(), new.whole())
	if len(d.changes) == before {
		d.note(where, accepted, old.exactly(), new.exactly())
	}
}

// exactly spells a range out where its words hide a difference.
func (m Measure) exactly() phrase.Phrase {
	return phrase.Of("%s (low %s; high %s; ends excluded: %s; minus sign ignored: %s)", m.whole(), m.Low.exactly(), m.High.exactly(), yesNo(m.Exclusive), yesNo(m.Magnitude))
}

func (b *Bound) exactly() phrase.Phrase {
	switch {
	case b == nil:
		return phrase.Of("none")
	case b.Parameter != "":
		return phrase.Of("parameter %s", b.phrase())
	case b.Measure != "":
		return phrase.Of("value %s", b.phrase())
	}
	return b.phrase()
}
