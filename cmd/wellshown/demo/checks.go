package demo

import (
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
)

// planChecks has three skills asked about, to learn: so nobody's demonstrations wait for a
// check. The mother of the child that goes home passes one, and another at the second try; a
// father is half done, a grandmother has just failed her first, and a nurse has passed.
func (s *story) planChecks() {
	s.at(s.hour(s.ago(44), 9, 0), s.askChecks)
	for _, sat := range []struct {
		ago, hour int
		who, of   string
		missed    int // the last questions are left without an answer; less than 0: it goes on after so many
	}{
		{16, 19, ines, "suction", 0}, {4, 19, ines, "decannulation", 3}, {2, 20, ines, "decannulation", 0}, {1, 21, tomasz, "bagging", -4},
		{1, 18, theGrandmother, "suction", 4}, {30, 13, minh, "bagging", 1},
	} {
		s.at(s.hour(s.ago(sat.ago), sat.hour, 5), func() error { return s.sit(sat.who, sat.of, sat.missed) })
	}
}

// askChecks takes the starter items in, and sets a rule of each.
func (s *story) askChecks() error {
	by := s.educators[0].Actor
	for _, code := range []string{"suction", "bagging", "decannulation"} {
		if _, err := s.office.TakeStarterItems(s.ctx, by, code); err != nil {
			return fmt.Errorf("take the items of %s: %w", code, err)
		}
		if err := s.office.SetCheckRule(s.ctx, by, office.RuleForm{Skill: code, Asked: string(knowledge.ToLearn), Length: "10", PassMark: "9/10", Months: "12", WaitHours: "24", Tries: "3"}); err != nil {
			return fmt.Errorf("ask the check of %s: %w", code, err)
		}
	}
	return nil
}

// sit has somebody take a check.
func (s *story) sit(name, code string, missed int) error {
	l := s.learnerNamed(name)
	id, err := s.office.BeginCheck(s.ctx, l.Actor, code, languageOf(name))
	if err != nil {
		return fmt.Errorf("begin the check of %s with %s: %w", code, name, err)
	}
	v, err := s.office.Sitting(s.ctx, l.Actor, id)
	if err != nil {
		return err
	}
	last := len(v.Questions) - missed
	if missed < 0 {
		last = -missed
	}
	for _, q := range v.Questions[:last] {
		if err := s.office.AnswerItem(s.ctx, l.Actor, knows(id, q)); err != nil {
			return fmt.Errorf("answer question %d of %s: %w", q.Place, code, err)
		}
	}
	if missed < 0 {
		return nil
	}
	return s.office.HandIn(s.ctx, l.Actor, id)
}

// knows is the right answer, as it is seen.
func knows(id assessment.RecordID, q office.Question) office.AnswerForm {
	f := office.AnswerForm{Sitting: id, Place: q.Place}
	switch q.Item.Kind {
	case knowledge.Numeric:
		f.Value, f.Unit = q.Item.Low.String(), q.Item.Unit
	case knowledge.Single, knowledge.Multiple:
		f.Chosen = knowledge.Places(q.Shown, q.Item.Right)
	default:
		f.Chosen = knowledge.Places(q.Shown, slices.Sorted(slices.Values(q.Shown)))
	}
	return f
}

// languageOf is the language that somebody of the cast reads.
func languageOf(name string) string {
	i := slices.IndexFunc(theCaregivers, func(c caregiver) bool { return c.name == name })
	return theCaregivers[i].language
}
