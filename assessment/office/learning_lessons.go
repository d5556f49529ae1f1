package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// LessonShelf is what somebody can learn from, in teaching order.
type LessonShelf struct {
	Lines []ShelfLesson
	Mine  bool // of the skills that are asked of the reader; else of all
}

// ShelfLesson is a skill with the lesson in the reader's language, else in the one there
// is; none of them is a draft.
type ShelfLesson struct {
	Skill  SkillRef
	Lesson LessonRef // empty: none in any language
}

// LessonShelf lists the lessons in force, for a caregiver those of the skills that are
// asked of them.
func (o *Office) LessonShelf(ctx context.Context, by assessment.Actor, in wording.Language) (LessonShelf, error) {
	var v LessonShelf
	err := o.as(ctx, by, assessment.ReadLessons, func(tx *postgres.Tx, now Moment) error {
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		all, err := tx.Lessons.List(ctx)
		if err != nil {
			return err
		}
		asked, err := o.askedOf(ctx, tx, now, by)
		if err != nil {
			return err
		}
		v = LessonShelf{Mine: asked != nil}
		for _, s := range skills {
			if asked != nil && !asked[s.Code] {
				continue
			}
			line := ShelfLesson{Skill: SkillRef{s.ID, s.Code, s.Title}}
			if l := readIn(all, s.ID, in); l.ID != "" {
				line.Lesson = viewLesson(l)
			}
			if asked != nil || line.Lesson.ID != "" {
				v.Lines = append(v.Lines, line)
			}
		}
		return nil
	})
	return v, err
}

// askedOf are the codes of the skills that somebody must hold; nil for whoever has
// another part in the agency than looking after a child.
func (o *Office) askedOf(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) (map[string]bool, error) {
	for _, r := range by.Roles {
		if r != assessment.Caregiver {
			return nil, nil
		}
	}
	if by.Program != nil {
		return nil, nil
	}
	needs, err := o.needsOfAll(ctx, tx, now.Today)
	if err != nil {
		return nil, err
	}
	asked := map[string]bool{}
	for _, n := range needs[by.Person] {
		asked[n.Skill] = true
	}
	return asked, nil
}

// readIn is the lesson in force in a language, else in English, else in any.
func readIn(all []postgres.Lesson, skill assessment.SkillID, in wording.Language) postgres.Lesson {
	var found postgres.Lesson
	for _, l := range all {
		switch {
		case l.SkillID != skill || l.State != assessment.InForce:
		case l.Language == string(in):
			return l
		case found.ID == "" || l.Language == string(wording.English):
			found = l
		}
	}
	return found
}

// TaughtLesson is a lesson in force, for whoever learns from it.
type TaughtLesson struct {
	LessonView
	Languages []wording.Language    // in which there is one
	Checklist assessment.RevisionID // by which the skill is shown; empty: none in force
}

// TaughtLesson is the lesson of a skill in a language, else in the one there is.
func (o *Office) TaughtLesson(ctx context.Context, by assessment.Actor, code string, in wording.Language) (TaughtLesson, error) {
	var v TaughtLesson
	err := o.as(ctx, by, assessment.ReadLessons, func(tx *postgres.Tx, now Moment) (err error) {
		v, err = o.taught(ctx, tx, now, code, in)
		return err
	})
	return v, err
}

func (o *Office) taught(ctx context.Context, tx *postgres.Tx, now Moment, code string, in wording.Language) (TaughtLesson, error) {
	var v TaughtLesson
	all, err := tx.Lessons.InForce(ctx, code)
	if err != nil {
		return v, err
	}
	if len(all) == 0 {
		return v, fault.Of(fault.NotFound, "There is no such lesson.")
	}
	if v.LessonView, err = o.openLesson(ctx, tx, now, readIn(all, all[0].SkillID, in)); err != nil {
		return v, err
	}
	for _, l := range all {
		v.Languages = append(v.Languages, wording.Of(l.Language))
	}
	inForce, err := inForceOf(ctx, tx, v.Skill.ID)
	v.Checklist = inForce.ID
	return v, err
}

// TaughtLessons are all lessons that LessonShelf lists, whole, for paper.
func (o *Office) TaughtLessons(ctx context.Context, by assessment.Actor, in wording.Language) ([]TaughtLesson, error) {
	shelf, err := o.LessonShelf(ctx, by, in)
	if err != nil {
		return nil, err
	}
	var all []TaughtLesson
	err = o.as(ctx, by, assessment.ReadLessons, func(tx *postgres.Tx, now Moment) error {
		all = nil
		for _, line := range shelf.Lines {
			if line.Lesson.ID == "" {
				continue
			}
			v, err := o.taught(ctx, tx, now, line.Skill.Code, in)
			if err != nil {
				return fmt.Errorf("read the lesson of %s: %w", line.Skill.Code, err)
			}
			all = append(all, v)
		}
		if len(all) == 0 {
			return fault.Of(fault.Refused, "There is no lesson to print yet.")
		}
		return nil
	})
	return all, err
}
