package assessment

// LearningStage is how far somebody is with a skill of their plan. Being current is read
// from the standing alone; all before it is told of what was written down and makes
// nobody competent.
type LearningStage string

// The stages, from nothing to held.
const (
	NotBegun     LearningStage = "not begun"
	Taught       LearningStage = "taught"
	Practised    LearningStage = "practised"
	CheckPassed  LearningStage = "check passed"
	Shown        LearningStage = "shown"
	LearntByThen LearningStage = "current"
)

// Learnt is what is known of somebody and one skill.
type Learnt struct {
	Taught   bool      // in a session that was not corrected, or as written down on their page
	Sessions int       // that were not corrected
	How      TaughtHow // all that happened in them
	Runs     int       // practice runs
	Alone    int       // of them that they wrote down themselves: nobody saw them
	Asked    bool      // there is a knowledge check of it
	Checked  bool      // a knowledge check is passed and holds today
	Shown    int       // competent demonstrations toward the award that is under way
	Of       int       // that the award asks for
	Word     StandingWord
}

// Stage is the furthest of them.
func (l Learnt) Stage() LearningStage {
	switch {
	case l.Word.Holds():
		return LearntByThen
	case l.Shown > 0:
		return Shown
	case l.Checked:
		return CheckPassed
	case l.Runs > 0:
		return Practised
	case l.Taught:
		return Taught
	}
	return NotBegun
}
