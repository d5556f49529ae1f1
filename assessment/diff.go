package assessment

import (
	"slices"

	"wellshown/assessment/phrase"
)

// Difference is how a revision differs from another.
type Difference string

// The differences.
const (
	DiffersIn Difference = "changed"
	Adds      Difference = "added"
	Removes   Difference = "removed"
	Moves     Difference = "moved"
)

// Phrase says it.
func (d Difference) Phrase() phrase.Phrase {
	switch d {
	case Adds:
		return phrase.Of("added")
	case Removes:
		return phrase.Of("removed")
	case Moves:
		return phrase.Of("moved")
	}
	return phrase.Of("changed")
}

// Change is one difference between two revisions, for people: where it stands,
// what of it changed, and both sides in words.
type Change struct {
	How    Difference
	Where  phrase.Phrase // "Checklist", "Step 5", "Policy", "Parameter suction_high" …
	What   phrase.Phrase // "text", "accepted range of time" …; zero: all of it
	Before phrase.Phrase // zero for what was added
	After  phrase.Phrase // zero for what was removed
}

// Called is what changed in a word or two of English: "text", "added".
func (c Change) Called() string {
	if c.What.IsZero() {
		return string(c.How)
	}
	return c.What.String()
}

// Diff lists what makes the new revision differ from the old one, in the order
// of the page. Steps are matched by their text and place, so that an inserted
// step is one change though all later numbers move. It is empty only where the
// two are the same.
func Diff(old, new Checklist) []Change {
	d := &differ{}
	d.head(old, new)
	d.list(phrase.Of("Safety"), old.Safety, new.Safety)
	d.list(phrase.Of("Equipment"), old.Equipment, new.Equipment)
	d.list(phrase.Of("Equipment types"), old.Fitted, new.Fitted)
	d.list(phrase.Of("Prerequisites"), old.Prerequisites, new.Prerequisites)
	d.list(phrase.Of("Related skills"), old.Related, new.Related)
	d.parameters(old.Parameters, new.Parameters)
	d.policy(old.Policy, new.Policy)
	d.steps(old, new)
	d.list(phrase.Of("Sources"), old.Sources, new.Sources)
	return d.changes
}

type differ struct{ changes []Change }

// note tells of a difference between two sides, where there is one.
func (d *differ) note(where, what, before, after phrase.Phrase) {
	if before.String() != after.String() {
		d.changes = append(d.changes, Change{DiffersIn, where, what, before, after})
	}
}

func (d *differ) whole(how Difference, where, before, after phrase.Phrase) {
	d.changes = append(d.changes, Change{How: how, Where: where, Before: before, After: after})
}

// ours is a text of the checklist; nothing where it says nothing.
func ours(text string) phrase.Phrase {
	if text == "" {
		return phrase.Phrase{}
	}
	return phrase.Of("%s", phrase.Step(text))
}

// inTurn is several things one after the other, "Ada; Ben; Cora".
func inTurn(all []phrase.Phrase) phrase.Phrase {
	var row phrase.Phrase
	for _, one := range all {
		if row.IsZero() {
			row = one
		} else {
			row = phrase.Of("%s; %s", row, one)
		}
	}
	return row
}

func eachOurs(texts []string) []phrase.Phrase {
	var all []phrase.Phrase
	for _, t := range texts {
		all = append(all, ours(t))
	}
	return all
}

func yesNo(b bool) phrase.Phrase {
	if b {
		return phrase.Of("yes")
	}
	return phrase.Of("no")
}

func (d *differ) head(old, new Checklist) {
	where := phrase.Of("Checklist")
	d.note(where, phrase.Of("code"), phrase.Text(old.Code), phrase.Text(new.Code))
	d.note(where, phrase.Of("title"), ours(old.Title), ours(new.Title))
	d.note(where, phrase.Of("scope"), old.Scope.phrase(), new.Scope.phrase())
	d.note(where, phrase.Of("manikin only"), yesNo(old.ManikinOnly), yesNo(new.ManikinOnly))
	d.note(where, phrase.Of("resuscitation card needed"), yesNo(old.CardNeeded), yesNo(new.CardNeeded))
	d.note(where, phrase.Of("purpose"), ours(old.Purpose), ours(new.Purpose))
}

func (s Scope) phrase() phrase.Phrase {
	if s == ClientSpecific {
		return phrase.Of("client-specific")
	}
	return phrase.Of("general")
}

// list shows which lines went and which came; lines that both hold in another
// order are shown as a new order.
func (d *differ) list(where phrase.Phrase, old, new []string) {
	if slices.Equal(old, new) {
		return
	}
	before := len(d.changes)
	for _, line := range without(old, new) {
		d.whole(Removes, where, ours(line), phrase.Phrase{})
	}
	for _, line := range without(new, old) {
		d.whole(Adds, where, phrase.Phrase{}, ours(line))
	}
	if len(d.changes) == before {
		d.note(where, phrase.Of("order"), inTurn(eachOurs(old)), inTurn(eachOurs(new)))
	}
}

// without is what of a is not in b, each line as often as it is too many.
func without(a, b []string) []string {
	spare := map[string]int{}
	for _, line := range b {
		spare[line]++
	}
	var left []string
	for _, line := range a {
		if spare[line]--; spare[line] < 0 {
			left = append(left, line)
		}
	}
	return left
}

func (d *differ) policy(old, new Policy) {
	was, is := old.terms(), new.terms()
	for i := range was {
		d.note(phrase.Of("Policy"), was[i].name, was[i].says, is[i].says)
	}
}

// steps walks the two lists side by side.
func (d *differ) steps(old, new Checklist) {
	before, sections := len(d.changes), phrase.Of("Sections")
	d.list(sections, old.titles(), new.titles())
	was, is := placed(old), placed(new)
	for _, p := range moves(align(was, is), was, is) {
		switch {
		case p.new < 0:
			d.whole(Removes, phrase.Of("Old step %d", was[p.old].No), was[p.old].phrase(), phrase.Phrase{})
		case p.old < 0:
			d.whole(Adds, phrase.Of("Step %d", is[p.new].No), phrase.Phrase{}, is[p.new].phrase())
		default:
			d.step(was[p.old], is[p.new], p.moved)
		}
	}
	if len(d.changes) == before {
		d.note(sections, phrase.Of("steps in each"), old.division(), new.division())
	}
}

func (c Checklist) titles() []string {
	var all []string
	for _, s := range c.Sections {
		all = append(all, s.Title)
	}
	return all
}

func (c Checklist) division() phrase.Phrase {
	var all []phrase.Phrase
	for _, s := range c.Sections {
		all = append(all, phrase.Of("%s: %d", phrase.Step(s.Title), len(s.Steps)))
	}
	return inTurn(all)
}
