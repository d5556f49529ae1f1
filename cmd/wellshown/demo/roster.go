package demo

import (
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// rosterWeek are the shifts of a child's week: by day on weekdays, four nights, and one at
// the weekend.
var rosterWeek = []struct {
	days        []int
	from, until string
}{
	{[]int{1, 2, 3, 4, 5}, "07:00", "15:00"},
	{[]int{1, 2, 3, 4}, "22:00", "06:00"},
	{[]int{6}, "08:00", "16:00"},
}

// planRoster gives the first children weekly patterns with whoever the office says could
// take them, and leaves open what nobody could. One day is given to a nurse who is not
// current yet, so that its shifts break.
func (s *story) planRoster() {
	s.at(s.hour(s.ago(4), 10, 30), func() error {
		by := s.coordinate[0].Actor
		if err := s.office.SetRest(s.ctx, by, "8"); err != nil {
			return fmt.Errorf("set the rest: %w", err)
		}
		for i, c := range s.children[:min(4, len(s.children))] {
			if err := s.planWeek(by, c, i == 0); err != nil {
				return fmt.Errorf("plan the week of %s: %w", c.code, err)
			}
		}
		return nil
	})
}

func (s *story) planWeek(by assessment.Actor, c *child, breaking bool) error {
	for _, w := range rosterWeek {
		form := office.PatternForm{Client: c.id, Kind: string(assessment.Nurse), Weekdays: w.days, From: w.from, Until: w.until, FromOn: s.day().String()}
		id, err := s.office.AddPattern(s.ctx, by, form)
		if err != nil {
			return err
		}
		form.Person, err = s.whoCould(by, id, w.days)
		if err != nil {
			return err
		}
		if form.Person == "" {
			continue
		}
		roster, err := s.office.ClientRoster(s.ctx, by, c.id)
		if err != nil {
			return err
		}
		for _, p := range roster.Patterns {
			if p.ID == id {
				form.Version = p.Version
			}
		}
		if _, err := s.office.ChangePattern(s.ctx, by, id, form); err != nil {
			return err
		}
	}
	if breaking {
		return s.planBreaking(by, c)
	}
	return nil
}

// whoCould is who the office names first for the first shift of a pattern; nobody for none.
func (s *story) whoCould(by assessment.Actor, id assessment.PatternID, days []int) (assessment.PersonID, error) {
	desk, err := s.firstShift(by, id, days)
	if err != nil || len(desk.Able) == 0 {
		return "", err
	}
	return desk.Able[0].Person.ID, nil
}

func (s *story) firstShift(by assessment.Actor, id assessment.PatternID, days []int) (office.ShiftDesk, error) {
	on := s.day().AddDays(1)
	for !fallsOn(on, days) {
		on = on.AddDays(1)
	}
	return s.office.ShiftDesk(s.ctx, by, assessment.Pattern{ID: id}.ShiftID(on))
}

func fallsOn(d civil.Date, days []int) bool {
	for _, day := range days {
		if day%7 == int(d.Weekday()) {
			return true
		}
	}
	return false
}

// planBreaking has a nurse who does not hold all of it on a shift of Sundays.
func (s *story) planBreaking(by assessment.Actor, c *child) error {
	days := []int{7}
	form := office.PatternForm{Client: c.id, Kind: string(assessment.Nurse), Weekdays: days, From: "09:00", Until: "17:00", FromOn: s.day().String()}
	id, err := s.office.AddPattern(s.ctx, by, form)
	if err != nil {
		return err
	}
	desk, err := s.firstShift(by, id, days)
	if err != nil {
		return err
	}
	for _, n := range desk.Not {
		if n.Why != assessment.NotHeld {
			continue
		}
		roster, err := s.office.ClientRoster(s.ctx, by, c.id)
		if err != nil {
			return err
		}
		for _, p := range roster.Patterns {
			if p.ID == id {
				form.Person, form.Version = n.Person.ID, p.Version
			}
		}
		_, err = s.office.ChangePattern(s.ctx, by, id, form)
		return err
	}
	return nil
}
