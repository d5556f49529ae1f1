package assessment

import "wellshown/assessment/civil"

// LearningGoal is what somebody learns toward.
type LearningGoal string

// The goals.
const (
	GoingHome  LearningGoal = "going home"
	FirstShift LearningGoal = "first shift"
	OtherGoal  LearningGoal = "other"
)

// LearningGoals lists them.
var LearningGoals = []LearningGoal{GoingHome, FirstShift, OtherGoal}

// TaughtHow is what happened with a learner in a teaching session.
type TaughtHow struct {
	Shown      bool // the teacher did it before their eyes
	Explained  bool
	Practised  bool // they did it with help
	TaughtBack bool // they taught it back in their own words
}

// Any reports whether anything happened.
func (h TaughtHow) Any() bool { return h != TaughtHow{} }

// MostTeachingMinutes is as long as a teaching session can be: a day.
const MostTeachingMinutes = 24 * 60

// supervises are the licences under whose supervision in-service training of home health
// aides may be given: a registered nurse's, 42 CFR 484.80(d) (from memory).
var supervises = map[string]bool{"RN": true}

// MayCountInService reports whether training that somebody gave on a day may count toward
// the in-service hours of aides: whoever gave it is a registered nurse on that day.
func MayCountInService(licences []Licence, on civil.Date) bool {
	for _, l := range licences {
		if supervises[l.Kind] && l.CurrentOn(on) {
			return true
		}
	}
	return false
}

// PracticeMark is how a step went in a practice run. It is no verdict.
type PracticeMark string

// The marks.
const (
	WentAlone    PracticeMark = "alone"
	WentWithHelp PracticeMark = "with help"
	WentNotYet   PracticeMark = "not yet"
)

// PracticeMarks lists them, the best first.
var PracticeMarks = []PracticeMark{WentAlone, WentWithHelp, WentNotYet}
