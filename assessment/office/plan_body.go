package office

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// planBody is what a plan and its answer rest on, as a clinician signs it: people by id
// alone, and no day, so that only what changes changes it.
type planBody struct {
	Format  string              `json:"format"`
	Version int                 `json:"version"`
	Agency  string              `json:"agency"`
	Client  assessment.ClientID `json:"client"`
	Ready   bool                `json:"ready"`
	Lines   []bodyLine          `json:"lines"`
	Family  []bodyRelative      `json:"family"`
	Shifts  []bodyShift         `json:"shifts"`
}

type bodyLine struct {
	Criterion    assessment.CriterionID    `json:"criterion"`
	Kind         assessment.CriterionKind  `json:"kind"`
	Title        string                    `json:"title"`
	Spanish      string                    `json:"title_es"`
	Skills       []string                  `json:"skills"`
	Count        int                       `json:"count"`
	Hours        int                       `json:"hours"`
	Items        []string                  `json:"items"`
	ItemsSpanish []string                  `json:"items_es"`
	Says         assessment.Sayer          `json:"says"`
	Licence      string                    `json:"licence"`
	State        assessment.CriterionState `json:"state"`
	Evidence     []assessment.RecordID     `json:"evidence"`
}

// bodyRelative is somebody of the family: until when their card and each skill that they
// hold go on.
type bodyRelative struct {
	Person assessment.PersonID   `json:"person"`
	Card   civil.Date            `json:"card"`
	Skills map[string]civil.Date `json:"skills"`
}

type bodyShift struct {
	ID     assessment.RecordID `json:"id"`
	Person assessment.PersonID `json:"person"`
	Starts time.Time           `json:"starts"`
	Ends   time.Time           `json:"ends"`
	Lacks  int                 `json:"lacks"`
}

// body writes down what an answer rests on.
func (p *planned) body(agency string, r assessment.Readiness, facts assessment.Facts) (string, error) {
	b := planBody{Format: "wellshown.plan", Version: 1, Agency: agency, Client: p.client.ID, Ready: r.Ready, Lines: []bodyLine{}, Family: []bodyRelative{}, Shifts: []bodyShift{}}
	for _, l := range r.Lines {
		c := l.Criterion
		line := bodyLine{c.ID, c.Kind, c.Title, c.Spanish, c.Skills, c.Count, c.Hours, c.Items, c.ItemsSpanish, c.Says, c.Licence, l.State, []assessment.RecordID{}}
		for _, e := range p.evidence {
			if e.Criterion == c.ID && !e.At.After(facts.At) {
				line.Evidence = append(line.Evidence, e.ID)
			}
		}
		b.Lines = append(b.Lines, line)
	}
	for i, f := range facts.Family {
		held := bodyRelative{p.family[i].Person, f.CardEnds, map[string]civil.Date{}}
		for code, s := range f.Standings {
			if s.Word.Holds() {
				held.Skills[code] = s.Through
			}
		}
		b.Family = append(b.Family, held)
	}
	for i, s := range p.shifts {
		b.Shifts = append(b.Shifts, bodyShift{s.ID, s.Person, s.StartsAt.UTC(), s.EndsAt.UTC(), len(facts.Shifts[i].Lacks)})
	}
	text, err := json.Marshal(b)
	if err != nil {
		return "", fmt.Errorf("write down the plan: %w", err)
	}
	return string(text), nil
}

// bodyVersion is the hash of what was read.
func bodyVersion(body string) string {
	hash := sha256.Sum256([]byte(body))
	return hex.EncodeToString(hash[:])
}
