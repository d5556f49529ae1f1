package demo

import (
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// rosterWeek is the shifts of a child's week: by day on weekdays, four nights, and one
// weekend shift that nobody has taken yet.
var rosterWeek = []struct {
	days        []int
	from, until string
	open        bool
}{
	{[]int{1, 2, 3, 4, 5}, "07:00", "15:00", false},
	{[]int{1, 2, 3, 4}, "22:00", "06:00", false},
	{[]int{6}, "08:00", "16:00", true},
}

// planRoster gives the first children weekly patterns with the nurses who look after them.
// Who lapses within the next weeks breaks their shifts; the office says which.
func (s *story) planRoster() {
	s.at(s.hour(s.ago(4), 10, 30), func() error {
		by := s.coordinate[0].Actor
		if err := s.office.SetRest(s.ctx, by, "8"); err != nil {
			return fmt.Errorf("set the rest: %w", err)
		}
		for _, c := range s.children[:min(4, len(s.children))] {
			if err := s.planWeek(by, c); err != nil {
				return fmt.Errorf("plan the week of %s: %w", c.code, err)
			}
		}
		return nil
	})
}

func (s *story) planWeek(by assessment.Actor, c *child) error {
	nurses := slices.DeleteFunc(s.here(), func(l *learner) bool { return l.kind != assessment.Nurse || l.caresFor(c.code) == 0 })
	next := 0
	for _, w := range rosterWeek {
		form := office.PatternForm{Client: c.id, Kind: string(assessment.Nurse), Weekdays: w.days, From: w.from, Until: w.until, FromOn: s.day().String()}
		if w.open {
			if _, err := s.office.AddPattern(s.ctx, by, form); err != nil {
				return err
			}
			continue
		}
		for ; next < len(nurses); next++ {
			form.Person = nurses[next].Person
			_, err := s.office.AddPattern(s.ctx, by, form)
			if kind := fault.KindOf(err); kind == fault.Refused || kind == fault.Invalid { // elsewhere at the time
				continue
			}
			if err != nil {
				return err
			}
			next++
			break
		}
	}
	return nil
}
