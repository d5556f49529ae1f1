package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// NameCheck is what an observer reads before a sheet begins at a station: who stands
// before them, and what for.
type NameCheck struct {
	ID      assessment.DemonstrationID // that the demonstration will have
	Day     SkillsDayView
	Station StationView
	Learner LearnerOfDay
	Visit   VisitView
	Open    *postgres.Sheet  // the reader's own of the same learner and skill; nil: none
	Others  []postgres.Sheet // of other people, that the reader has not finished
	MayNot  string           // why nothing can begin here now; empty: it can
	Version string           // of who and what is shown here
}

// NameCheck reads who would begin at one's own station.
func (o *Office) NameCheck(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID, no int, learner assessment.PersonID) (NameCheck, error) {
	var v NameCheck
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		p, err := readPlan(ctx, tx, id, tx.SkillsDays.Get)
		if err != nil {
			return err
		}
		if v, err = o.nameCheck(ctx, tx, now, by, p, no, learner); err != nil {
			return err
		}
		may := p.goesOn(now)
		if may == nil {
			_, may = p.mayTake(ctx, tx, by, no, learner)
		}
		f, refused := fault.As(may)
		if refused && (f.Kind == fault.Refused || f.Kind == fault.Conflict) {
			v.MayNot, may = f.Message, nil
		}
		return may
	})
	return v, err
}

func (o *Office) nameCheck(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, p *plan, no int, learner assessment.PersonID) (NameCheck, error) {
	one, err := p.only(learner)
	if err != nil {
		return NameCheck{}, err
	}
	day, err := o.viewPlan(ctx, tx, now, one)
	if err != nil {
		return NameCheck{}, err
	}
	v := NameCheck{Day: day}
	if v.Station, err = day.Station(no); err != nil {
		return v, err
	}
	if v.Learner, err = day.Learner(learner); err != nil {
		return v, err
	}
	v.Visit = v.Learner.Visit(no)
	if v.ID, err = newID[assessment.DemonstrationID](o, now.At); err != nil {
		return v, err
	}
	own, err := tx.Sheets.List(ctx, by.Person)
	if err != nil {
		return v, fmt.Errorf("read open sheets: %w", err)
	}
	for i, s := range own {
		switch {
		case s.LearnerID != learner:
			v.Others = append(v.Others, s)
		case s.SkillID == v.Station.Skill.ID && s.ClientID == v.Station.Client.ID && v.Open == nil:
			v.Open = &own[i]
		}
	}
	v.Version = v.version()
	return v, nil
}

// version is the same while the same person, child, skill, checklist and observer are
// shown at the same table, and another for every other.
func (v NameCheck) version() string {
	s, who := v.Station, v.Learner.Person
	return hashed(v.Day.ID, v.Day.HeldOn.String(), v.Day.Place, s.No, s.Skill.ID, s.Skill.Title, s.Revision, s.Observer.ID, s.Client.ID, s.Client.Code, s.Client.FirstName,
		who.ID, who.Name, who.Kind, who.Relation)
}

// BeginForm is what an observer says after the name check.
type BeginForm struct {
	ID      string // that the demonstration will have, so that a second click is the same one
	Day     assessment.SkillsDayID
	Station int
	Learner assessment.PersonID
	Version string // of who and what was shown
	Real    bool   // with the child, else in simulation
	Formal  bool   // counts toward competence, else practice
}

// BeginAtStation begins a sheet of exactly who was shown at the name check, and has
// them at the station. Where anything that was shown has changed since, nothing begins.
func (o *Office) BeginAtStation(ctx context.Context, by assessment.Actor, f BeginForm) (SheetView, error) {
	var v SheetView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		p, err := onTheDay(ctx, tx, now, f.Day)
		if err != nil {
			return err
		}
		check, err := o.nameCheck(ctx, tx, now, by, p, f.Station, f.Learner)
		if err != nil {
			return err
		}
		if check.Version != f.Version {
			return fault.Of(fault.Conflict, "What you checked is not what stands here now. Nothing has begun: read who it is and what for once more.")
		}
		l, err := p.mayTake(ctx, tx, by, f.Station, f.Learner)
		if err != nil {
			return err
		}
		if check.Open != nil && string(check.Open.ID) != f.ID {
			return fault.Of(fault.Conflict, "You have a sheet of %s in %s open already. Go on with that one, or discard it.", l.Name, check.Station.Skill.Title)
		}
		v, err = o.openSheet(ctx, tx, now, by, OpenForm{ID: f.ID, Learner: l.PersonID, Skill: check.Station.Skill.Code, Client: check.Station.Client.ID,
			Place: p.day.Place, Real: f.Real, Formal: f.Formal})
		if err != nil || l.Station == f.Station {
			return err
		}
		return o.move(ctx, tx, now, by, MoveForm{Day: f.Day, Learner: f.Learner}, f.Station)
	})
	return v, err
}
