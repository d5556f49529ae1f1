package demo

import (
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// homecoming is a child's way home as the scenario has it.
type homecoming struct {
	child   *child
	starts  int // days ago that the plan is made
	hours   int // planned for the independent stay
	stayed  int // hours of it; 0: not begun
	waits   string
	waived  string
	nurses  [2]string
	shiftIn int // days until the first early shift
}

// planHome plans the way home of two children: Mira's plan is partly met, Anouk
// can go.
func (s *story) planHome() {
	mira := homecoming{child: s.childWith(GoingHome), starts: 33, hours: 24, waits: "oxygen for emergencies", nurses: [2]string{ruth, zofia}, shiftIn: 6}
	anouk := homecoming{child: s.childWith("8M"), starts: 45, hours: 48, stayed: 50, waived: "nebuliser", nurses: [2]string{thora, minh}, shiftIn: 3}
	s.result.GoingHome, s.result.Ready = mira.child.code, anouk.child.code
	for _, h := range []homecoming{mira, anouk} {
		s.at(s.hour(s.ago(h.starts), 10, 0), func() error { return s.startPlan(h) })
		for _, name := range h.nurses { // current through the first shifts
			for _, ago := range []int{12, 8, 5} {
				s.at(s.hour(s.ago(ago), 8, 5), func() error { s.visitOn(s.learnerNamed(name), s.day()); return nil })
			}
		}
	}
}

func (s *story) startPlan(h homecoming) error {
	by := s.educators[0]
	if err := s.office.StartPlan(s.ctx, by.Actor, h.child.id); err != nil {
		return fmt.Errorf("start the plan of %s: %w", h.child.code, err)
	}
	home := s.today.AddDays(h.shiftIn)
	if err := s.office.SetPlanDays(s.ctx, by.Actor, h.child.id, office.PlanDaysForm{Meeting: home.AddDays(-2).String(), Home: home.String()}); err != nil {
		return fmt.Errorf("set when %s goes home: %w", h.child.code, err)
	}
	v, err := s.office.Readiness(s.ctx, by.Actor, h.child.id, time.Time{})
	if err != nil {
		return err
	}
	for i, line := range v.Lines {
		if err := s.follow(h, line.Criterion, i); err != nil {
			return err
		}
	}
	return nil
}

// follow plans what is to be said about one line of a plan.
func (s *story) follow(h homecoming, c assessment.Criterion, i int) error {
	switch c.Kind {
	case assessment.IndependentStay:
		err := s.office.EditCriterion(s.ctx, s.educators[0].Actor, c.ID, office.CriterionForm{Title: c.Title, Hours: h.hours})
		if err != nil {
			return fmt.Errorf("set the planned hours: %w", err)
		}
		if h.stayed > 0 {
			s.stretch(c.ID, s.hour(s.ago(9), 8, 0), h.stayed)
		}
	case assessment.EquipmentTrial:
		s.stretch(c.ID, s.hour(s.ago(16), 10, 0), 40)
	case assessment.EquipmentHome:
		s.deliver(h, c)
	case assessment.EarlyShifts:
		s.at(s.hour(s.ago(4), 11, 30), func() error { return s.planShifts(h) })
	case assessment.Attested:
		s.say(s.hour(s.ago(25-i), 14, 0), office.EvidenceForm{Criterion: c.ID, Word: string(assessment.EvidenceMet)})
	}
	return nil
}

// say has an educator state something at an instant.
func (s *story) say(at time.Time, f office.EvidenceForm) {
	s.at(at, func() error {
		if err := s.office.AddEvidence(s.ctx, s.educators[0].Actor, f); err != nil {
			return fmt.Errorf("state that it is %s: %w", f.Word, err)
		}
		return nil
	})
}

func (s *story) stretch(id assessment.CriterionID, from time.Time, hours int) {
	s.say(from, office.EvidenceForm{Criterion: id, Word: string(assessment.EvidenceStarted)})
	s.say(from.Add(time.Duration(hours)*time.Hour), office.EvidenceForm{Criterion: id, Word: string(assessment.EvidenceEnded), Note: "Without a break."})
}

// deliver brings each item home and has it checked, but for one that waits and
// one that is not ordered.
func (s *story) deliver(h homecoming, c assessment.Criterion) {
	for i, item := range c.Items {
		if item == h.waived {
			s.at(s.hour(s.ago(20), 10, 0), func() error {
				return s.office.WaiveCriterion(s.ctx, s.educators[2].Actor, c.ID, item, "Not ordered for "+h.child.name+".")
			})
			continue
		}
		came := s.hour(s.ago(22-i), 13, 10)
		s.say(came, office.EvidenceForm{Criterion: c.ID, Item: item, Word: string(assessment.EvidenceDelivered)})
		if item != h.waits {
			s.say(came.Add(74*time.Hour), office.EvidenceForm{Criterion: c.ID, Item: item, Word: string(assessment.EvidenceMet), Note: "Set up and tried."})
		}
	}
}

// planShifts has the two nurses take turns, by day and by night.
func (s *story) planShifts(h homecoming) error {
	first := civil.Later(s.today.AddDays(h.shiftIn), s.today)
	for i := range 4 {
		who, day := s.learnerNamed(h.nurses[i%2]), first.AddDays(i/2)
		f := office.ShiftForm{Person: who.Person, Starts: day.String() + "T07:00", Ends: day.String() + "T19:00"}
		if i%2 == 1 {
			f.Starts, f.Ends = day.String()+"T19:00", day.AddDays(1).String()+"T07:00"
		}
		if _, err := s.office.PlanShift(s.ctx, s.coordinate[1].Actor, h.child.id, f); err != nil {
			return fmt.Errorf("plan a shift with %s: %w", h.child.code, err)
		}
	}
	return nil
}
