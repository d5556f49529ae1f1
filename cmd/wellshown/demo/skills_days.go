package demo

import (
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// The names of the two skills days, the one that is over and the one that is coming.
const (
	SkillsDayOver   = "Skills day for new colleagues"
	SkillsDayComing = "Skills day before the cold months"
)

// planSkillsDays plans two: one that is over, at which two practised, and one that is coming.
func (s *story) planSkillsDays() {
	over, coming := workday(s.ago(24)), workday(s.today.AddDays(6))
	s.at(s.hour(over.AddDays(-9), 10, 20), func() error {
		id, err := s.planSkillsDay(SkillsDayOver, over, 6, "bagging", "go-bag", "humidifier")
		if err != nil {
			return err
		}
		s.at(s.hour(over, 16, 30), func() error { return s.office.EndSkillsDay(s.ctx, s.coordinate[0].Actor, id) })
		return nil
	})
	for i, name := range []string{"Ifeoma Eze", "Ștefania Ionescu"} {
		s.at(s.hour(over, 9, 40+25*i), func() error {
			l := s.learnerNamed(name)
			observer, t := s.observer(l, s.clock)
			s.show(&showing{learner: l, course: l.course("bagging", l.courses[0].child.code), observer: observer, at: t, how: manner{chance: l.chance}})
			return nil
		})
	}
	s.at(s.hour(s.ago(5), 11, 10), func() error {
		_, err := s.planSkillsDay(SkillsDayComing, coming, 12, "bagging", "suction", "go-bag", "circuit-test", "cpr-trach")
		return err
	})
}

// planSkillsDay plans a day with so many learners, and stations as far as an educator
// may observe at them on that day: the office says who.
func (s *story) planSkillsDay(name string, on civil.Date, learners int, skills ...string) (assessment.SkillsDayID, error) {
	form := office.SkillsDayForm{On: on.String(), Name: name, Place: "training room, second floor"}
	here := slices.DeleteFunc(s.here(), func(l *learner) bool { return l.kind == "" })
	slices.Reverse(here) // the newest colleagues first, but for those who look after the child of the stations
	slices.SortStableFunc(here, func(a, b *learner) int { return b.caresFor(GoingHome) - a.caresFor(GoingHome) })
	for _, l := range here[:min(learners, len(here))] {
		form.Learners = append(form.Learners, l.Person)
	}
	by := s.coordinate[0].Actor
	v, err := s.office.PlanSkillsDay(s.ctx, by, form)
	if err != nil {
		return "", fmt.Errorf("plan %s: %w", name, err)
	}
	for i, skill := range skills {
		for turn := range s.educators {
			with := form
			with.Version = v.Version
			with.Stations = append(with.Stations[:len(form.Stations):len(form.Stations)], office.StationForm{No: i + 1, Skill: skill,
				Observer: s.educators[(i+turn)%len(s.educators)].Person, Client: s.childWith(GoingHome).id})
			changed, err := s.office.ChangeSkillsDay(s.ctx, by, v.ID, with)
			if fault.KindOf(err) == fault.Invalid { // may not observe that skill on that day
				continue
			}
			if err != nil {
				return "", fmt.Errorf("add station %d to %s: %w", i+1, name, err)
			}
			v, form = changed, with
			break
		}
	}
	return v.ID, nil
}

// caresFor is 1 for somebody who shows skills with the child of a code, else 0.
func (l *learner) caresFor(code string) int {
	if slices.ContainsFunc(l.courses, func(c course) bool { return c.child.code == code }) {
		return 1
	}
	return 0
}
