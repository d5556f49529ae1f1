package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// visitBase is where the educators start from.
const visitBase = "Office"

// planVisits says how two educators' weeks are and how long some ways are, and keeps the
// first visits that the office proposes; what else it proposes is left for whoever looks.
func (s *story) planVisits() {
	s.at(s.hour(s.today, 7, 20), func() error {
		by := s.coordinate[0].Actor
		if err := s.planWays(by); err != nil {
			return err
		}
		v, err := s.office.Visits(s.ctx, by, office.VisitQuery{})
		if err != nil {
			return fmt.Errorf("look at the visits: %w", err)
		}
		form := office.KeepVisitsForm{Version: v.Version}
		for _, p := range v.Proposed[:min(4, len(v.Proposed))] {
			form.Visits = append(form.Visits, p.Key)
		}
		if len(form.Visits) == 0 {
			return nil
		}
		if err := s.office.KeepVisits(s.ctx, by, form); err != nil {
			return fmt.Errorf("keep the first visits: %w", err)
		}
		return nil
	})
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
