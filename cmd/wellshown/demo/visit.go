package demo

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// A visit renews what ends within renewAhead days and shows at most mostShown
// skills.
const renewAhead, mostShown = 14, 7

// visitOn plans the next visit for a day, or sooner where it was planned later.
func (s *story) visitOn(l *learner, d civil.Date) {
	d = workday(d)
	if !l.next.IsZero() && !d.Before(l.next) && !l.next.Before(s.day()) {
		return
	}
	l.next = d
	l.turn++
	turn := l.turn
	hour := []int{9, 10, 13, 14}[l.chance.IntN(4)]
	s.beside(s.hour(d, hour, 15*l.chance.IntN(4)), func() error {
		if turn != l.turn {
			return nil
		}
		if err := s.signer.settle(l.Person); err != nil {
			return err
		}
		return s.visit(l)
	})
}

// visit asks what the learner holds, has them show what is open, and plans the
// next visit by what is then to be expected.
func (s *story) visit(l *learner) error {
	l.next = civil.Date{}
	if !l.left.IsZero() && !s.day().Before(l.left) {
		return nil
	}
	if l.awayOn(s.day()) {
		s.visitOn(l, s.day().AddDays(6))
		return nil
	}
	observer, start := s.observer(l, s.clock)
	if start.After(s.hour(s.day(), 16, 30)) {
		s.visitOn(l, s.day().AddDays(1))
		return nil
	}
	s.result.Counts.Visits++
	standings, err := s.office.StandingsOf(s.ctx, observer.Actor, l.Person, s.day())
	if err != nil {
		return err
	}
	if err := s.teach(l, observer); err != nil {
		return err
	}
	plan := s.agenda(l, standings.Rows)
	t := start
	for _, show := range plan.shows {
		show.observer, show.at = observer, t
		s.show(show)
		t = t.Add(show.takes() + 6*time.Minute)
	}
	observer.busy = t.Add(20 * time.Minute)
	s.visitOn(l, plan.next)
	return nil
}

// teach notes at the first visit what was taught before anything was shown.
func (s *story) teach(l *learner, by *educator) error {
	if l.taught || l.kind == "" {
		return nil
	}
	l.taught = true
	for _, c := range l.courses {
		_, limited := l.limits[c.code]
		if c.from.After(s.day()) || !limited && l.chance.IntN(4) > 0 {
			continue
		}
		err := s.office.Log(s.ctx, by.Actor, office.LogForm{Person: l.Person, Skill: c.code, Client: c.child.id,
			Kind: assessment.TeachingEntry, On: s.day().String(), Note: "Shown and talked through."})
		if err != nil && fault.KindOf(err) != fault.Conflict {
			return err
		}
	}
	return nil
}
