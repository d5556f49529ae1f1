package assessment

import (
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
)

// Mark is what the observer saw at a step. Not applicable is no mark.
type Mark string

// The marks, best first. Cued is help by word or gesture; assisted is help by
// showing or touching (clinical practice: a verbal cue counts as assistance).
const (
	Independent Mark = "independent"
	Cued        Mark = "cued"
	Assisted    Mark = "assisted"
	NotMet      Mark = "not met"
	Unsafe      Mark = "unsafe"
)

// Phrase says the mark.
func (m Mark) Phrase() phrase.Phrase {
	switch m {
	case Independent:
		return phrase.Of("independent")
	case Cued:
		return phrase.Of("cued")
	case Assisted:
		return phrase.Of("assisted")
	case NotMet:
		return phrase.Of("not met")
	case Unsafe:
		return phrase.Of("unsafe")
	}
	return phrase.Text(string(m))
}

// Marks lists all marks, best first.
var Marks = []Mark{Independent, Cued, Assisted, NotMet, Unsafe}

func (m Mark) rank() int {
	for i, k := range Marks {
		if k == m {
			return i
		}
	}
	return len(Marks)
}

// Valid reports whether m is one of the five marks.
func (m Mark) Valid() bool { return m.rank() < len(Marks) }

// AtLeast reports whether m is as good as least or better.
func (m Mark) AtLeast(least Mark) bool { return m.rank() <= least.rank() }

// ParseMark reads one of the five marks.
func ParseMark(s string) (Mark, error) {
	if m := Mark(s); m.Valid() {
		return m, nil
	}
	return "", fault.Of(fault.Invalid, "%q is not a mark: it is independent, cued, assisted, not met or unsafe", s)
}
