package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// Awaiting is a record that lacks a signature.
type Awaiting struct {
	postgres.Demonstration
	PerformedOn civil.Date
	Lacks       []string // names, the observer first
	Mine        bool     // it waits for the actor
	Counts      bool     // it acts already: not competent, and signed by the observer
}

// mostAwaiting is how many waiting records a page shows.
const mostAwaiting = 30

// awaiting lists records that lack a signature, newest first: of somebody, or of
// all for the empty id.
func (o *Office) awaiting(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, of assessment.PersonID) ([]Awaiting, error) {
	found, err := tx.Demonstrations.List(ctx, postgres.DemonstrationFilter{Awaits: of, Unsigned: true, Limit: mostAwaiting})
	if err != nil {
		return nil, fmt.Errorf("read records that wait: %w", err)
	}
	if len(found) == 0 {
		return nil, nil
	}
	ids := make([]assessment.DemonstrationID, len(found))
	for i, d := range found {
		ids[i] = d.ID
	}
	signed, err := tx.SignOffs.OfAll(ctx, ids)
	if err != nil {
		return nil, fmt.Errorf("read signatures: %w", err)
	}
	var all []Awaiting
	for _, d := range found {
		all = append(all, awaits(d, signed, by, now))
	}
	return all, nil
}

func awaits(d postgres.Demonstration, signed []postgres.Signature, by assessment.Actor, now Moment) Awaiting {
	a := Awaiting{Demonstration: d, PerformedOn: civil.DayOf(d.PerformedAt, now.Zone)}
	has := map[string]bool{}
	for _, s := range signed {
		if s.DemonstrationID == d.ID {
			has[s.Part] = true
		}
	}
	if !has[PartObserver] {
		a.Lacks, a.Mine = append(a.Lacks, d.Observer), by.Person == d.ObserverID
	}
	if !has[PartLearner] {
		a.Lacks, a.Mine = append(a.Lacks, d.Learner), a.Mine || by.Person == d.LearnerID
	}
	a.Counts = has[PartObserver] && d.Outcome != assessment.Competent
	return a
}
