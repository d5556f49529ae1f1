package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// VisitForm is a visit that somebody plans by hand.
type VisitForm struct {
	ID       string // made by whoever sends it, so that sending twice plans one; empty: made here
	Client   assessment.ClientID
	Educator assessment.PersonID
	On       string // YYYY-MM-DD, today or later
}

// PlanVisit plans a visit by hand, whether or not anything is due there. One that could not
// be made is refused.
func (o *Office) PlanVisit(ctx context.Context, by assessment.Actor, f VisitForm) (MovedVisit, error) {
	var v MovedVisit
	err := o.visitPlanning(ctx, by, "visit planned", func(tx *postgres.Tx, now Moment) (string, error) {
		n, err := o.readVisit(ctx, tx, now, f)
		if err != nil {
			return "", err
		}
		n.PlannedBy, n.PlannedAt = by.Person, now.At
		known, err := tx.Visits.Get(ctx, n.ID)
		switch {
		case err == nil && known.Client == n.Client && known.Person == n.Person && known.FallsOn == n.FallsOn:
			v, err = o.couldBeMade(ctx, tx, now, n)
			return string(n.ID), err
		case err == nil:
			return "", fault.Of(fault.Conflict, "There is another visit under this id.")
		case fault.KindOf(err) != fault.NotFound:
			return "", err
		}
		if err := tx.Visits.Add(ctx, n); err != nil {
			return "", err
		}
		v, err = o.couldBeMade(ctx, tx, now, n)
		return string(n.ID), err
	})
	return v, err
}

func (o *Office) readVisit(ctx context.Context, tx *postgres.Tx, now Moment, f VisitForm) (postgres.PlannedVisit, error) {
	var faults form
	n := postgres.PlannedVisit{Client: f.Client, Person: f.Educator, FallsOn: faults.day("on", f.On)}
	if f.Client == "" {
		faults.Add("client", "Choose the child.")
	}
	if f.Educator == "" {
		faults.Add("educator", "Choose who goes there.")
	}
	switch {
	case n.FallsOn.IsZero():
	case n.FallsOn.Before(now.Today):
		faults.Add("on", "This day is over. Choose today or later.")
	case n.FallsOn.Sub(now.Today) > 7*MostVisitWeeks:
		faults.Add("on", "This is more than %d weeks ahead.", MostVisitWeeks)
	}
	if err := faults.Err(); err != nil {
		return n, err
	}
	if err := isEducator(ctx, tx, now, f.Educator); err != nil {
		return n, err
	}
	if err := clientIsHere(ctx, tx, f.Client, n.FallsOn); err != nil {
		return n, err
	}
	var err error
	n.ID, err = idOr[assessment.VisitID](o, f.ID, now.At)
	return n, err
}

// couldBeMade reads a visit once it is on the plan, and refuses one on a day off or one
// too many.
func (o *Office) couldBeMade(ctx context.Context, tx *postgres.Tx, now Moment, n postgres.PlannedVisit) (MovedVisit, error) {
	b, err := o.visitBook(ctx, tx, now, now.Today.AddDays(7*VisitWeeks-1))
	if err != nil {
		return MovedVisit{}, err
	}
	v, err := b.moved(n, n.FallsOn, n.Person)
	if err == nil && len(v.Faults) > 0 {
		err = fault.Of(fault.Refused, "The visit cannot be there: %s. Choose another day or educator.", v.Faults[0])
	}
	return v, err
}
