package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// OverdueNext is the overdue report with what each line needs, in the order of
// its lines.
type OverdueNext struct {
	Overdue
	Next []assessment.Next
}

// OverdueNext answers like Overdue and folds each line for what is needed next.
func (o *Office) OverdueNext(ctx context.Context, by assessment.Actor, q OverdueQuery) (OverdueNext, error) {
	var v OverdueNext
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		if q.On.IsZero() {
			q.On = now.Today
		}
		if q.Within <= 0 {
			q.Within = 90
		}
		t, err := o.table(ctx, tx, q.On, nil)
		if err != nil {
			return err
		}
		team, err := o.teamOn(ctx, tx, q.Client, q.On)
		if err != nil {
			return err
		}
		v = OverdueNext{Overdue: t.overdue(q, team)}
		v.Agency, v.Today = viewAgency(now.Agency), now.Today
		return o.nextOf(ctx, tx, now, q.On, &v)
	})
	return v, err
}

func (o *Office) nextOf(ctx context.Context, tx *postgres.Tx, now Moment, on civil.Date, v *OverdueNext) error {
	people, seen := []assessment.PersonID{}, map[assessment.PersonID]bool{}
	for _, l := range v.Lines {
		if !seen[l.Person.ID] {
			people, seen[l.Person.ID] = append(people, l.Person.ID), true
		}
	}
	if len(people) == 0 { // none would ask for everybody
		return nil
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: people})
	if err != nil {
		return err
	}
	for _, l := range v.Lines {
		c, err := b.caseOf(assessment.CaseKey{Person: l.Person.ID, Skill: l.Skill.ID, Client: l.Client.ID})
		if err != nil {
			return err
		}
		v.Next = append(v.Next, c.On(on).Next)
	}
	return nil
}
