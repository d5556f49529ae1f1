package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// LearningPlan is what somebody still has to learn, in its order and by when, with what was
// taught and practised. It is worked out each time; only what people chose is kept.
type LearningPlan struct {
	Person   PersonView
	Today    civil.Date
	Agency   AgencyView
	Goal     assessment.LearningGoal
	Chosen   bool      // somebody chose the target; else it is that of the first shift
	With     ClientRef // of that shift
	Dates    assessment.LearningDates
	Circle   phrase.Phrase  // why nothing of it has an order or a day; nothing: all has
	Lines    []LearningLine // in the order of learning
	Held     []StandingView // required, and held today: in teaching order
	Sessions []TeachingView // the newest first
	Runs     []PracticeRunView
	Teachers []PersonRef     // who can teach; only for who may change the plan
	Skills   []SkillForChild // what can be taught and practised; only for who writes it down
	Learners []PersonRef     // whom somebody can teach; the same
	Clients  []ClientRef     // whom they look after, or may begin to; the same
	ID       string          // that what is written down next will have
}

// LearningLine is one skill of a plan, for one child where it is held per child.
type LearningLine struct {
	Skill    SkillRef
	Client   ClientRef
	Required bool // false: it comes before something that is
	First    []string
	Teacher  PersonRef // empty: nobody was chosen
	Next     assessment.Next
	Word     assessment.StandingWord
	assessment.Learnt
	assessment.LearningDate // the zero one where there is no target
}

// HasTarget reports whether there is a day to work back from.
func (p LearningPlan) HasTarget() bool { return !p.Dates.Target.IsZero() }

// LearningPlan answers for today. Caregivers may ask for their own.
func (o *Office) LearningPlan(ctx context.Context, by assessment.Actor, person assessment.PersonID) (LearningPlan, error) {
	var v LearningPlan
	err := o.as(ctx, by, assessment.ReadLearning, func(tx *postgres.Tx, now Moment) (err error) {
		if err := by.MayFor(assessment.ReadLearning, person, false); err != nil {
			return err
		}
		v, err = o.learningPlan(ctx, tx, now, by, person)
		return err
	})
	return v, err
}

func (o *Office) learningPlan(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, person assessment.PersonID) (LearningPlan, error) {
	kept, err := tx.People.Get(ctx, person)
	if err != nil {
		return LearningPlan{}, err
	}
	v := LearningPlan{Person: viewPerson(kept), Today: now.Today, Agency: viewAgency(now.Agency)}
	b, err := o.learningBook(ctx, tx, now, person)
	if err == nil {
		err = b.readChecks(ctx, o, tx, now)
	}
	if err != nil {
		return v, err
	}
	if err := b.target(ctx, o, tx, now, &v); err != nil {
		return v, err
	}
	if err := b.plan(&v); err != nil {
		return v, err
	}
	staff := by.Reach(assessment.ReadLearning) == assessment.Everything
	b.tell(&v, staff)
	if !staff {
		return v, nil
	}
	return v, b.choices(ctx, o, tx, now, by, &v)
}

// nextByPlan is what somebody does next by their plan, which no day of it changes.
func (o *Office) nextByPlan(ctx context.Context, tx *postgres.Tx, now Moment, person PersonView) (phrase.Phrase, error) {
	v := LearningPlan{Person: person}
	b, err := o.learningBook(ctx, tx, now, person.ID)
	if err == nil {
		err = b.readChecks(ctx, o, tx, now)
	}
	if err == nil {
		err = b.plan(&v)
	}
	return v.Next(), err
}

// plan puts what is left in order, with its days.
func (b *learningBook) plan(v *LearningPlan) error {
	all, by := b.units()
	stands := map[string]assessment.Standing{}
	for key, u := range by {
		c, err := b.book.caseOf(b.key(u))
		if err != nil {
			return err
		}
		stands[key] = c.On(b.today)
	}
	var required []string
	for _, n := range b.needs {
		if s, ok := b.book.byCode[n.Skill]; ok {
			required = append(required, learnKey(s, n.Client))
		}
	}
	left := assessment.Unlearnt(all, required, func(key string) bool { return stands[key].Word.Holds() })
	order, err := assessment.LearningOrder(left)
	if f, refused := fault.As(err); refused {
		v.Circle, order = f.Phrase(), left
	} else if err != nil {
		return err
	}
	b.lines(v, order, by, stands, required)
	for _, s := range all {
		if slices.Contains(required, s.Skill) && stands[s.Skill].Word.Holds() {
			u := by[s.Skill]
			v.Held = append(v.Held, StandingView{b.names.people[b.person], u.skill.ref(), b.names.clients[u.client], true, stands[s.Skill]})
		}
	}
	return nil
}

func (b *learningBook) lines(v *LearningPlan, order []assessment.ToLearn, by map[string]unit, stands map[string]assessment.Standing, required []string) {
	chosen, teachers := map[string]civil.Date{}, map[string]assessment.PersonID{}
	for _, c := range b.chosen {
		if s, ok := b.book.skills[c.Skill]; ok {
			key := learnKey(s, c.Client)
			teachers[key] = c.Teacher
			if !c.By.IsZero() {
				chosen[key] = c.By
			}
		}
	}
	if v.HasTarget() && v.Circle.IsZero() {
		v.Dates = assessment.LearningDatesFor(order, b.today, v.Dates.Target, chosen)
	}
	for i, s := range order {
		u, stands := by[s.Skill], stands[s.Skill]
		l := LearningLine{Skill: u.skill.ref(), Client: b.names.clients[u.client], Required: slices.Contains(required, s.Skill), Teacher: b.names.people[teachers[s.Skill]],
			Next: stands.Next, Word: stands.Word, Learnt: b.learnt(u, stands), LearningDate: assessment.LearningDate{ToLearn: s}}
		if len(v.Dates.Dates) > 0 {
			l.LearningDate = v.Dates.Dates[i]
		}
		for _, f := range order {
			if slices.Contains(s.First, f.Skill) {
				l.First = append(l.First, f.Title)
			}
		}
		v.Lines = append(v.Lines, l)
	}
}

// learnt is how far somebody is with a unit.
func (b *learningBook) learnt(u unit, stands assessment.Standing) assessment.Learnt {
	l := assessment.Learnt{Word: stands.Word, Taught: b.taught[b.key(u)]}
	l.Checked, l.Asked = b.checks[u.skill.ID], b.asked[u.skill.ID]
	same := func(client assessment.ClientID) bool { return u.client == "" || client == "" || client == u.client }
	for _, s := range b.sessions {
		if s.Corrected != "" || !same(s.Client) || !slices.Contains(s.Skills, u.skill.ID) {
			continue
		}
		l.Taught, l.Sessions = true, l.Sessions+1
		for _, who := range s.Learners() {
			if who.Person == b.person {
				l.How = l.How.And(who.TaughtHow)
			}
		}
	}
	for _, r := range b.runs {
		if r.Back == "" && r.Skill == u.skill.ID && same(r.Client) {
			l.Runs++
			if r.ByMyself() {
				l.Alone++
			}
		}
	}
	if u.skill.newest != nil {
		l.Of = u.skill.newest.Policy.Award.Count
	}
	if stands.Word == assessment.Learning {
		l.Shown = max(0, l.Of-stands.Next.Demonstrations)
	}
	return l
}

// readChecks reads of which skills there is a knowledge check, and of which one is passed
// and holds now.
func (b *learningBook) readChecks(ctx context.Context, o *Office, tx *postgres.Tx, now Moment) error {
	checks, err := o.ownChecks(ctx, tx, now, b.person)
	if err != nil {
		return err
	}
	b.asked, b.checks = map[assessment.SkillID]bool{}, map[assessment.SkillID]bool{}
	for _, c := range checks {
		b.asked[c.Skill.ID], b.checks[c.Skill.ID] = true, c.Holds()
	}
	return nil
}
