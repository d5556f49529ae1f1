package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// visitBase is where the educators start from.
const visitBase = "Office"

// planVisits says how two educators' weeks are and how long some ways are, and plans the
// first visits that the office proposes for the coming days; what else it proposes is left
// for whoever looks.
func (s *story) planVisits() {
	s.at(s.hour(s.ago(1), 15, 20), func() error {
		by := s.coordinate[0].Actor
		if err := s.planWays(by); err != nil {
			return err
		}
		v, err := s.office.Visits(s.ctx, by, office.VisitQuery{})
		if err != nil {
			return fmt.Errorf("look at the visits: %w", err)
		}
		for i, p := range v.Proposed[:min(3, len(v.Proposed))] {
			if err := s.planVisit(by, p, i); err != nil {
				return fmt.Errorf("plan a visit to %s: %w", p.Client.Code, err)
			}
		}
		return nil
	})
}

// planVisit plans a proposed visit for the first day from the next but so many on which it
// can be made.
func (s *story) planVisit(by assessment.Actor, p office.HomeVisitView, after int) error {
	var refused error
	for day := 1 + after; day < 8+after; day++ {
		f := office.VisitForm{Client: p.Client.ID, Educator: p.Educator.ID, On: s.today.AddDays(day).String()}
		if _, refused = s.office.PlanVisit(s.ctx, by, f); refused == nil || fault.KindOf(refused) != fault.Refused {
			return refused
		}
	}
	return refused
}

func (s *story) planWays(by assessment.Actor) error {
	weeks := []office.AvailabilityForm{{DaysOff: []int{6, 7}, PerDay: "3", Base: visitBase}, {DaysOff: []int{3, 6, 7}, PerDay: "2", Base: visitBase}}
	for i, w := range weeks[:min(len(weeks), len(s.educators))] {
		if err := s.office.SetAvailability(s.ctx, by, s.educators[i].Person, w); err != nil {
			return fmt.Errorf("say how the weeks of %s are: %w", s.educators[i].Name, err)
		}
	}
	for i, c := range s.children[:min(4, len(s.children))] {
		if err := s.office.SetTravelTime(s.ctx, by, office.TravelForm{From: c.id, Base: visitBase, Minutes: fmt.Sprint(15 + 10*i)}); err != nil {
			return fmt.Errorf("say how long the way to %s is: %w", c.code, err)
		}
	}
	return nil
}
