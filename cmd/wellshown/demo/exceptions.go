package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// planExceptions plans what was taken away, excused and taken back.
func (s *story) planExceptions() {
	day := func(ago, hour int, do func() error) { s.at(s.hour(s.ago(ago), hour, 20), do) }
	day(212, 11, func() error {
		return s.withdraw(imre, "suction", "9R", assessment.Reinstated, false, "Suction unit found uncharged at hand-over. To be reviewed with the nurse.")
	})
	day(206, 11, func() error {
		return s.reinstate(imre, "suction", "9R", "Reviewed together; the charging round is now in the shift list.")
	})
	day(122, 12, func() error {
		return s.withdraw(gulsen, "go-bag", "6T", assessment.Redemonstrated, false, "The bag was left in the car on an outing.")
	})
	day(121, 8, func() error { s.visitOn(s.learnerNamed(gulsen), s.day().AddDays(2)); return nil })
	day(20, 12, func() error {
		return s.withdraw(joao, "circuit-change", "5W", assessment.Redemonstrated, false, "Circuit put together with the water chamber dry.")
	})
	day(12, 12, func() error {
		return s.withdraw(sam, "suction", "4B", assessment.Reinstated, true, "Deep suction against the ordered depth, seen on a visit. Related skills too.")
	})
	day(2, 19, func() error { // in the evening, after the day's visits
		return s.spotCheck(amal, "humidifier", "4B", missed, nil)
	})
	day(132, 10, func() error {
		return s.spotCheck(beatriz, "bagging", "9R", missed, func(id assessment.DemonstrationID) {
			s.at(s.hour(s.ago(130), 9, 0), func() error {
				return s.takeBack(id, "This was Rosa's other caregiver; the wrong name was chosen.")
			})
		})
	})
	day(182, 9, func() error { return s.takeBackLast(lucja, "Shown on the practice manikin, not with Theo as written.") })
	day(25, 9, func() error {
		return s.waive(chidi, "humidifier", "3F", "Kai is on an exchanger until the heater is back from repair.")
	})
	day(300, 9, func() error { return s.waive(imre, "go-bag", "9R", "No outings planned until spring.") })
}

func (s *story) form(name, skill, child, reason string, by *educator) office.ExceptionForm {
	return office.ExceptionForm{Person: s.learnerNamed(name).Person, Skill: skill, Client: s.childWith(child).id, Reason: reason,
		Proof: office.ByPassword(by.secret)}
}

func (s *story) withdraw(name, skill, child string, until assessment.Until, related bool, reason string) error {
	by := s.educators[0]
	if err := s.office.Withdraw(s.ctx, by.Actor, s.form(name, skill, child, reason, by), until, related); err != nil {
		return fmt.Errorf("withdraw %s from %s: %w", skill, name, err)
	}
	s.result.Counts.Withdrawals++
	return nil
}

// reinstate lifts what stands against somebody in a skill.
func (s *story) reinstate(name, skill, child, reason string) error {
	by := s.educators[3]
	v, err := s.office.Standing(s.ctx, by.Actor, s.learnerNamed(name).Person, skill, s.childWith(child).id, s.day())
	if err != nil {
		return err
	}
	for _, id := range v.Because {
		if err := s.office.Reinstate(s.ctx, by.Actor, assessment.RecordID(id), reason, office.ByPassword(by.secret)); err != nil {
			return fmt.Errorf("reinstate %s: %w", name, err)
		}
	}
	return nil
}

func (s *story) waive(name, skill, child, reason string) error {
	by := s.educators[2]
	err := s.office.Waive(s.ctx, by.Actor, s.form(name, skill, child, reason, by), s.day().String(), s.day().AddDays(85).String())
	if err != nil {
		return fmt.Errorf("waive %s for %s: %w", skill, name, err)
	}
	s.result.Counts.Waivers++
	return nil
}

// spotCheck has somebody show a skill out of turn, and something goes wrong.
func (s *story) spotCheck(name, skill, child string, what wrong, then func(assessment.DemonstrationID)) error {
	l := s.learnerNamed(name)
	observer, t := s.observer(l, s.clock)
	w := &showing{learner: l, course: l.course(skill, child), observer: observer, at: t, formal: true, real: true,
		how: manner{wrong: what, chance: l.chance}, then: then}
	observer.busy = t.Add(w.takes())
	s.show(w)
	return nil
}

func (l *learner) course(skill, child string) course {
	for _, c := range l.courses {
		if c.code == skill && c.child.code == child {
			return c
		}
	}
	panic(l.Name + " does not learn " + skill + " with " + child)
}

// takeBack corrects a record by somebody other than its observer, and has the
// learner seen soon after.
func (s *story) takeBack(id assessment.DemonstrationID, reason string) error {
	v, err := s.office.Demonstration(s.ctx, s.educators[0].Actor, id)
	if err != nil {
		return err
	}
	by := s.educators[1]
	if v.ObserverID == by.Person {
		by = s.educators[2]
	}
	if err := s.office.CorrectDemonstration(s.ctx, by.Actor, id, reason, office.ByPassword(by.secret)); err != nil {
		return fmt.Errorf("take back a record of %s: %w", v.Learner, err)
	}
	s.result.Counts.Corrections++
	for _, l := range s.learners {
		if l.Person == v.LearnerID {
			s.visitOn(l, s.day().AddDays(4))
		}
	}
	return nil
}

func (s *story) takeBackLast(name, reason string) error {
	return s.takeBack(s.learnerNamed(name).last, reason)
}
