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
	GoingHome int       // children with a plan who are not yet called ready
	Troubles  []Trouble // withdrawn, lapsed, due, and what ends within 30 days; worst first
	More      bool      // more has gone or ends within 90 days than is listed
	Waiting   Waiting
	Coverage  Coverage        // of the next 14 days; the shifts that break, clash or are open
	Incidents int             // that wait for somebody to close them
	Practice  PracticeCounts  // of the rules for aides, as far as the agency uses them
	Unvouched []UnvouchedView // who cannot sign before somebody has vouched for them
	Holding   []HoldingView   // devices at the bedside that hold what is not here, as they last said
}

// Trouble is a required standing that somebody must mend.
type Trouble struct {
	StandingView
	Observers []PersonRef // who may observe it today
}

// mostTroubles is how many a first page shows: what one can look after in a day.
const mostTroubles = 15

// CoordinatorDesk answers for today from the index; only what is listed is folded,
// all from one casebook.
func (o *Office) CoordinatorDesk(ctx context.Context, by assessment.Actor) (CoordinatorDesk, error) {
	var v CoordinatorDesk
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		t, err := o.table(ctx, tx, now.Today, nil)
		if err != nil {
			return err
		}
		v = CoordinatorDesk{Today: now.Today}
		lines := v.look(t)
		v.More = len(lines) < v.Counts.Lapsed+v.Counts.Withdrawn+v.Counts.All
		if v.Waiting, err = o.awaiting(ctx, tx, now, by, "", ""); err != nil {
			return err
		}
		if v.Coverage, err = o.coverage(ctx, tx, now, CoverageQuery{State: "trouble"}); err != nil {
			return err
		}
		if v.Unvouched, err = unvouched(ctx, tx, now, by); err != nil {
			return err
		}
		if v.Holding, err = holding(ctx, tx); err != nil {
			return err
		}
		if v.Incidents, err = tx.Incidents.Open(ctx); err != nil {
			return fmt.Errorf("count incidents: %w", err)
		}
		if v.Practice, err = o.practiceCounts(ctx, tx, now); err != nil {
			return err
		}
		clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
		if err != nil {
			return fmt.Errorf("read children: %w", err)
		}
		ways, err := o.gatherPlans(ctx, tx, now, clients, t.demands)
		if err != nil {
			return err
		}
		book, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: append(peopleOf(lines), ways.people...)})
		if err != nil {
			return err
		}
		if v.Troubles, err = o.troubles(ctx, tx, now, t, book, lines); err != nil {
			return err
		}
		v.GoingHome, err = ways.goingHome(now, book)
		return err
	})
	return v, err
}

// soon is how many days ahead a first page looks; the counts beside it look further.
const soon = 30

// look counts everything and lists what is withdrawn, lapsed or due, and what ends soon,
// the worst first, and no more of it than a first page shows.
func (v *CoordinatorDesk) look(t *table) []OverdueLine {
	var kept []demanded
	v.Counts = t.missing(OverdueQuery{On: t.on, Within: 90}, nil, func(d demanded) {
		switch d.word() {
		case assessment.Withdrawn, assessment.Lapsed, assessment.Due:
			kept = append(kept, d)
		case assessment.Current:
			if t.daysLeft(d.stood) <= soon {
				kept = append(kept, d)
			}
		}
	})
	rank := func(d demanded) int {
		if d.word().Holds() {
			return len(severity)
		}
		return int(d.rank)
	}
	byPerson := t.order(false)
	slices.SortFunc(kept, func(a, b demanded) int {
		return cmp.Or(rank(a)-rank(b), a.through.Compare(b.through), byPerson(a, b))
	})
	return t.lines(kept[:min(len(kept), mostTroubles)])
}

// peopleOf lists whom lines are about. It is never empty: none would ask for everybody.
func peopleOf(lines []OverdueLine) []assessment.PersonID {
	people := []assessment.PersonID{noPerson}
	for _, l := range lines {
		if !slices.Contains(people, l.Person.ID) {
			people = append(people, l.Person.ID)
		}
	}
	return people
}

func (o *Office) troubles(ctx context.Context, tx *postgres.Tx, now Moment, t *table, b *casebook, lines []OverdueLine) ([]Trouble, error) {
	if len(lines) == 0 {
		return nil, nil
	}
	who, err := o.panel(ctx, tx, now, t)
	if err != nil {
		return nil, err
	}
	rows, err := b.foldLines(now, lines)
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
func (b *casebook) foldLines(now Moment, lines []OverdueLine) ([]StandingView, error) {
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

// goingHome counts the children who are not yet called ready: something is left, be it the
// clinician's signature alone.
func (w wayHomes) goingHome(now Moment, book *casebook) (int, error) {
	answers, err := w.answer(now, book)
	n := 0
	for _, a := range answers {
		if !a.SignatureStands() { // which stands only where all is in place
			n++
		}
	}
	return n, err
}
