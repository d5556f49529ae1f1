package office

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// SkillsDays is what has been planned, and what day it is.
type SkillsDays struct {
	Today civil.Date
	Days  []postgres.SkillsDay // the newest first
}

// SkillsDays lists the skills days.
func (o *Office) SkillsDays(ctx context.Context, by assessment.Actor) (SkillsDays, error) {
	var v SkillsDays
	err := o.as(ctx, by, assessment.ReadSkillsDays, func(tx *postgres.Tx, now Moment) error {
		days, err := tx.SkillsDays.List(ctx)
		v = SkillsDays{now.Today, days}
		return err
	})
	return v, err
}

// SkillsDayDesk is a skills day as it is planned, with what can be chosen.
type SkillsDayDesk struct {
	ID        assessment.SkillsDayID // that a new day will have
	Day       postgres.SkillsDay     // zero for a new one
	Stations  []postgres.Station
	Comes     []assessment.PersonID
	Version   string
	Today     civil.Date
	Skills    []ObservableSkill // in force, whoever observes them
	Observers []PersonRef
	Learners  []PersonRef // whoever may have to show something
	Clients   []ClientRef
}

// SkillsDayDesk reads what a form needs to plan a day, or to change the one with this id.
func (o *Office) SkillsDayDesk(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) (SkillsDayDesk, error) {
	var v SkillsDayDesk
	err := o.as(ctx, by, assessment.PlanSkillsDays, func(tx *postgres.Tx, now Moment) error {
		v = SkillsDayDesk{Today: now.Today}
		if id != "" {
			plan, err := readPlan(ctx, tx, id, tx.SkillsDays.Get)
			if err != nil {
				return err
			}
			v.Day, v.Stations, v.Comes, v.Version = plan.day, plan.stations, plan.comes(), plan.version()
		}
		var err error
		if v.ID, err = newID[assessment.SkillsDayID](o, now.At); err != nil {
			return err
		}
		return o.offered(ctx, tx, now, &v)
	})
	return v, err
}

func (o *Office) offered(ctx context.Context, tx *postgres.Tx, now Moment, v *SkillsDayDesk) error {
	b := &casebook{zone: now.Zone}
	if err := o.readSkills(ctx, tx, b); err != nil {
		return err
	}
	for _, s := range b.inOrder() {
		if s.InForce > 0 {
			v.Skills = append(v.Skills, ObservableSkill{s.ref(), s.InForce, s.Scope == assessment.ClientSpecific, s.newest.ManikinOnly})
		}
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{On: now.Today})
	if err != nil {
		return err
	}
	for _, p := range people {
		ref := PersonRef{p.ID, p.Name, p.Kind, p.Relation}
		if slices.Contains(p.Roles, assessment.Educator) {
			v.Observers = append(v.Observers, ref)
		}
		if p.Kind != "" {
			v.Learners = append(v.Learners, ref)
		}
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
	for _, c := range clients {
		v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
	}
	return err
}

// plan is a skills day as it is kept.
type plan struct {
	day      postgres.SkillsDay
	stations []postgres.Station
	learners []postgres.DayLearner
}

// readPlan reads a day with its stations and learners; get locks it or does not.
func readPlan(ctx context.Context, tx *postgres.Tx, id assessment.SkillsDayID, get func(context.Context, assessment.SkillsDayID) (postgres.SkillsDay, error)) (*plan, error) {
	p := &plan{}
	var err error
	if p.day, err = get(ctx, id); err != nil {
		return nil, err
	}
	if p.stations, err = tx.SkillsDays.Stations(ctx, id); err != nil {
		return nil, fmt.Errorf("read the stations: %w", err)
	}
	if p.learners, err = tx.SkillsDays.Learners(ctx, id); err != nil {
		return nil, fmt.Errorf("read who comes: %w", err)
	}
	return p, nil
}

func (p *plan) comes() []assessment.PersonID {
	var all []assessment.PersonID
	for _, l := range p.learners {
		all = append(all, l.PersonID)
	}
	return all
}

func (p *plan) station(no int) (postgres.Station, error) {
	for _, s := range p.stations {
		if s.No == no {
			return s, nil
		}
	}
	return postgres.Station{}, notFound()
}

func (p *plan) learner(id assessment.PersonID) (postgres.DayLearner, error) {
	for _, l := range p.learners {
		if l.PersonID == id {
			return l, nil
		}
	}
	return postgres.DayLearner{}, notFound()
}

// only is the plan with one of its learners.
func (p *plan) only(id assessment.PersonID) (*plan, error) {
	l, err := p.learner(id)
	return &plan{p.day, p.stations, []postgres.DayLearner{l}}, err
}

// version is the same for the same plan and another for every other; where learners
// stand is no part of it.
func (p *plan) version() string {
	who := slices.Sorted(slices.Values(p.comes()))
	return hashed(p.day.ID, p.day.HeldOn.String(), p.day.Name, p.day.Place, p.day.EndedAt != nil, p.stations, who)
}

// hashed is a short hash of some facts.
func hashed(facts ...any) string {
	text, err := json.Marshal(facts)
	if err != nil {
		panic(fmt.Sprintf("tell the version of a skills day: %v", err)) // text and numbers can always be written
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}

// EndSkillsDay closes a day: nothing begins at its stations any more.
func (o *Office) EndSkillsDay(ctx context.Context, by assessment.Actor, id assessment.SkillsDayID) error {
	return o.as(ctx, by, assessment.PlanSkillsDays, func(tx *postgres.Tx, now Moment) error {
		d, err := tx.SkillsDays.Lock(ctx, id)
		if err != nil {
			return err
		}
		if d.EndedAt != nil {
			return fault.Of(fault.Conflict, "This skills day has been ended already, by %s.", d.Ender)
		}
		if err := tx.SkillsDays.End(ctx, id, by.Person, now.At); err != nil {
			return fmt.Errorf("end a skills day: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.PlanSkillsDays, "skills day end", string(id))
	})
}
