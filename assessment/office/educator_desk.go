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

// EducatorDesk is whom an educator sees today.
type EducatorDesk struct {
	Today    civil.Date
	Open     []OpenSheet // begun by the actor, not recorded
	ToSign   Waiting
	Learners []LearnerView  // the worst off first
	All      int            // people, listed or not
	Own      []StandingView // the actor's own that end soon or no longer hold: an observer must be current
	MayNot   string         // why the actor may observe nothing today; empty: they may

	Proposals []WaitingProposal // checklists that wait for a second person
	Visits    []OwnVisit        // the actor's, today and on the six days after it
	Incidents int               // that wait for somebody to close them
	Unvouched []UnvouchedView   // who cannot sign before somebody has vouched for them
}

// OpenSheet is a demonstration being marked, with how long its checklist is.
type OpenSheet struct {
	postgres.Sheet
	Steps int
}

// OwnVisit is a visit that the actor is to make.
type OwnVisit struct {
	ID     assessment.VisitID
	On     civil.Date
	Client ClientRef
}

// ownVisits lists the actor's visits of the coming week.
func (o *Office) ownVisits(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) ([]OwnVisit, error) {
	planned, err := tx.Visits.Of(ctx, by.Person, now.Today, now.Today.AddDays(6))
	if err != nil {
		return nil, fmt.Errorf("read one's own visits: %w", err)
	}
	var all []OwnVisit
	for _, p := range planned {
		c, err := tx.Clients.Get(ctx, p.Client)
		if err != nil {
			return nil, fmt.Errorf("read the child of a visit: %w", err)
		}
		all = append(all, OwnVisit{ID: p.ID, On: p.FallsOn, Client: ClientRef{c.ID, c.Code, c.FirstName}})
	}
	return all, nil
}

// LearnerView is somebody with required skills that the actor may observe and
// that are not held, or soon will not be.
type LearnerView struct {
	Person PersonRef
	Skills []StandingView
}

// mostLearners is how many people a first page shows: about two days of visits.
const mostLearners = 12

// EducatorDesk answers for today from the index; only who is listed is folded.
func (o *Office) EducatorDesk(ctx context.Context, by assessment.Actor) (EducatorDesk, error) {
	var v EducatorDesk
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		v = EducatorDesk{Today: now.Today}
		var err error
		if v.Open, err = o.openSheets(ctx, tx, by); err != nil {
			return err
		}
		if v.ToSign, err = o.awaiting(ctx, tx, now, by, by.Person, ""); err != nil {
			return err
		}
		if v.Unvouched, err = unvouched(ctx, tx, now, by); err != nil {
			return err
		}
		if v.Visits, err = o.ownVisits(ctx, tx, now, by); err != nil {
			return err
		}
		if v.Proposals, err = waitingProposals(ctx, tx, now, by); err != nil {
			return err
		}
		if v.Incidents, err = tx.Incidents.Open(ctx); err != nil {
			return fmt.Errorf("count incidents: %w", err)
		}
		var may BeforeOpening
		if err := o.observable(ctx, tx, now, by, &may); err != nil {
			return err
		}
		v.MayNot = may.MayNot
		own, err := o.foldPerson(ctx, tx, now, PersonView{ID: by.Person}, now.Today)
		if err != nil {
			return err
		}
		for _, s := range own {
			if s.Word == assessment.Due || s.Word == assessment.Lapsed || s.Word == assessment.Withdrawn {
				v.Own = append(v.Own, s)
			}
		}
		return o.learners(ctx, tx, now, by, may.Skills, &v)
	})
	return v, err
}

func (o *Office) openSheets(ctx context.Context, tx *postgres.Tx, by assessment.Actor) ([]OpenSheet, error) {
	sheets, err := tx.Sheets.List(ctx, by.Person)
	if err != nil {
		return nil, fmt.Errorf("read open sheets: %w", err)
	}
	var open []OpenSheet
	for _, s := range sheets {
		list, err := o.listFor(ctx, tx, s.RevisionID)
		if err != nil {
			return nil, err
		}
		open = append(open, OpenSheet{s, len(list.Steps())})
	}
	return open, nil
}

func (o *Office) learners(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, skills []ObservableSkill, v *EducatorDesk) error {
	t, err := o.table(ctx, tx, now.Today, nil)
	if err != nil {
		return err
	}
	theirs := map[assessment.SkillID]bool{}
	for _, s := range skills {
		theirs[s.ID] = true
	}
	groups := byLearner(t.overdue(OverdueQuery{On: now.Today, Within: 90}, nil).Lines, func(l OverdueLine) bool {
		return theirs[l.Skill.ID] && l.Person.ID != by.Person && l.Word != assessment.Current
	})
	if v.All = len(groups); v.All > mostLearners {
		groups = groups[:mostLearners]
	}
	lines := slices.Concat(groups...)
	b, err := o.casebook(ctx, tx, now, postgres.HistoryFilter{People: peopleOf(lines)})
	if err != nil {
		return err
	}
	rows, err := b.foldLines(now, lines)
	if err != nil {
		return err
	}
	for _, r := range rows {
		if n := len(v.Learners); n == 0 || v.Learners[n-1].Person.ID != r.Person.ID {
			v.Learners = append(v.Learners, LearnerView{Person: r.Person})
		}
		last := &v.Learners[len(v.Learners)-1]
		last.Skills = append(last.Skills, r)
	}
	return nil
}

// urgency orders what an educator looks after: what may not be done now, what will
// soon not be, what is on the way, what was never begun.
var urgency = []assessment.StandingWord{assessment.Withdrawn, assessment.Lapsed, assessment.Due, assessment.Learning, assessment.NotStarted}

// byLearner groups lines that match by person, the most urgent line and person first.
func byLearner(lines []OverdueLine, match func(OverdueLine) bool) [][]OverdueLine {
	var groups [][]OverdueLine
	for _, l := range lines {
		if !match(l) {
			continue
		}
		if n := len(groups); n > 0 && groups[n-1][0].Person.ID == l.Person.ID {
			groups[n-1] = append(groups[n-1], l)
			continue
		}
		groups = append(groups, []OverdueLine{l})
	}
	rank := func(a, b OverdueLine) int {
		return cmp.Or(slices.Index(urgency, a.Word)-slices.Index(urgency, b.Word), a.Through.Compare(b.Through))
	}
	for _, g := range groups {
		slices.SortStableFunc(g, rank)
	}
	slices.SortStableFunc(groups, func(a, b []OverdueLine) int { return rank(a[0], b[0]) })
	return groups
}
