package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// Waiting is a page of records that lack a signature: first those that show
// something wrong and do not act yet, because their observer has not signed, then
// the oldest performance first.
type Waiting struct {
	Records []Awaiting
	All     int    // records that wait, on this page or not
	Next    string // where the next page begins; empty on the last
	// Proposals are checklists that wait for a second person, on the first page of whoever
	// may put them in force.
	Proposals []WaitingProposal
}

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

// Waiting lists a page of the records that lack a signature: of everybody, for
// who may read all, or those that wait for the actor.
func (o *Office) Waiting(ctx context.Context, by assessment.Actor, everybody bool, after string) (Waiting, error) {
	act, of := assessment.ReadRecords, by.Person
	if everybody {
		act, of = assessment.ReadReports, ""
	}
	var v Waiting
	err := o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		var err error
		if v, err = o.awaiting(ctx, tx, now, by, of, after); err != nil || after != "" {
			return err
		}
		v.Proposals, err = waitingProposals(ctx, tx, now, by)
		return err
	})
	return v, err
}

// awaiting lists a page of the records that lack a signature: of somebody, or of
// all for the empty id.
func (o *Office) awaiting(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, of assessment.PersonID, after string) (Waiting, error) {
	f := postgres.DemonstrationFilter{Awaits: of, Unsigned: true, After: after, Limit: mostAwaiting}
	found, err := tx.Demonstrations.Page(ctx, f)
	if err != nil {
		return Waiting{}, fmt.Errorf("read records that wait: %w", err)
	}
	v := Waiting{All: len(found.Items), Next: found.Next}
	if found.Next != "" || after != "" {
		if v.All, err = tx.Demonstrations.Count(ctx, f); err != nil {
			return v, fmt.Errorf("count records that wait: %w", err)
		}
	}
	if len(found.Items) == 0 {
		return v, nil
	}
	ids := make([]assessment.DemonstrationID, len(found.Items))
	for i, d := range found.Items {
		ids[i] = d.ID
	}
	signed, err := tx.SignOffs.OfAll(ctx, ids)
	if err != nil {
		return v, fmt.Errorf("read signatures: %w", err)
	}
	for _, d := range found.Items {
		v.Records = append(v.Records, awaits(d, signed, by, now))
	}
	return v, nil
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
