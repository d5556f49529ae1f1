package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// StationFloor is one station as whoever stands at it sees it.
type StationFloor struct {
	Day     SkillsDayView
	Station StationView
	ToCome  []LearnerOfDay // due here and not shown yet; whoever goes here next comes first
	Here    []LearnerOfDay
	Done    []LearnerOfDay // who showed it on the day, well or not
	Not     []LearnerOfDay // who cannot show it here so that it counts
	Own     bool           // the reader observes here
}

// SkillsDayStation is one station of a day.
func (o *Office) SkillsDayStation(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID, no int) (StationFloor, error) {
	var v StationFloor
	err := o.as(ctx, by, assessment.ReadSkillsDays, func(tx *postgres.Tx, now Moment) error {
		day, err := o.viewSkillsDay(ctx, tx, now, id)
		if err != nil {
			return err
		}
		at, err := day.Station(no)
		if err != nil {
			return err
		}
		v = day.Floor(at)
		v.Own = at.Observer.ID == by.Person
		return nil
	})
	return v, err
}

// Visit is what a station is for a learner.
func (l LearnerOfDay) Visit(no int) VisitView {
	i := slices.IndexFunc(l.Round, func(v VisitView) bool { return v.Station.No == no })
	if i < 0 {
		return VisitView{}
	}
	return l.Round[i]
}

// Floor sorts the learners of a day as a station sees them.
func (v SkillsDayView) Floor(at StationView) StationFloor {
	f := StationFloor{Day: v, Station: at}
	f.sort()
	return f
}

func (v *StationFloor) sort() {
	no := v.Station.No
	for _, l := range v.Day.Learners {
		visit := l.Visit(no)
		switch {
		case l.At == no:
			v.Here = append(v.Here, l)
		case visit.Tried():
			v.Done = append(v.Done, l)
		case visit.Asking != assessment.AskedNow:
		case len(visit.Cannot) > 0:
			v.Not = append(v.Not, l)
		default:
			v.ToCome = append(v.ToCome, l)
		}
	}
	rank := func(l LearnerOfDay) int {
		switch {
		case l.Onward.Station == no && l.At == 0:
			return 0
		case l.Onward.Station == no:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(v.ToCome, func(a, b LearnerOfDay) int { return rank(a) - rank(b) })
}

// MoveForm says who goes where.
type MoveForm struct {
	Day     assessment.SkillsDayID
	Station int // whose list it is sent from
	Learner assessment.PersonID
	To      int // of PassOn: another station, or 0 for none
}

// TakeAtStation has a learner come to one's own station who is at no other.
func (o *Office) TakeAtStation(ctx context.Context, by assessment.Actor, f MoveForm) error {
	return o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		p, err := onTheDay(ctx, tx, now, f.Day)
		if err != nil {
			return err
		}
		l, err := p.mayTake(ctx, tx, by, f.Station, f.Learner)
		if err != nil || l.Station == f.Station {
			return err
		}
		return o.move(ctx, tx, now, by, f, f.Station)
	})
}

// PassOn sends a learner who is at a station to another, or to none.
func (o *Office) PassOn(ctx context.Context, by assessment.Actor, f MoveForm) error {
	return o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		p, err := onTheDay(ctx, tx, now, f.Day)
		if err != nil {
			return err
		}
		if _, err := p.station(f.Station); err != nil {
			return err
		}
		l, err := p.learner(f.Learner)
		if err != nil {
			return err
		}
		if f.To != 0 {
			if _, err := p.station(f.To); err != nil {
				return err
			}
		}
		if l.Station != f.Station {
			return fault.Of(fault.Conflict, "%s is not at station %d any more: %s. Look at the list as it is now.", l.Name, f.Station, whereIs(l))
		}
		return o.move(ctx, tx, now, by, f, f.To)
	})
}

func whereIs(l postgres.DayLearner) string {
	if l.Station == 0 {
		return "they are at no station"
	}
	return fmt.Sprintf("they are at station %d", l.Station)
}

func (o *Office) move(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f MoveForm, to int) error {
	if err := tx.SkillsDays.Move(ctx, f.Day, f.Learner, to, now.At); err != nil {
		return fmt.Errorf("move a learner: %w", err)
	}
	return o.note(ctx, tx, now, by, assessment.Observe, "skills day move", string(f.Learner))
}

// onTheDay reads and locks a day on which something can happen. Whoever moves or begins
// waits here for whoever does so or changes the plan.
func onTheDay(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.SkillsDayID) (*plan, error) {
	p, err := readPlan(ctx, tx, id, tx.SkillsDays.Lock)
	if err != nil {
		return nil, err
	}
	return p, p.goesOn(now)
}

// goesOn refuses every day but today, and one that was ended.
func (p *plan) goesOn(now Moment) error {
	switch {
	case p.day.EndedAt != nil:
		return fault.Of(fault.Refused, "This skills day has been ended by %s. Nothing begins at its stations any more.", p.day.Ender)
	case p.day.HeldOn.After(now.Today):
		return fault.Of(fault.Refused, "This skills day is on %s. Nothing begins before that day.", p.day.HeldOn)
	case p.day.HeldOn.Before(now.Today):
		return fault.Of(fault.Refused, "This skills day was on %s and is over. Begin a demonstration of today under Observe.", p.day.HeldOn)
	}
	return nil
}

// mayTake refuses a station that is not one's own, oneself, and whoever is elsewhere.
func (p *plan) mayTake(ctx context.Context, tx *postgres.Tx, by assessment.Actor, no int, learner assessment.PersonID) (postgres.DayLearner, error) {
	s, err := p.station(no)
	if err != nil {
		return postgres.DayLearner{}, err
	}
	l, err := p.learner(learner)
	if err != nil {
		return l, err
	}
	observer, err := tx.People.Get(ctx, s.ObserverID)
	switch {
	case err != nil:
		return l, err
	case s.ObserverID != by.Person:
		return l, fault.Of(fault.Refused, "Station %d is %s's. Only its observer takes learners there; change the plan where somebody else observes.", no, observer.Name)
	case learner == by.Person:
		return l, fault.Of(fault.Refused, "You cannot observe yourself. Ask another observer.")
	case l.Station != 0 && l.Station != no:
		return l, fault.Of(fault.Conflict, "%s is at station %d now. Whoever is there passes them on first.", l.Name, l.Station)
	}
	return l, nil
}
