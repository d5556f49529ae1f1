package web

import (
	"wellshown/assessment"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// states are what a revision is.
var states = []phrase.Phrase{phrase.Of("in force"), phrase.Of("draft"), phrase.Of("retired")}

// changeSaid is a difference in the reader's language: what a starter says, what the rules
// say and the words of this page; all else as it stands, marked as being in English.
func changeSaid(w wording.Words, c assessment.Change) ChangeSaid {
	return ChangeSaid{How: w.Of(c.How.Phrase()), Where: w.Pieces(placeOf(c)), Before: w.Pieces(c.Before), After: w.Pieces(c.After)}
}

// placeOf is where a difference stands, and of what.
func placeOf(c assessment.Change) phrase.Phrase {
	if c.What.IsZero() {
		return c.Where
	}
	return phrase.Of("%s: %s", c.Where, c.What)
}
