package written

import (
	"slices"
	"sort"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// ScoreAnswer is what `wellshown score` says: an outcome with its reasons, or
// what keeps the sheet from being recorded.
type ScoreAnswer struct {
	Outcome assessment.Outcome
	Score   *assessment.Number // nil where no step applies
	Reasons []assessment.Reason
	Open    []assessment.Open // where there are any, the rest is empty
}

// Answer scores the sheet.
func (c ScoreCase) Answer() (ScoreAnswer, error) {
	result, open, err := assessment.Score(c.Checklist, c.Parameters, c.Sheet)
	if err != nil {
		return ScoreAnswer{}, err
	}
	return ScoreAnswer{Outcome: result.Outcome, Score: result.Score, Reasons: result.Reasons, Open: open}, nil
}

type reasonShape struct {
	Rule assessment.Rule `json:"rule"`
	Step int             `json:"step,omitempty"`
}

type openShape struct {
	Step int            `json:"step"`
	Why  assessment.Why `json:"why"`
}

// MarshalJSON writes {"outcome", "score", "reasons"} or {"open"}.
func (a ScoreAnswer) MarshalJSON() ([]byte, error) {
	if len(a.Open) > 0 {
		return caseJSON(struct {
			Open []openShape `json:"open"`
		}{a.openShapes()})
	}
	shape := struct {
		Outcome assessment.Outcome `json:"outcome"`
		Score   *string            `json:"score"`
		Reasons []reasonShape      `json:"reasons"`
	}{Outcome: a.Outcome, Reasons: []reasonShape{}}
	if a.Score != nil {
		score := a.Score.Fraction()
		shape.Score = &score
	}
	for _, r := range a.Reasons {
		shape.Reasons = append(shape.Reasons, reasonShape{r.Rule, r.Step})
	}
	return caseJSON(shape)
}

// openShapes names a step once for each thing that it lacks, however many of its
// values lack it.
func (a ScoreAnswer) openShapes() []openShape {
	var all []openShape
	for _, o := range a.Open {
		if s := (openShape{o.Step, o.Why}); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return all
}

// StandingAnswer is what `wellshown standing` says for one day.
type StandingAnswer struct {
	On       civil.Date              `json:"on"`
	Standing assessment.StandingWord `json:"standing"`
	Through  *civil.Date             `json:"through"` // last day of the holding; null where there is none
	Since    *civil.Date             `json:"since"`   // null for not started
	Because  []string                `json:"because"` // ids of what made it so
}

// Answer answers for each day of the case, in the order asked.
func (c StandingCase) Answer() ([]StandingAnswer, error) {
	known, err := assessment.NewCase(c.Zone, assessment.Book{Default: c.Terms}, nil, c.History)
	if err != nil {
		return nil, err
	}
	line := known.Timeline()
	answers := make([]StandingAnswer, len(c.On))
	for i, day := range c.On {
		answers[i] = standingAt(line, day)
	}
	return answers, nil
}

// standingAt finds a day in a timeline; before it begins nothing was started.
func standingAt(line []assessment.Segment, day civil.Date) StandingAnswer {
	answer := StandingAnswer{On: day, Standing: assessment.NotStarted, Because: []string{}}
	i := sort.Search(len(line), func(i int) bool { return line[i].From.After(day) }) - 1
	if i < 0 {
		return answer
	}
	s := line[i]
	answer.Standing, answer.Through, answer.Since = s.Word, dayOrNull(s.Through), dayOrNull(s.Since)
	answer.Because = append(answer.Because, s.Because...)
	return answer
}

func dayOrNull(d civil.Date) *civil.Date {
	if d.IsZero() {
		return nil
	}
	return &d
}
