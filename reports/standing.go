package reports

import (
	"wellshown/assessment"
	"wellshown/assessment/wording"
)

// shapes are the signs of the standings, the same as on the pages.
var shapes = map[assessment.StandingWord]shape{
	assessment.NotStarted: shapeNotStarted,
	assessment.Learning:   shapeLearning,
	assessment.Current:    shapeCurrent,
	assessment.Due:        shapeDue,
	assessment.Lapsed:     shapeLapsed,
	assessment.Withdrawn:  shapeWithdrawn,
	assessment.Waived:     shapeWaived,
}

// standing is the shape of a standing with its word, small enough to stand left
// of the margin line.
func standing(w assessment.StandingWord) words {
	return words{style: standingStyle, shape: shapes[w], text: string(w)}
}

var standingStyle = style{sans, 8, 12.6, ink}

// standingSaid is standing in the reader's language.
func standingSaid(in wording.Words, w assessment.StandingWord) words {
	return words{style: standingStyle, shape: shapes[w], text: in.Of(w.Phrase())}
}
