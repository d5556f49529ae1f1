package demo

import (
	"fmt"

	"wellshown/assessment/office"
)

// theTranslator has reviewed the Spanish lessons.
const theTranslator = "Rocío Ibarra, certified medical translator"

// planLessons puts the starter lessons in force, in both languages.
func (s *story) planLessons() {
	s.at(s.hour(s.ago(45), 9, 0), func() error {
		by := s.educators[0]
		if _, err := s.office.TakeStarterLessons(s.ctx, by.Actor, "", ""); err != nil {
			return fmt.Errorf("take the starter lessons: %w", err)
		}
		all, err := s.office.Lessons(s.ctx, by.Actor)
		if err != nil {
			return fmt.Errorf("list the lessons: %w", err)
		}
		for _, of := range all.Skills {
			for _, l := range of.Lines {
				if l.Draft.ID == "" {
					continue
				}
				err := s.office.PutLessonInForce(s.ctx, by.Actor, office.ForceLessonForm{Lesson: l.Draft.ID, Version: l.Draft.Version, Translator: theTranslator,
					Statement: "Every sentence and drawing, against our orders, our equipment and local rules.", Proof: office.ByPassword(by.secret)})
				if err != nil {
					return fmt.Errorf("put the lesson of %s in force: %w", of.Skill.Code, err)
				}
			}
		}
		return nil
	})
}
