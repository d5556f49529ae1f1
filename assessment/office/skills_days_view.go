package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SkillsDayView is a skills day with where everybody is and goes.
type SkillsDayView struct {
	postgres.SkillsDay
	Version  string
	Today    civil.Date
	At       time.Time // as of which all this is
	Zone     *time.Location
	Agency   AgencyView
	Stations []StationView
	Learners []LearnerOfDay // by name
}

// Open reports whether something can begin at the stations: it is the day, and nobody
// has ended it.
func (v SkillsDayView) Open() bool { return v.EndedAt == nil && v.HeldOn == v.Today }

// Station is the one with a number.
func (v SkillsDayView) Station(no int) (StationView, error) {
	for _, s := range v.Stations {
		if s.No == no {
			return s, nil
		}
	}
	return StationView{}, notFound()
}

// Learner is one of those who come.
func (v SkillsDayView) Learner(id assessment.PersonID) (LearnerOfDay, error) {
	for _, l := range v.Learners {
		if l.Person.ID == id {
			return l, nil
		}
	}
	return LearnerOfDay{}, notFound()
}

// StationView is one station.
type StationView struct {
	No          int
	Skill       SkillRef
	Revision    int // in force now; 0: none
	Specific    bool
	ManikinOnly bool
	Observer    PersonRef
	Client      ClientRef
	Closed      string // why nothing that is shown here can count; empty: it can
}

// LearnerOfDay is somebody who comes: where they are, and where they go.
type LearnerOfDay struct {
	Person PersonRef
	Cares  []ClientRef // whose teams they are on that day
	At     int         // the station where they are; 0: none
	Since  *time.Time
	Round  []VisitView // in the order in which they go
	Onward assessment.Onward
}

// VisitView is one station for one learner, with what they showed of it on the day.
type VisitView struct {
	assessment.Visit
	Shown []postgres.Shown // oldest first, also what was taken back
	Open  *postgres.Sheet  // being marked by somebody; nil: none
}

// Passed reports whether it was shown competently on the day, signed or not.
func (v VisitView) Passed() bool {
	return slices.ContainsFunc(v.Shown, func(s postgres.Shown) bool { return s.Formal && !s.Corrected && s.Outcome == assessment.Competent })
}

// Tried reports whether it was shown on the day in a way that counts, well or not.
func (v VisitView) Tried() bool {
	return slices.ContainsFunc(v.Shown, func(s postgres.Shown) bool { return s.Formal && !s.Corrected })
}

// SkillsDay is one skills day, as everything stands.
func (o *Office) SkillsDay(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) (SkillsDayView, error) {
	var v SkillsDayView
	err := o.as(ctx, by, assessment.ReadSkillsDays, func(tx *postgres.Tx, now Moment) error {
		var err error
		v, err = o.viewSkillsDay(ctx, tx, now, id)
		return err
	})
	return v, err
}

// SkillsDayCard is a skills day with one learner of it.
type SkillsDayCard struct {
	Day     SkillsDayView
	Learner LearnerOfDay
}

// SkillsDayCard is what one learner has to do on a day and has done.
func (o *Office) SkillsDayCard(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID, learner assessment.PersonID) (SkillsDayCard, error) {
	var v SkillsDayCard
	err := o.as(ctx, by, assessment.ReadSkillsDays, func(tx *postgres.Tx, now Moment) error {
		p, err := readPlan(ctx, tx, id, tx.SkillsDays.Get)
		if err != nil {
			return err
		}
		if p, err = p.only(learner); err != nil {
			return err
		}
		if v.Day, err = o.viewPlan(ctx, tx, now, p); err != nil {
			return err
		}
		v.Learner, err = v.Day.Learner(learner)
		return err
	})
	return v, err
}

// SkillsDaysOn lists the days of an educator that are held on a day and have not been
// ended, with their own stations and whoever comes to those days: what they take to
// the bedside.
func (o *Office) SkillsDaysOn(ctx context.Context, by assessment.Actor, day civil.Date) ([]SkillsDayView, error) {
	var all []SkillsDayView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		var err error
		all, err = o.skillsDaysOn(ctx, tx, now, by.Person, day)
		return err
	})
	return all, err
}

func (o *Office) skillsDaysOn(ctx context.Context, tx *postgres.Tx, now Moment, observer assessment.PersonID, day civil.Date) ([]SkillsDayView, error) {
	if day.IsZero() {
		day = now.Today
	}
	held, err := tx.SkillsDays.On(ctx, day)
	if err != nil {
		return nil, fmt.Errorf("read the skills days of a day: %w", err)
	}
	var all []SkillsDayView
	for _, d := range held {
		v, err := o.viewSkillsDay(ctx, tx, now, d.ID)
		if err != nil {
			return nil, err
		}
		v.Stations = slices.DeleteFunc(v.Stations, func(s StationView) bool { return s.Observer.ID != observer })
		if len(v.Stations) == 0 {
			continue
		}
		for i := range v.Learners {
			v.Learners[i].Round = slices.DeleteFunc(v.Learners[i].Round, func(r VisitView) bool { return r.Station.Observer != observer })
		}
		all = append(all, v)
	}
	return all, nil
}

func (o *Office) viewSkillsDay(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.SkillsDayID) (SkillsDayView, error) {
	p, err := readPlan(ctx, tx, id, tx.SkillsDays.Get)
	if err != nil {
		return SkillsDayView{}, err
	}
	return o.viewPlan(ctx, tx, now, p)
}

func (o *Office) viewPlan(ctx context.Context, tx *postgres.Tx, now Moment, p *plan) (SkillsDayView, error) {
	v := SkillsDayView{SkillsDay: p.day, Version: p.version(), Today: now.Today, At: now.At, Zone: now.Zone, Agency: viewAgency(now.Agency)}
	d, err := o.readDay(ctx, tx, now, p)
	if err != nil {
		return v, err
	}
	var core []assessment.Station
	for _, s := range p.stations {
		view, station, err := o.viewStation(ctx, tx, now, d, s)
		if err != nil {
			return v, err
		}
		v.Stations, core = append(v.Stations, view), append(core, station)
	}
	for _, l := range p.learners {
		view, err := d.learner(l, core)
		if err != nil {
			return v, err
		}
		v.Learners = append(v.Learners, view)
	}
	return v, nil
}

// viewStation is a station as people read it and as the core does.
func (o *Office) viewStation(ctx context.Context, tx *postgres.Tx, now Moment, d *dayBook, s postgres.Station) (StationView, assessment.Station, error) {
	skill, known := d.book.skills[s.SkillID]
	if !known {
		return StationView{}, assessment.Station{}, notFound()
	}
	v := StationView{No: s.No, Skill: skill.ref(), Revision: skill.InForce, Specific: skill.Scope == assessment.ClientSpecific,
		ManikinOnly: skill.newest != nil && skill.newest.ManikinOnly, Observer: d.names.people[s.ObserverID], Client: d.names.clients[s.ClientID]}
	core := assessment.Station{No: s.No, Skill: d.need(skill, s.ClientID), Title: skill.Title, Observer: s.ObserverID}
	if skill.newest != nil {
		for _, code := range skill.newest.Prerequisites {
			if first, ok := d.book.byCode[code]; ok {
				core.First = append(core.First, d.need(first, s.ClientID))
			}
		}
	}
	closed, err := o.closed(ctx, tx, now, d, skill, s)
	v.Closed, core.Closed = closed, closed
	return v, core, err
}

// closed says why nothing that is shown at a station can count, whoever shows it.
func (o *Office) closed(ctx context.Context, tx *postgres.Tx, now Moment, d *dayBook, skill *skillbook, s postgres.Station) (string, error) {
	if skill.InForce == 0 {
		return fmt.Sprintf("No checklist for %s is in force. A licensed clinician must put one in force first.", skill.Title), nil
	}
	observer := d.people[s.ObserverID]
	if gone(observer.LeftOn, d.on) || !slices.Contains(observer.Roles, assessment.Educator) {
		return fmt.Sprintf("%s is no educator here on %s. Somebody else must observe.", observer.Name, d.on), nil
	}
	err := clientIsHere(ctx, tx, s.ClientID, d.on)
	if err == nil {
		err = d.mayObserve(ctx, tx, o, now, skill, s)
	}
	if err == nil {
		err = o.hasParameters(ctx, tx, now, postgres.Sheet{ClientID: s.ClientID, PerformedAt: now.At}, skill.newest)
	}
	if f, refused := fault.As(err); refused && f.Kind == fault.Refused {
		return f.Message, nil
	}
	return "", err
}
