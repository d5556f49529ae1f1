package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// states are what a revision is.
var states = []phrase.Phrase{phrase.Of("in force"), phrase.Of("draft"), phrase.Of("retired")}

// ways are how a revision differs from another.
var ways = []phrase.Phrase{phrase.Of("added"), phrase.Of("removed"), phrase.Of("moved"), phrase.Of("changed")}

// places are where it does: parts of a checklist, and what of a part.
var places = []phrase.Phrase{phrase.Of("Checklist"), phrase.Of("Safety"), phrase.Of("Equipment"), phrase.Of("Equipment types"), phrase.Of("Prerequisites"),
	phrase.Of("Related skills"), phrase.Of("Parameters"), phrase.Of("Policy"), phrase.Of("Sections"), phrase.Of("Sources"),
	phrase.Of("code"), phrase.Of("title"), phrase.Of("scope"), phrase.Of("manikin only"), phrase.Of("resuscitation card needed"), phrase.Of("purpose"), phrase.Of("order"),
	phrase.Of("meaning"), phrase.Of("unit"), phrase.Of("value if unset"), phrase.Of("section"), phrase.Of("steps in each"), phrase.Of("text"), phrase.Of("kind"), phrase.Of("critical"),
	phrase.Of("weight"), phrase.Of("not applicable"), phrase.Of("note"), phrase.Of("value removed"), phrase.Of("value added"), phrase.Of("order of values"),
	phrase.Of("credits"), phrase.Of("pass mark"), phrase.Of("cue limit"), phrase.Of("award"), phrase.Of("validity"), phrase.Of("renewal"), phrase.Of("notice"), phrase.Of("lapse limit"),
	phrase.Of("absence"), phrase.Of("card")}

// changeSaid is a difference in the reader's language: what a starter says, what the rules
// say and the words of this page; all else as it stands, marked as being in English.
func changeSaid(w wording.Words, c assessment.Change, rules []phrase.Phrase) ChangeSaid {
	said := ChangeSaid{How: w.Say("changed"), Where: w.Of(placeSaid(c.Where)), Before: textSaid(w, c.Before, rules), After: textSaid(w, c.After, rules)}
	switch c.What {
	case "added", "removed", "moved":
		said.How = word(w, ways, c.What)
	default:
		said.Where = w.Say("%s: %s", said.Where, placeSaid(c.What))
	}
	return said
}

// placeSaid is where a difference stands.
func placeSaid(where string) phrase.Phrase {
	for _, of := range []struct {
		before string
		says   func(rest string) phrase.Phrase
	}{
		{"Step ", func(rest string) phrase.Phrase { return phrase.Of("Step %s", rest) }},
		{"Old step ", func(rest string) phrase.Phrase { return phrase.Of("Old step %s", rest) }},
		{"Parameter ", func(rest string) phrase.Phrase { return phrase.Of("Parameter %s", rest) }},
		{"unit of ", func(rest string) phrase.Phrase { return phrase.Of("unit of %s", phrase.Step(rest)) }},
		{"accepted range of ", func(rest string) phrase.Phrase { return phrase.Of("accepted range of %s", phrase.Step(rest)) }},
	} {
		if rest, found := strings.CutPrefix(where, of.before); found {
			return of.says(rest)
		}
	}
	for _, p := range places {
		if p.Format == where {
			return p
		}
	}
	return phrase.Text(where)
}

// textSaid is one side of a difference.
func textSaid(w wording.Words, text string, rules []phrase.Phrase) Worded {
	for _, rule := range rules {
		if rule.String() == text {
			return worded(w.Of(rule), true)
		}
	}
	for _, before := range []string{"Step ", "step "} {
		if no, found := strings.CutPrefix(text, before); found && strings.Trim(no, "0123456789") == "" {
			return worded(w.Of(placeSaid("Step "+no)), true)
		}
	}
	if said, known := w.Theirs(text); known {
		return worded(said, true)
	}
	return typed(w, text)
}
