package assessment

import (
	"slices"
	"strings"

	"wellshown/assessment/phrase"
)

// parameters shows which of the child's values came, went or mean something else.
func (d *differ) parameters(old, new []Parameter) {
	byName := func(all []Parameter, name string) (Parameter, bool) {
		i := slices.IndexFunc(all, func(p Parameter) bool { return p.Name == name })
		if i < 0 {
			return Parameter{}, false
		}
		return all[i], true
	}
	for _, p := range old {
		where := phrase.Of("Parameter %s", p.Name)
		q, kept := byName(new, p.Name)
		if !kept {
			d.whole(Removes, where, p.phrase(), phrase.Phrase{})
			continue
		}
		d.note(where, phrase.Of("meaning"), ours(p.Says), ours(q.Says))
		d.note(where, phrase.Of("unit"), p.unitPhrase(), q.unitPhrase())
		d.note(where, phrase.Of("value if unset"), p.defaultPhrase(), q.defaultPhrase())
	}
	for _, p := range new {
		if _, had := byName(old, p.Name); !had {
			d.whole(Adds, phrase.Of("Parameter %s", p.Name), phrase.Phrase{}, p.phrase())
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
		d.note(phrase.Of("Parameters"), phrase.Of("order"), phrase.Text(strings.Join(a, ", ")), phrase.Text(strings.Join(b, ", ")))
	}
}

func (p Parameter) unitPhrase() phrase.Phrase {
	if p.Unit == "" {
		return phrase.Of("in words")
	}
	return phrase.Text(p.Unit)
}

func (p Parameter) defaultPhrase() phrase.Phrase {
	if p.Default == nil {
		return phrase.Of("none")
	}
	return phrase.Text(p.Default.String())
}

func (p Parameter) phrase() phrase.Phrase {
	w := phrase.Of("%s (%s)", phrase.Step(p.Says), p.unitPhrase())
	if p.Default != nil {
		w = phrase.Of("%s, %s if unset", w, p.Default.String())
	}
	return w
}
