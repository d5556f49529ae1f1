package office

import (
	"context"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/lesson"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
)

// LessonForm is a draft as somebody has written it anew.
type LessonForm struct {
	Lesson     assessment.LessonID
	Version    string // of the text that it was made from, as a LessonRef tells it
	Source     string // Markdown
	Translated bool   // from the other language
}

// text is the source with the line ends of ours.
func (f LessonForm) text() string { return strings.ReplaceAll(f.Source, "\r\n", "\n") }

// SaveLesson puts a text in place of a draft, as long as the draft is still what it was
// made from. What cannot be read as a lesson, or shows what nobody has drawn, is refused.
func (o *Office) SaveLesson(ctx context.Context, by assessment.Actor, f LessonForm) (LessonRef, error) {
	var v LessonRef
	if err := by.May(assessment.EditLessons); err != nil {
		return v, err
	}
	text, err := readLesson(f.text())
	if err != nil {
		return v, err
	}
	err = o.as(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		n, err := lockLessonDraft(ctx, tx, f.Lesson)
		if err != nil {
			return err
		}
		if n.version() != f.Version {
			return errLessonSaved(n.Lesson)
		}
		if err := allDrawn(ctx, tx, text); err != nil {
			return err
		}
		n.Title, n.Source, n.DraftedAt, n.WrittenIn = text.Title, f.text(), now.At, n.Language
		if f.Translated {
			n.WrittenIn = string(otherLanguage(wording.Of(n.Language)))
		}
		if err := tx.Lessons.SaveDraft(ctx, n.Lesson, by.Person); err != nil {
			return err
		}
		kept, err := tx.Lessons.Get(ctx, f.Lesson)
		if err != nil {
			return err
		}
		v = viewLesson(kept)
		return o.note(ctx, tx, now, by, assessment.EditLessons, "lesson", string(f.Lesson))
	})
	return v, err
}

// otherLanguage is the one that a translation was made from.
func otherLanguage(in wording.Language) wording.Language {
	if in == wording.English {
		return wording.Spanish
	}
	return wording.English
}

// readLesson reads a text; what is wrong with it is the fault of the field source.
func readLesson(source string) (lesson.Lesson, error) {
	var faults form
	l, err := lesson.Read([]byte(source))
	faults.Take("source", err)
	return l, faults.Err()
}

// allDrawn refuses a lesson that shows a drawing nobody has added.
func allDrawn(ctx context.Context, tx *postgres.Tx, l lesson.Lesson) error {
	all, err := drawingsFor(ctx, tx, l)
	if err != nil {
		return err
	}
	if none := all.lacking(l); len(none) > 0 {
		return faultAt("source", "There is no drawing "+strings.Join(none, ", ")+". Add it first, or take it out of the text.")
	}
	return nil
}

// TryLesson reads a text as it would be saved, for its author to look at: what it says and
// shows, how hard it is to read. What it would be refused for comes beside it. Nothing
// is kept.
func (o *Office) TryLesson(ctx context.Context, by assessment.Actor, f LessonForm) (LessonView, error) {
	v, err := o.Lesson(ctx, by, f.Lesson)
	if err != nil {
		return v, err
	}
	v.Source = f.text()
	if v.Text, err = readLesson(v.Source); err != nil {
		v.Text, v.Level, v.Drawings = lesson.Lesson{}, v.Text.Level(string(v.Language)), nil
		return v, err
	}
	v.Level = v.Text.Level(string(v.Language))
	err = o.before(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		if v.Drawings, err = drawingsFor(ctx, tx, v.Text); err != nil {
			return err
		}
		return allDrawn(ctx, tx, v.Text)
	})
	return v, err
}
