package crowd

import (
	"crypto/sha256"
	"encoding/json"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// record is a demonstration with the text that is kept of it.
type record struct {
	body
	observer            observer
	equipment           string
	performed, recorded time.Time
	text                string
	sum                 []byte
}

// body is the text of a record: the same names in the same order as the office's.
type body struct {
	Version    int                `json:"version"`
	ID         string             `json:"id"`
	Learner    bodyPerson         `json:"learner"`
	Observer   bodyPerson         `json:"observer"`
	Skill      string             `json:"skill"`
	Title      string             `json:"title"`
	Revision   int                `json:"revision"`
	Checklist  string             `json:"checklist_sha256"`
	Client     *bodyClient        `json:"client,omitempty"`
	Place      string             `json:"place"`
	Real       bool               `json:"real_client"`
	Formal     bool               `json:"formal"`
	Performed  string             `json:"performed_at"`
	Equipment  map[string]string  `json:"equipment"`
	Parameters map[string]string  `json:"parameters"`
	Words      map[string]string  `json:"parameters_in_words"`
	Stopped    bool               `json:"stopped"`
	StopReason string             `json:"stop_reason,omitempty"`
	Marks      []bodyMark         `json:"marks"`
	Outcome    assessment.Outcome `json:"outcome"`
	Score      *string            `json:"score"`
	Reasons    []bodyReason       `json:"reasons"`
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
	Step      int             `json:"step"`
	Mark      assessment.Mark `json:"mark"`
	Effective assessment.Mark `json:"effective"`
	MarkedAt  string          `json:"marked_at"`
}

type bodyReason struct {
	Rule assessment.Rule `json:"rule"`
	Step int             `json:"step,omitempty"`
}

const instantForm = "2006-01-02T15:04:05.000000Z07:00"

// record writes one down, as the office would.
func (c *Crowd) record(of story, on civil.Date, outcome assessment.Outcome) record {
	seenBy := c.observers[c.random.IntN(len(c.observers))]
	at := c.sooner(c.at(on)).Add(-time.Hour)
	r := record{observer: seenBy, performed: at, recorded: at.Add(20 * time.Minute), body: body{Version: 1, ID: c.id(), Learner: bodyPerson{of.person.ID, of.person.Name}, Observer: bodyPerson{seenBy.id, seenBy.name},
		Skill: of.skill.Code, Title: of.skill.Title, Revision: 1, Checklist: of.skill.SHA256, Client: &bodyClient{of.child.ID, of.child.Name},
		Place: "at home", Real: true, Formal: true, Performed: at.UTC().Format(instantForm), Equipment: of.child.on(on),
		Parameters: map[string]string{}, Words: map[string]string{}, Outcome: outcome, Marks: []bodyMark{}, Reasons: []bodyReason{}}}
	if of.skill.ManikinOnly {
		r.Place, r.Real = "skills room", false
	}
	r.mark(of.skill, c.Size.Thin)
	fitted, err := json.Marshal(r.Equipment)
	if err != nil {
		panic(err) // texts alone
	}
	text, err := json.Marshal(r.body)
	if err != nil {
		panic(err)
	}
	sum := sha256.Sum256(text)
	r.equipment, r.text, r.sum = string(fitted), string(text), sum[:]
	return r
}

// mark marks every step so that the outcome comes of it.
func (r *record) mark(s *Skill, thin bool) {
	if r.Outcome == assessment.StoppedForSafety {
		r.Stopped, r.StopReason = true, "The child was at risk."
		return
	}
	score := "1"
	for _, step := range s.Steps() {
		m := assessment.Independent
		if r.Outcome == assessment.NotYetCompetent && step.Critical && len(r.Reasons) == 0 {
			m, score = assessment.NotMet, "4/5"
			r.Reasons = append(r.Reasons, bodyReason{assessment.RuleCritical, step.No})
		}
		r.Marks = append(r.Marks, bodyMark{step.No, m, m, r.performed.Add(18 * time.Minute).UTC().Format(instantForm)})
		if thin {
			break
		}
	}
	r.Score = &score
}
