package office

import (
	"encoding/json"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// body is the record of a demonstration as it is kept, hashed and signed: all
// that was seen, by which checklist, with which values of the child, and what
// the rules made of it. Its form never changes; what is added later is optional.
type body struct {
	Version    int                         `json:"version"`
	ID         assessment.DemonstrationID  `json:"id"`
	Learner    bodyPerson                  `json:"learner"`
	Observer   bodyPerson                  `json:"observer"`
	Skill      string                      `json:"skill"`
	Title      string                      `json:"title"`
	Revision   int                         `json:"revision"`
	Checklist  string                      `json:"checklist_sha256"`
	Client     *bodyClient                 `json:"client,omitempty"`
	Place      string                      `json:"place"`
	Real       bool                        `json:"real_client"`
	Formal     bool                        `json:"formal"`
	Performed  string                      `json:"performed_at"`
	Equipment  assessment.Fitted           `json:"equipment"`
	Parameters map[string]postgres.Reading `json:"parameters"`
	Words      map[string]string           `json:"parameters_in_words"`
	Stopped    bool                        `json:"stopped"`
	StopReason string                      `json:"stop_reason,omitempty"`
	Marks      []bodyMark                  `json:"marks"`
	Undone     []bodyUndone                `json:"taken_back_while_open,omitempty"`
	Outcome    assessment.Outcome          `json:"outcome"`
	Score      *string                     `json:"score"`
	Reasons    []bodyReason                `json:"reasons"`
	Paper      *bodyPaper                  `json:"paper,omitempty"`
	Device     *bodyDevice                 `json:"device,omitempty"`
	Drill      *bodyDrill                  `json:"drill,omitempty"`
}

type bodyPerson struct {
	ID   assessment.PersonID `json:"id"`
	Name string              `json:"name"`
}

type bodyClient struct {
	ID   assessment.ClientID `json:"id"`
	Name string              `json:"name"`
}

type bodyMark struct {
	Step          int                         `json:"step"`
	Mark          assessment.Mark             `json:"mark,omitempty"`
	Effective     assessment.Mark             `json:"effective,omitempty"`
	NotApplicable bool                        `json:"not_applicable,omitempty"`
	Reason        string                      `json:"reason,omitempty"`
	Readings      map[string]postgres.Reading `json:"readings,omitempty"`
	Note          string                      `json:"note,omitempty"`
	MarkedAt      string                      `json:"marked_at"`
}

// bodyUndone is what stood on the open sheet against the learner and was taken
// back before it was recorded; no step: the stop for safety.
type bodyUndone struct {
	At     string `json:"at"`
	Step   int    `json:"step,omitempty"`
	Reason string `json:"reason,omitempty"`
}

func bodyUndones(all []postgres.Undone) []bodyUndone {
	var out []bodyUndone
	for _, u := range all {
		out = append(out, bodyUndone{u.At.UTC().Format(instantForm), u.Step, u.Reason})
	}
	return out
}

type bodyReason struct {
	Rule assessment.Rule `json:"rule"`
	Step int             `json:"step,omitempty"`
	Of   string          `json:"of,omitempty"`
}

const instantForm = "2006-01-02T15:04:05.000000Z07:00"

func bodyMarks(v SheetView, r assessment.Result) []bodyMark {
	marks := []bodyMark{}
	for _, m := range v.Marks {
		if m.Mark == "" && !m.NotApplicable && m.Note == "" {
			continue
		}
		marks = append(marks, bodyMark{Step: m.Step, Mark: m.Mark, Effective: r.Effective[m.Step], NotApplicable: m.NotApplicable,
			Reason: m.Reason, Readings: m.Readings, Note: m.Note, MarkedAt: m.MarkedAt.UTC().Format(instantForm)})
	}
	slices.SortFunc(marks, func(a, b bodyMark) int { return a.Step - b.Step })
	return marks
}

func bodyReasons(r assessment.Result) []bodyReason {
	reasons := []bodyReason{}
	for _, why := range r.Reasons {
		reasons = append(reasons, bodyReason(why))
	}
	return reasons
}

func bodyParameters(known assessment.Parameters) map[string]postgres.Reading {
	out := map[string]postgres.Reading{}
	for name, q := range known {
		out[name] = postgres.Reading{Value: q.Value.String(), Unit: q.Unit}
	}
	return out
}

func readBody(text string) (body, error) {
	var b body
	if err := json.Unmarshal([]byte(text), &b); err != nil {
		return b, fmt.Errorf("read the record of a demonstration: %w", err)
	}
	return b, nil
}
