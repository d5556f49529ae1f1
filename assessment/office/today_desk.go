package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// CoordinatorDesk is what breaks next, and when.
type CoordinatorDesk struct {
	Today     civil.Date
	Counts    OverdueCounts
	GoingHome int       // children with a plan that is not yet ready
	Troubles  []Trouble // withdrawn, lapsed, and current ones that end within 90 days; worst first
	More      bool      // not all are listed
	Waiting   []Awaiting
}

// Trouble is a required standing that somebody must mend.
type Trouble struct {
	StandingView
	Observers []PersonRef // who may observe it today
}

// mostTroubles is how many a first page shows: what one can look after in a day.
const mostTroubles = 15

// CoordinatorDesk answers for today from the index; only what is listed is folded.
func (o *Office) CoordinatorDesk(ctx context.Context, by assessment.Actor) (CoordinatorDesk, error) {
	var v CoordinatorDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		t, err := o.table(ctx, tx, now.Today, nil)
		if err != nil {
			return err
		}
		all := t.overdue(OverdueQuery{On: now.Today, Within: 90}, nil)
		v = CoordinatorDesk{Today: now.Today, Counts: all.Counts}
		lines := troubled(all.Lines)
		if v.More = len(lines) > mostTroubles; v.More {
			lines = lines[:mostTroubles]
		}
		if v.Troubles, err = o.troubles(ctx, tx, now, t, lines); err != nil {
			return err
		}
		if v.Waiting, err = o.awaiting(ctx, tx, now, by, ""); err != nil {
			return err
		}
		v.GoingHome, err = o.goingHome(ctx, tx, now)
		return err
	})
	return v, err
}

// troubled leaves out what was never held yet, and puts the worst first.
func troubled(lines []OverdueLine) []OverdueLine {
	var kept []OverdueLine
	for _, l := range lines {
		if l.Word != assessment.NotStarted && l.Word != assessment.Learning {
			kept = append(kept, l)
		}
	}
	rank := func(l OverdueLine) int {
		if l.Word.Holds() {
			return len(severity)
		}
		return slices.Index(severity, l.Word)
	}
	slices.SortStableFunc(kept, func(a, b OverdueLine) int {
		return cmp.Or(rank(a)-rank(b), a.Through.Compare(b.Through), cmp.Compare(a.Person.Name, b.Person.Name))
	})
	return kept
}

func (o *Office) troubles(ctx context.Context, tx *postgres.Tx, now Moment, t *table, lines []OverdueLine) ([]Trouble, error) {
	if len(lines) == 0 {
		return nil, nil
	}
	who, err := o.panel(ctx, tx, now, t)
	if err != nil {
		return nil, err
	}
	rows, err := o.foldLines(ctx, tx, now, lines)
	if err != nil {
		return nil, err
	}
	var all []Trouble
	for _, r := range rows {
		all = append(all, Trouble{r, who.of(r.Person.ID, r.Skill)})
	}
	return all, nil
}

// foldLines folds a few lines of the index for what they rest on and what is next.
func (o *Office) foldLines(ctx context.Context, tx *postgres.Tx, now Moment, lines []OverdueLine) ([]StandingView, error) {
	people := []assessment.PersonID{noPerson} // none asks for everybody
	for _, l := range lines {
		people = append(people, l.Person.ID)
	}
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: people})
	if err != nil {
		return nil, err
	}
	var rows []StandingView
	for _, l := range lines {
		c, err := b.caseOf(assessment.CaseKey{Person: l.Person.ID, Skill: l.Skill.ID, Client: l.Client.ID})
		if err != nil {
			return nil, err
		}
		rows = append(rows, StandingView{l.Person, l.Skill, l.Client, true, c.On(now.Today)})
	}
	return rows, nil
}

// goingHome counts the children whose plan is not yet ready.
func (o *Office) goingHome(ctx context.Context, tx *postgres.Tx, now Moment) (int, error) {
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
	if err != nil {
		return 0, fmt.Errorf("read children: %w", err)
	}
	ways, err := o.waysHome(ctx, tx, now, clients)
	n := 0
	for _, w := range ways {
		if !w.Ready {
			n++
		}
	}
	return n, err
}
