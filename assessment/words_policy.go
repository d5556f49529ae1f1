package assessment

import (
	"strings"

	"wellshown/assessment/phrase"
)

// policyTerm is one thing that a policy decides, by name and in words.
type policyTerm struct {
	name phrase.Phrase
	says phrase.Phrase
}

// InWords says in English all that the policy decides, one sentence each.
func (p Policy) InWords() []string {
	var all []string
	for _, says := range p.Phrases() {
		all = append(all, says.String())
	}
	return all
}

// Phrases says all that the policy decides, one sentence each.
func (p Policy) Phrases() []phrase.Phrase {
	var all []phrase.Phrase
	for _, t := range p.terms() {
		if !t.says.IsZero() {
			all = append(all, t.says)
		}
	}
	return all
}

// terms always lists the same names in the same order; what a policy does not
// use says nothing.
func (p Policy) terms() []policyTerm {
	v := p.Validity
	return []policyTerm{
		{phrase.Of("credits"), p.Scoring.creditsSaid()},
		{phrase.Of("pass mark"), phrase.Of("A sheet passes at a score of %s or more, with each critical step shown and nothing unsafe.", p.Scoring.PassMark.share())},
		{phrase.Of("cue limit"), p.Scoring.cuesSaid()},
		{phrase.Of("award"), p.Award.phrase()},
		{phrase.Of("validity"), phrase.Count(v.Months, "Holds for %d month, %s.", "Holds for %d months, %s.", v.Anchor.phrase())},
		{phrase.Of("renewal"), v.renewalSaid()},
		{phrase.Of("notice"), phrase.Count(v.NoticeDays, "Shown as due in the last %d day.", "Shown as due in the last %d days.")},
		{phrase.Of("lapse limit"), v.lapseSaid()},
		{phrase.Of("absence"), v.absenceSaid()},
		{phrase.Of("card"), v.cardSaid()},
	}
}

// share is a number from 0 to 1 in percent where that is a finite decimal, else
// as a fraction: exact either way.
func (n Number) share() string {
	percent := n.Times(Whole(100)).String()
	if strings.Contains(percent, "/") {
		return n.Fraction()
	}
	return percent + " %"
}

func (s Scoring) creditsSaid() phrase.Phrase {
	var parts phrase.List
	for _, m := range Marks {
		if s.Credits[m].Sign() != 0 {
			parts = append(parts, phrase.Of("%s earns %s", m.Phrase(), s.Credits[m].Fraction()))
		}
	}
	switch len(parts) {
	case 0:
		return phrase.Of("No mark earns credit.")
	case len(Marks):
		return phrase.Of("A step marked %s.", parts)
	}
	return phrase.Of("A step marked %s; any other mark earns nothing.", parts)
}

func (s Scoring) cuesSaid() phrase.Phrase {
	switch {
	case s.CueLimit == nil:
		return phrase.Of("Any number of steps may be cued.")
	case *s.CueLimit == 0:
		return phrase.Of("No step may be cued.")
	}
	return phrase.Count(*s.CueLimit, "At most %d step may be cued.", "At most %d steps may be cued.")
}

func (a Award) phrase() phrase.Phrase {
	w := phrase.Count(a.Count, "%d competent demonstration", "%d competent demonstrations")
	if a.Consecutive && a.Count > 1 {
		w = phrase.Of("%s in a row", w)
	}
	if a.Days > 1 {
		w = phrase.Of("%s, on at least %d days", w, a.Days)
	}
	if a.Observers > 1 {
		w = phrase.Of("%s, with at least %d observers", w, a.Observers)
	}
	if a.Real > 0 {
		w = phrase.Of("%s, at least %d with the real client", w, a.Real)
	}
	return phrase.Count(a.SpanDays, "%[2]s, within %[1]d day.", "%[2]s, within %[1]d days.", w)
}

func (a Anchor) phrase() phrase.Phrase {
	if a == MonthEnd {
		return phrase.Of("through the end of that month")
	}
	return phrase.Of("through the same day of the month")
}

func (v Validity) renewalSaid() phrase.Phrase {
	if v.RenewalDays == 0 {
		return phrase.Of("Each renewal counts from the day it was shown.")
	}
	return phrase.Count(v.RenewalDays, "A renewal in the last %d day keeps the day; any other counts from the day it was shown.",
		"A renewal in the last %d days keeps the day; any other counts from the day it was shown.")
}

func (v Validity) lapseSaid() phrase.Phrase {
	if v.LapseMonths == nil {
		return phrase.Of("One competent demonstration renews, however long it has been over.")
	}
	return phrase.Count(*v.LapseMonths, "Over for longer than %d month: all the demonstrations again; until then one renews.",
		"Over for longer than %d months: all the demonstrations again; until then one renews.")
}

func (v Validity) absenceSaid() phrase.Phrase {
	if v.AbsenceDays == 0 {
		return phrase.Phrase{}
	}
	return phrase.Count(v.AbsenceDays, "Ends after %d day without practice.", "Ends after %d days without practice.")
}

func (v Validity) cardSaid() phrase.Phrase {
	if !v.CardNeeded {
		return phrase.Phrase{}
	}
	return phrase.Of("Ends with the resuscitation card, if that ends first.")
}
