package office

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// target is the day that was chosen, else that of somebody's first shift to come: of the
// early shifts after going home for the family.
func (b *learningBook) target(ctx context.Context, o *Office, tx *postgres.Tx, now Moment, v *LearningPlan) error {
	kept, err := tx.Learning.Target(ctx, b.person)
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return fmt.Errorf("read the target of a plan: %w", err)
	}
	v.Goal = cmp.Or(kept.Goal, assessment.FirstShift)
	if v.Chosen = !kept.TargetOn.IsZero(); v.Chosen {
		v.Dates.Target = kept.TargetOn
		return nil
	}
	family := v.Person.Kind == assessment.Family
	if family {
		v.Goal = assessment.GoingHome
	}
	with := []assessment.ClientID{""}
	if family {
		with = b.clients
	}
	for _, client := range with {
		q := CoverageQuery{From: now.Today, Through: now.Today.AddDays(MostCoverageDays - 1), Client: client}
		if !family {
			q.Person = b.person
		}
		c, err := o.coverage(ctx, tx, now, q)
		if err != nil {
			return err
		}
		for _, l := range c.Lines {
			mine := family && l.Source == OfWayHome || !family && l.Person.ID == b.person
			if day := civil.DayOf(l.Starts, now.Zone); mine && (v.Dates.Target.IsZero() || day.Before(v.Dates.Target)) {
				v.Dates.Target, v.With = day, l.Client
			}
		}
	}
	return nil
}

// choices are what whoever may change the plan can choose from.
func (b *learningBook) choices(ctx context.Context, o *Office, tx *postgres.Tx, now Moment, by assessment.Actor, v *LearningPlan) error {
	if by.May(assessment.PlanLearning) != nil && by.May(assessment.LogCare) != nil {
		return nil
	}
	people, err := tx.People.List(ctx, postgres.PeopleFilter{})
	if err != nil {
		return err
	}
	for _, p := range people {
		ref := PersonRef{p.ID, p.Name, p.Kind, p.Relation}
		if slices.Contains(p.Roles, assessment.Educator) && p.ID != b.person {
			v.Teachers = append(v.Teachers, ref)
		}
		if p.Kind != "" && p.ID != by.Person {
			v.Learners = append(v.Learners, ref)
		}
	}
	v.Clients = b.childrenOf()
	var desk PersonDesk
	desk.Person = v.Person
	if err := o.teachable(ctx, tx, now, &desk); err != nil {
		return err
	}
	v.Skills = desk.Skills
	id, err := newID[assessment.RecordID](o, now.At)
	v.ID = string(id)
	return err
}

func (b *learningBook) childrenOf() []ClientRef {
	var all []ClientRef
	for _, c := range b.clients {
		all = append(all, b.names.clients[c])
	}
	return all
}

func compareCodes(x, y ClientRef) int {
	return cmp.Or(cmp.Compare(x.Code, y.Code), cmp.Compare(x.ID, y.ID))
}

// LearningTargetForm is by when somebody is to have learnt what they need.
type LearningTargetForm struct {
	Person assessment.PersonID
	Goal   string
	On     string // empty: the day of their first shift
}

// SetLearningTarget chooses it. A day that is past is kept: the plan tells that it is.
func (o *Office) SetLearningTarget(ctx context.Context, by assessment.Actor, f LearningTargetForm) error {
	return o.as(ctx, by, assessment.PlanLearning, func(tx *postgres.Tx, now Moment) error {
		var faults form
		t := postgres.LearningTarget{Person: f.Person, Goal: assessment.LearningGoal(f.Goal), TargetOn: faults.maybeDay("on", f.On), SetBy: by.Person, SetAt: now.At}
		if !slices.Contains(assessment.LearningGoals, t.Goal) {
			faults.Add("goal", "Choose what they learn toward: going home, a first shift, or something else.")
		}
		if err := faults.Err(); err != nil {
			return err
		}
		if _, err := tx.People.Get(ctx, f.Person); err != nil {
			return err
		}
		var err error
		if t.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Learning.SetTarget(ctx, t); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.PlanLearning, "learning_target", string(t.ID))
	})
}

// LearningChoiceForm is who teaches somebody one skill, and by which day.
type LearningChoiceForm struct {
	Person  assessment.PersonID
	Skill   string // code
	Client  assessment.ClientID
	Teacher assessment.PersonID // empty: nobody yet
	By      string              // empty: as it is worked out
}

// ChooseLearning chooses both. A teacher is an educator other than the learner.
func (o *Office) ChooseLearning(ctx context.Context, by assessment.Actor, f LearningChoiceForm) error {
	return o.as(ctx, by, assessment.PlanLearning, func(tx *postgres.Tx, now Moment) error {
		var faults form
		c := postgres.LearningChoice{Person: f.Person, Teacher: f.Teacher, By: faults.maybeDay("by", f.By), SetBy: by.Person, SetAt: now.At}
		if f.Teacher != "" {
			if err := mayTeach(ctx, tx, now.Today, "teacher", f.Teacher, []assessment.PersonID{f.Person}, &faults); err != nil {
				return err
			}
		}
		key, err := o.keyOf(ctx, tx, ExceptionForm{Person: f.Person, Skill: f.Skill, Client: f.Client}, &faults)
		if err != nil {
			return err
		}
		if key.Client != "" {
			if _, err := tx.Clients.Get(ctx, key.Client); err != nil {
				return err
			}
		}
		c.Skill, c.Client = key.Skill, key.Client
		if c.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Learning.Choose(ctx, c); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.PlanLearning, "learning_choice", string(c.ID))
	})
}

// mayTeach faults whoever cannot teach some people on a day: a learner, somebody who is no
// educator, or who has left.
func mayTeach(ctx context.Context, tx *postgres.Tx, on civil.Date, field string, teacher assessment.PersonID, learners []assessment.PersonID, faults *form) error {
	p, err := tx.People.Get(ctx, teacher)
	switch {
	case err != nil:
		return err
	case slices.Contains(learners, teacher):
		faults.Add(field, "Nobody teaches themselves. Choose another teacher.")
	case !slices.Contains(p.Roles, assessment.Educator):
		faults.Add(field, "%s is no educator here. Choose an educator.", p.Name)
	case gone(p.LeftOn, on):
		faults.Add(field, "%s was no longer with the agency on that day.", p.Name)
	}
	return nil
}
