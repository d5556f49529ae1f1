package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// KeepVisitsForm keeps proposed visits.
type KeepVisitsForm struct {
	Weeks   int    // that the proposal was asked for
	Version string // of the proposal that was read
	Visits  []string
}

// KeepVisits puts proposed visits on the plan, by their keys; all of them for none. A
// proposal that would be another one by now is a conflict.
func (o *Office) KeepVisits(ctx context.Context, by assessment.Actor, f KeepVisitsForm) error {
	return o.visitPlanning(ctx, by, "visits kept", func(tx *postgres.Tx, now Moment) (string, error) {
		until, err := VisitQuery{Weeks: f.Weeks}.until(now.Today)
		if err != nil {
			return "", err
		}
		b, err := o.visitBook(ctx, tx, now, until)
		if err != nil {
			return "", err
		}
		if b.facts != f.Version {
			return "", visitGone()
		}
		plan := b.plan()
		kept, last := 0, ""
		for _, p := range plan.Visits {
			if len(f.Visits) > 0 && !slices.Contains(f.Visits, visitKey(p)) {
				continue
			}
			n := postgres.PlannedVisit{Client: p.Home, Person: p.Educator, FallsOn: p.On, PlannedBy: by.Person, PlannedAt: now.At}
			if n.ID, err = newID[assessment.VisitID](o, now.At); err != nil {
				return "", err
			}
			if err := tx.Visits.Add(ctx, n); err != nil {
				return "", err
			}
			kept, last = kept+1, string(n.ID)
		}
		if kept == 0 || len(f.Visits) > kept {
			return "", fault.Of(fault.Conflict, "A visit that you chose is not proposed any more. Look at the plan as it is now.")
		}
		return last, nil
	})
}

// VisitMove says where a visit is to be moved to.
type VisitMove struct {
	On       string // YYYY-MM-DD
	Educator assessment.PersonID
	Version  string // only when moving: of what was read to come of it
}

// MovedVisit is what comes of moving a visit.
type MovedVisit struct {
	Visit   HomeVisitView // as it is
	On      civil.Date
	To      PersonRef
	Faults  []string
	Breaks  []DueVisit // met before, and not then
	Gains   []DueVisit
	Longer  int // minutes of travel
	Version string
	Today   civil.Date
	Observe []PersonRef // who visits
}

// VisitDesk answers what would come of moving a visit, and changes nothing. Where nothing is said it
// stays where it is.
func (o *Office) VisitDesk(ctx context.Context, by assessment.Actor, id assessment.VisitID, m VisitMove) (MovedVisit, error) {
	var v MovedVisit
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) error {
		var err error
		v, err = o.moved(ctx, tx, now, id, m)
		return err
	})
	return v, err
}

// MoveVisit moves a visit, as it was read to come out.
func (o *Office) MoveVisit(ctx context.Context, by assessment.Actor, id assessment.VisitID, m VisitMove) error {
	return o.visitPlanning(ctx, by, "visit moved", func(tx *postgres.Tx, now Moment) (string, error) {
		v, err := o.moved(ctx, tx, now, id, m)
		switch {
		case err != nil:
			return "", err
		case len(v.Faults) > 0:
			return "", fault.Of(fault.Refused, "The visit cannot be there: %s. Choose another day or educator.", v.Faults[0])
		case v.Version != m.Version:
			return "", visitGone()
		}
		return string(id), tx.Visits.Move(ctx, id, v.To.ID, v.On)
	})
}

func (o *Office) moved(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.VisitID, m VisitMove) (MovedVisit, error) {
	kept, err := tx.Visits.Get(ctx, id)
	if err != nil {
		return MovedVisit{}, err
	}
	if kept.FallsOn.Before(now.Today) {
		return MovedVisit{}, fault.Of(fault.Refused, "This visit was on %s. What is over stays as it was planned.", kept.FallsOn)
	}
	on, to := kept.FallsOn, kept.Person
	if m.Educator != "" {
		to = m.Educator
	}
	if m.On != "" {
		var f form
		on = f.day("on", m.On)
		if f.Err() == nil && on.Before(now.Today) {
			f.Add("on", "This day is over. Choose today or later.")
		}
		if on.Sub(now.Today) > 7*MostVisitWeeks {
			f.Add("on", "This is more than %d weeks ahead.", MostVisitWeeks)
		}
		if err := f.Err(); err != nil {
			return MovedVisit{}, err
		}
	}
	until := civil.Later(now.Today.AddDays(7*VisitWeeks-1), civil.Later(on, kept.FallsOn))
	b, err := o.visitBook(ctx, tx, now, until)
	if err != nil {
		return MovedVisit{}, err
	}
	return b.moved(kept, on, to)
}

func (b *visitBook) moved(kept postgres.PlannedVisit, on civil.Date, to assessment.PersonID) (MovedVisit, error) {
	i := slices.IndexFunc(b.kept, func(k postgres.PlannedVisit) bool { return k.ID == kept.ID })
	if i < 0 {
		return MovedVisit{}, notFound()
	}
	var others []int // that can be made, and this one after them
	for n := range b.visits {
		if n != i && len(b.faults[n]) == 0 {
			others = append(others, n)
		}
	}
	visits := b.only(append(others, i))
	i = len(others)
	m, ok := b.visiting().Move(visits, i, on, to)
	if !ok {
		return MovedVisit{}, notFound()
	}
	v := MovedVisit{Visit: b.visitView(visits[i]), On: on, To: b.table.names.people[to], Longer: m.Longer, Today: b.table.on}
	v.Visit.ID, v.Visit.Version = kept.ID, visitVersion(kept)
	v.Faults = faultWords(append(m.Faults, b.noHome(kept.Client, on)...))
	if slices.ContainsFunc(b.kept, func(k postgres.PlannedVisit) bool {
		return k.ID != kept.ID && k.Client == kept.Client && k.Person == to && k.FallsOn == on
	}) {
		v.Faults = append(v.Faults, "they have a visit to this home on that day already")
	}
	for _, w := range m.Breaks {
		v.Breaks = append(v.Breaks, b.dueVisit(w))
	}
	for _, w := range m.Gains {
		v.Gains = append(v.Gains, b.dueVisit(w))
	}
	for _, e := range b.educators {
		v.Observe = append(v.Observe, b.table.names.people[e.Person])
	}
	v.Version = hashed(v.Visit.Version, on, to, v.Faults, v.Breaks, v.Gains)
	return v, nil
}

// CancelVisit takes a visit off the plan that is not over.
func (o *Office) CancelVisit(ctx context.Context, by assessment.Actor, id assessment.VisitID) error {
	return o.visitPlanning(ctx, by, "visit cancelled", func(tx *postgres.Tx, now Moment) (string, error) {
		kept, err := tx.Visits.Get(ctx, id)
		if err != nil {
			return "", err
		}
		if kept.FallsOn.Before(now.Today) {
			return "", fault.Of(fault.Refused, "This visit was on %s. What is over stays as it was planned.", kept.FallsOn)
		}
		return string(id), tx.Visits.Remove(ctx, id)
	})
}

// visitPlanning changes the plan: one at a time.
func (o *Office) visitPlanning(ctx context.Context, by assessment.Actor, what string, do func(*postgres.Tx, Moment) (string, error)) error {
	return o.as(ctx, by, assessment.PlanVisits, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Visits.Lock(ctx); err != nil {
			return fmt.Errorf("lock the plan of visits: %w", err)
		}
		subject, err := do(tx, now)
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.PlanVisits, what, subject)
	})
}
