package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// theGrandmother reads Spanish and has just begun.
const theGrandmother = "Consuelo Peña"

// planLearning writes down by when two people of families are to be ready, who teaches them,
// what they were taught, and what they practised, with help and alone. It comes late on its
// days, and makes nobody current.
func (s *story) planLearning() {
	day := func(ago, minute int, do func() error) { s.at(s.hour(s.ago(ago), 16, minute), do) }
	back, shown := assessment.TaughtHow{TaughtBack: true, Practised: true}, assessment.TaughtHow{Shown: true, Explained: true}
	for _, one := range []struct {
		who, child  string
		ready       int // days from today
		goal        assessment.LearningGoal
		first, then string
	}{{ines, GoingHome, 6, assessment.GoingHome, "tube-change", "go-bag"}, {theGrandmother, "9R", 24, assessment.OtherGoal, "suction", "tube-change"}} {
		day(18, 40, func() error { return s.target(one.who, one.goal, one.ready) })
		day(17, 40, func() error { return s.session(one.who, one.child, 45, shown, one.first, "bagging") })
		day(15, 40, func() error { return s.practise(one.who, one.child, one.first, true) })
		day(11, 40, func() error { return s.session(one.who, one.child, 30, back, one.then, "decannulation") })
		day(8, 40, func() error { return s.practise(one.who, one.child, one.then, true) })
		day(6, 40, func() error { return s.practise(one.who, one.child, "decannulation", false) })
		day(2, 40, func() error { return s.practise(one.who, one.child, one.then, false) })
	}
}

// target chooses by when somebody is ready, and who teaches them what they learn first.
func (s *story) target(who string, goal assessment.LearningGoal, ready int) error {
	by, p := s.coordinate[0].Actor, s.learnerNamed(who).Person
	if err := s.office.SetLearningTarget(s.ctx, by, office.LearningTargetForm{Person: p, Goal: string(goal), On: s.today.AddDays(ready).String()}); err != nil {
		return fmt.Errorf("choose by when %s is ready: %w", who, err)
	}
	v, err := s.office.LearningPlan(s.ctx, by, p)
	if err != nil {
		return fmt.Errorf("work out the plan of %s: %w", who, err)
	}
	for i, l := range v.Lines {
		f := office.LearningChoiceForm{Person: p, Skill: l.Skill.Code, Client: l.Client.ID, Teacher: s.educators[i%2].Person}
		if err := s.office.ChooseLearning(s.ctx, by, f); err != nil {
			return fmt.Errorf("choose who teaches %s: %w", who, err)
		}
	}
	return nil
}

// session writes down what somebody was taught that day.
func (s *story) session(who, child string, minutes int, how assessment.TaughtHow, skills ...string) error {
	by := s.educators[0].Actor
	f := office.TeachingForm{HeldOn: s.day().String(), Minutes: fmt.Sprint(minutes), Trainer: by.Person, Client: s.childWith(child).id, Skills: skills, Learners: []office.TaughtForm{{Person: s.learnerNamed(who).Person, TaughtHow: how}}}
	if _, err := s.office.LogTeaching(s.ctx, by, f); err != nil {
		return fmt.Errorf("write down what %s was taught: %w", who, err)
	}
	return nil
}

// practise writes down that somebody practised a skill: with an educator beside, or alone,
// which they write down themselves.
func (s *story) practise(who, child, skill string, helped bool) error {
	l := s.learnerNamed(who)
	by, helper := l.Actor, assessment.PersonID("")
	if helped {
		by = s.educators[1].Actor
		helper = by.Person
	}
	d, err := s.office.BeforePractice(s.ctx, by, l.Person, skill, s.childWith(child).id)
	if err != nil {
		return fmt.Errorf("read what %s practises: %w", who, err)
	}
	f := office.PracticeRunForm{Person: l.Person, Revision: d.List.ID, Client: s.childWith(child).id, DoneOn: s.day().String(), Helper: helper, Marks: map[int]assessment.PracticeMark{}}
	for i, step := range d.List.Steps() {
		switch {
		case i%5 == 4 && helped:
			f.Marks[step.No] = assessment.WentWithHelp
		case i%7 == 6:
			f.Marks[step.No] = assessment.WentNotYet
		default:
			f.Marks[step.No] = assessment.WentAlone
		}
	}
	if _, err := s.office.LogPracticeRun(s.ctx, by, f); err != nil {
		return fmt.Errorf("write down what %s practised: %w", who, err)
	}
	return nil
}
