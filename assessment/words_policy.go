package assessment

import (
	"fmt"
	"strings"
)

// policyTerm is one thing that a policy decides, by name and in words.
type policyTerm struct{ name, says string }

// InWords says all that the policy decides, one sentence each.
func (p Policy) InWords() []string {
	var all []string
	for _, t := range p.terms() {
		if t.says != "" {
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
		{"credits", p.Scoring.creditsInWords()},
		{"pass mark", "A sheet passes at a score of " + p.Scoring.PassMark.share() + " or more, with each critical step shown and nothing unsafe."},
		{"cue limit", p.Scoring.cuesInWords()},
		{"award", p.Award.inWords()},
		{"validity", fmt.Sprintf("Holds for %s, %s.", counted(v.Months, "month"), v.Anchor.inWords())},
		{"renewal", v.renewalInWords()},
		{"notice", fmt.Sprintf("Shown as due in the last %s.", counted(v.NoticeDays, "day"))},
		{"lapse limit", v.lapseInWords()},
		{"absence", v.absenceInWords()},
		{"card", v.cardInWords()},
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

func (s Scoring) creditsInWords() string {
	var parts []string
	for _, m := range Marks {
		if s.Credits[m].Sign() != 0 {
			parts = append(parts, fmt.Sprintf("%s earns %s", m, s.Credits[m].Fraction()))
		}
	}
	switch len(parts) {
	case 0:
		return "No mark earns credit."
	case len(Marks):
		return sentence(strings.Join(parts, ", "))
	}
	return sentence(strings.Join(parts, ", ") + "; any other mark earns nothing")
}

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }

func (s Scoring) cuesInWords() string {
	switch {
	case s.CueLimit == nil:
		return "Any number of steps may be cued."
	case *s.CueLimit == 0:
		return "No step may be cued."
	}
	return fmt.Sprintf("At most %s may be cued.", counted(*s.CueLimit, "step"))
}

func (a Award) inWords() string {
	w := counted(a.Count, "competent demonstration")
	if a.Consecutive && a.Count > 1 {
		w += " in a row"
	}
	if a.Days > 1 {
		w += fmt.Sprintf(", on at least %d days", a.Days)
	}
	if a.Observers > 1 {
		w += fmt.Sprintf(", with at least %d observers", a.Observers)
	}
	if a.Real > 0 {
		w += fmt.Sprintf(", at least %d with the real client", a.Real)
	}
	return w + fmt.Sprintf(", within %s.", counted(a.SpanDays, "day"))
}

func (a Anchor) inWords() string {
	if a == MonthEnd {
		return "through the end of that month"
	}
	return "through the same day of the month"
}

func (v Validity) renewalInWords() string {
	if v.RenewalDays == 0 {
		return "Each renewal counts from the day it was shown."
	}
	return fmt.Sprintf("A renewal in the last %s keeps the day; any other counts from the day it was shown.", counted(v.RenewalDays, "day"))
}

func (v Validity) lapseInWords() string {
	if v.LapseMonths == nil {
		return "One competent demonstration renews, however long it has been over."
	}
	return fmt.Sprintf("Over for longer than %s: all the demonstrations again; until then one renews.", counted(*v.LapseMonths, "month"))
}

func (v Validity) absenceInWords() string {
	if v.AbsenceDays == 0 {
		return ""
	}
	return fmt.Sprintf("Ends after %s without practice.", counted(v.AbsenceDays, "day"))
}

func (v Validity) cardInWords() string {
	if !v.CardNeeded {
		return ""
	}
	return "Ends with the resuscitation card, if that ends first."
}
