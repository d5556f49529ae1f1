package assessment

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Change is one difference between two revisions, for people: where it stands,
// what of it changed, and both sides in words. Before is empty for what was
// added, After for what was removed.
type Change struct {
	Where  string // "Checklist", "Step 5", "Policy", "Parameter suction_high" …
	What   string // "text", "accepted range of time", "added", "removed" …
	Before string
	After  string
}

// Diff lists what makes the new revision differ from the old one, in the order
// of the page. Steps are matched by their text and place, so that an inserted
// step is one change though all later numbers move. It is empty only where the
// two are the same.
func Diff(old, new Checklist) []Change {
	d := &differ{}
	d.head(old, new)
	d.list("Safety", old.Safety, new.Safety)
	d.list("Equipment", old.Equipment, new.Equipment)
	d.list("Equipment types", old.Fitted, new.Fitted)
	d.list("Prerequisites", old.Prerequisites, new.Prerequisites)
	d.list("Related skills", old.Related, new.Related)
	d.parameters(old.Parameters, new.Parameters)
	d.policy(old.Policy, new.Policy)
	d.steps(old, new)
	d.list("Sources", old.Sources, new.Sources)
	return d.changes
}

type differ struct{ changes []Change }

func (d *differ) note(where, what, before, after string) {
	if before != after {
		d.changes = append(d.changes, Change{where, what, before, after})
	}
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func (d *differ) head(old, new Checklist) {
	d.note("Checklist", "code", old.Code, new.Code)
	d.note("Checklist", "title", old.Title, new.Title)
	d.note("Checklist", "scope", string(old.Scope), string(new.Scope))
	d.note("Checklist", "manikin only", yesNo(old.ManikinOnly), yesNo(new.ManikinOnly))
	d.note("Checklist", "resuscitation card needed", yesNo(old.CardNeeded), yesNo(new.CardNeeded))
	d.note("Checklist", "purpose", old.Purpose, new.Purpose)
}

// list shows which lines went and which came; lines that both hold in another
// order are shown as a new order.
func (d *differ) list(where string, old, new []string) {
	if slices.Equal(old, new) {
		return
	}
	before := len(d.changes)
	for _, line := range without(old, new) {
		d.changes = append(d.changes, Change{where, "removed", line, ""})
	}
	for _, line := range without(new, old) {
		d.changes = append(d.changes, Change{where, "added", "", line})
	}
	if len(d.changes) == before {
		d.note(where, "order", strings.Join(old, "; "), strings.Join(new, "; "))
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

func (d *differ) parameters(old, new []Parameter) {
	byName := func(all []Parameter, name string) (Parameter, bool) {
		i := slices.IndexFunc(all, func(p Parameter) bool { return p.Name == name })
		if i < 0 {
			return Parameter{}, false
		}
		return all[i], true
	}
	for _, p := range old {
		where := "Parameter " + p.Name
		q, kept := byName(new, p.Name)
		if !kept {
			d.note(where, "removed", p.inWords(), "")
			continue
		}
		d.note(where, "meaning", p.Says, q.Says)
		d.note(where, "unit", p.unitInWords(), q.unitInWords())
		d.note(where, "value if unset", p.defaultInWords(), q.defaultInWords())
	}
	for _, p := range new {
		if _, had := byName(old, p.Name); !had {
			d.note("Parameter "+p.Name, "added", "", p.inWords())
		}
	}
	d.order(old, new)
}

// order tells of parameters that only changed places.
func (d *differ) order(old, new []Parameter) {
	names := func(all []Parameter) []string {
		var list []string
		for _, p := range all {
			list = append(list, p.Name)
		}
		return list
	}
	a, b := names(old), names(new)
	if len(without(a, b))+len(without(b, a)) == 0 {
		d.note("Parameters", "order", strings.Join(a, ", "), strings.Join(b, ", "))
	}
}

func (p Parameter) unitInWords() string {
	if p.Unit == "" {
		return "in words"
	}
	return p.Unit
}

func (p Parameter) defaultInWords() string {
	if p.Default == nil {
		return "none"
	}
	return p.Default.String()
}

func (p Parameter) inWords() string {
	w := fmt.Sprintf("%s (%s)", p.Says, p.unitInWords())
	if p.Default != nil {
		w += ", " + p.Default.String() + " if unset"
	}
	return w
}

func (d *differ) policy(old, new Policy) {
	was, is := old.terms(), new.terms()
	for i := range was {
		d.note("Policy", was[i].name, was[i].says.String(), is[i].says.String())
	}
}

// steps walks the two lists side by side.
func (d *differ) steps(old, new Checklist) {
	before := len(d.changes)
	d.list("Sections", old.titles(), new.titles())
	was, is := placed(old), placed(new)
	for _, p := range moves(align(was, is), was, is) {
		switch {
		case p.new < 0:
			d.note("Old step "+strconv.Itoa(was[p.old].No), "removed", was[p.old].inWords(), "")
		case p.old < 0:
			d.note("Step "+strconv.Itoa(is[p.new].No), "added", "", is[p.new].inWords())
		default:
			d.step(was[p.old], is[p.new], p.moved)
		}
	}
	if len(d.changes) == before {
		d.note("Sections", "steps in each", old.division(), new.division())
	}
}

func (c Checklist) titles() []string {
	var all []string
	for _, s := range c.Sections {
		all = append(all, s.Title)
	}
	return all
}

func (c Checklist) division() string {
	var all []string
	for _, s := range c.Sections {
		all = append(all, fmt.Sprintf("%s: %d", s.Title, len(s.Steps)))
	}
	return strings.Join(all, "; ")
}
