package office

import (
	"cmp"
	"context"
	"crypto/sha256"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/lesson"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// TakeStarterLessons takes the starter lessons of the agency's skills as drafts wherever
// there is no lesson yet, and says how many. A code and a language narrow it to one.
func (o *Office) TakeStarterLessons(ctx context.Context, by assessment.Actor, code string, in wording.Language) (int, error) {
	taken := 0
	err := o.as(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		have, err := tx.Lessons.List(ctx)
		if err != nil {
			return err
		}
		taken = 0
		for _, s := range skills {
			if code != "" && s.Code != code {
				continue
			}
			n, err := o.takeStarters(ctx, tx, now, by, s, have, in)
			if err != nil {
				return err
			}
			taken += n
		}
		if taken == 0 && code != "" {
			return fault.Of(fault.Conflict, "There is a lesson of this skill already, or no starter lesson. Go on with the one that is there.")
		}
		return nil
	})
	return taken, err
}

func (o *Office) takeStarters(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, s postgres.Skill, have []postgres.Lesson, only wording.Language) (int, error) {
	taken := 0
	for _, in := range wording.Languages {
		there := slices.ContainsFunc(have, func(l postgres.Lesson) bool { return l.SkillID == s.ID && l.Language == string(in) })
		src, err := catalog.LessonSource(s.Code, in)
		if only != "" && in != only || there || fault.KindOf(err) == fault.NotFound {
			continue
		}
		if err != nil {
			return taken, err
		}
		n := postgres.Lesson{SkillID: s.ID, Code: s.Code, Language: string(in), Number: 1, Source: string(src), WrittenIn: string(wording.English), Starter: true}
		if _, err := o.addLessonDraft(ctx, tx, now, by, n); err != nil {
			return taken, err
		}
		taken++
	}
	return taken, nil
}

// addLessonDraft keeps a text as a draft.
func (o *Office) addLessonDraft(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, n postgres.Lesson) (postgres.Lesson, error) {
	text, err := lesson.Read([]byte(n.Source))
	if err != nil {
		return n, err
	}
	if n.ID, err = newID[assessment.LessonID](o, now.At); err != nil {
		return n, err
	}
	sum := sha256.Sum256([]byte(n.Source))
	n.State, n.Title, n.SHA256, n.DraftedAt, n.DraftedBy = assessment.Draft, text.Title, sum[:], now.At, by.Name
	if err := tx.Lessons.AddDraft(ctx, n, by.Person); err != nil {
		return n, err
	}
	return n, o.note(ctx, tx, now, by, assessment.EditLessons, "lesson", string(n.ID))
}

// DraftLesson drafts the next version for a skill in a language: from the newest one, else
// from the starter lesson, else from the one in the other language, to be translated, else
// from a few headings.
func (o *Office) DraftLesson(ctx context.Context, by assessment.Actor, skill assessment.SkillID, in wording.Language) (LessonRef, error) {
	var v LessonRef
	err := o.as(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		if !slices.Contains(wording.Languages, in) {
			return faultAt("language", "Choose one of the languages.")
		}
		s, err := tx.Checklists.Skill(ctx, skill)
		if err != nil {
			return err
		}
		if err := tx.Checklists.LockSkill(ctx, skill); err != nil {
			return err
		}
		n, err := lessonToBegin(ctx, tx, s, in)
		if err != nil {
			return err
		}
		n, err = o.addLessonDraft(ctx, tx, now, by, n)
		v = viewLesson(n)
		return err
	})
	return v, err
}

func lessonToBegin(ctx context.Context, tx *postgres.Tx, s postgres.Skill, in wording.Language) (postgres.Lesson, error) {
	n := postgres.Lesson{SkillID: s.ID, Code: s.Code, Language: string(in), Number: 1, WrittenIn: string(in)}
	versions, err := tx.Lessons.Of(ctx, s.ID, string(in))
	if err != nil {
		return n, err
	}
	if len(versions) > 0 {
		newest := versions[0]
		if newest.State == assessment.Draft {
			return n, fault.Of(fault.Conflict, "There is a draft of this lesson already. Go on with that one.")
		}
		n.Number, n.Source, n.WrittenIn, n.Starter = newest.Number+1, newest.Source, newest.WrittenIn, newest.Starter
		return n, nil
	}
	if src, err := catalog.LessonSource(s.Code, in); err == nil {
		n.Source, n.WrittenIn, n.Starter = string(src), string(wording.English), true
		return n, nil
	}
	others, err := tx.Lessons.InForce(ctx, s.Code)
	if err != nil {
		return n, err
	}
	if len(others) > 0 { // none of them is in this language
		n.Source, n.WrittenIn = others[0].Source, others[0].WrittenIn
		return n, nil
	}
	n.Source = emptyLesson(s.Title, in)
	return n, nil
}

// emptyLesson is a lesson to be filled in.
func emptyLesson(title string, in wording.Language) string {
	w := wording.In(in)
	lines := []string{"# " + title, "…", "> " + w.Say("The child’s signed orders, the maker’s instructions and what the team taught you come first. In an emergency call the local emergency number.")}
	for _, heading := range []string{w.Say("Why"), w.Say("What you need"), w.Say("Step by step"), w.Say("What can go wrong"), w.Say("When to call"), w.Say("Where this comes from")} {
		lines = append(lines, "## "+heading, "…")
	}
	return strings.Join(lines, "\n\n") + "\n"
}

// draftedLesson is a draft that is locked.
type draftedLesson struct{ postgres.Lesson }

func (d draftedLesson) version() string { return viewLesson(d.Lesson).Version }

// lockLessonDraft waits for whoever changes a lesson of the same skill, and refuses what
// is no draft.
func lockLessonDraft(ctx context.Context, tx *postgres.Tx, id assessment.LessonID) (draftedLesson, error) {
	l, err := tx.Lessons.Get(ctx, id)
	if err != nil {
		return draftedLesson{l}, err
	}
	if err := tx.Checklists.LockSkill(ctx, l.SkillID); err != nil {
		return draftedLesson{l}, err
	}
	if l, err = tx.Lessons.Get(ctx, id); err != nil {
		return draftedLesson{l}, err
	}
	return draftedLesson{l}, mustBeLessonDraft(l)
}

func mustBeLessonDraft(l postgres.Lesson) error {
	if l.State != assessment.Draft {
		return fault.Of(fault.Refused, "Version %d is %s and never changes. Draft a new one.", l.Number, l.State)
	}
	return nil
}

func errLessonSaved(l postgres.Lesson) error {
	return fault.Of(fault.Conflict, "%s has saved this draft since you read it, and it says something else now.", cmp.Or(l.DraftedBy, "Somebody"))
}

// DiscardLesson throws a draft away.
func (o *Office) DiscardLesson(ctx context.Context, by assessment.Actor, id assessment.LessonID) error {
	return o.as(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		if _, err := lockLessonDraft(ctx, tx, id); err != nil {
			return err
		}
		if err := tx.Lessons.DiscardDraft(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditLessons, "lesson", string(id))
	})
}
