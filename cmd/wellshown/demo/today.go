package demo

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// planToday leaves something to do: two open sheets and two records that wait
// for a signature.
func (s *story) planToday() {
	s.at(s.hour(s.ago(2), 15, 0), func() error { return s.leave(zofia, "go-bag", "9R", observerNever) })
	s.at(s.hour(s.ago(1), 15, 30), func() error { return s.leave(jo, "bagging", "4B", never) })
	s.at(s.end.Add(-35*time.Minute), func() error { return s.halfway(tomasz, "circuit-change", s.educators[0], 12) })
	s.at(s.end.Add(-10*time.Minute), func() error { return s.halfway(ines, "go-bag", s.educators[1], 0) })
}

// leave has something shown and not signed by all.
func (s *story) leave(name, skill, child string, signs signing) error {
	l := s.learnerNamed(name)
	observer, t := s.observer(l, s.clock)
	s.show(&showing{learner: l, course: l.course(skill, child), observer: observer, at: t, formal: true, real: true,
		how: manner{chance: l.chance}, signs: signs})
	return nil
}

// halfway opens a sheet and marks its first steps.
func (s *story) halfway(name, skill string, by *educator, steps int) error {
	l := s.learnerNamed(name)
	w := &showing{learner: l, course: l.course(skill, s.result.GoingHome), observer: by, formal: true, real: true, how: manner{chance: l.chance, only: steps}}
	var err error
	w.sheet, err = s.office.Open(s.ctx, by.Actor, office.OpenForm{Learner: l.Person, Skill: skill, Client: w.course.child.id,
		Place: w.course.child.place(), Real: true, Formal: true})
	if err != nil {
		return w.fail("open", err)
	}
	s.result.Counts.OpenSheets++
	if steps == 0 {
		return nil
	}
	s.result.OneMore = Case{l.Person, l.Name, skill, w.course.child.id, w.course.child.code}
	s.result.OneMoreBy, s.result.OneMoreDoc = by.email, assessment.DemonstrationID(w.sheet.ID)
	return s.mark(w)
}
