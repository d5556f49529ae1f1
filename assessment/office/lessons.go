package office

import (
	"context"
	"encoding/hex"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/lesson"
	"wellshown/assessment/postgres"
	"wellshown/assessment/reading"
	"wellshown/assessment/wording"
)

// LessonRef is one version of a lesson, without its text.
type LessonRef struct {
	ID         assessment.LessonID
	Code       string // of the skill
	Language   wording.Language
	Number     int
	State      assessment.State
	Title      string
	Version    string // the same for the same text, another for every other
	Translated bool   // it was first written in another language
	WrittenIn  wording.Language
	Starter    bool // it began as a starter lesson
	DraftedAt  time.Time
	DraftedBy  string
	InForceAt  *time.Time
	InForceBy  string // who signed that they reviewed it
	Licence    string // theirs
	Statement  string // what they reviewed
	Translator string // who reviewed the translation; empty for what is none
	RetiredAt  *time.Time
}

func viewLesson(l postgres.Lesson) LessonRef {
	return LessonRef{ID: l.ID, Code: l.Code, Language: wording.Of(l.Language), Number: l.Number, State: l.State, Title: l.Title, Version: hex.EncodeToString(l.SHA256),
		Translated: l.Language != l.WrittenIn, WrittenIn: wording.Of(l.WrittenIn), Starter: l.Starter, DraftedAt: l.DraftedAt, DraftedBy: l.DraftedBy,
		InForceAt: l.InForceAt, InForceBy: l.InForceBy, Licence: l.Licence, Statement: l.Statement, Translator: l.Translator, RetiredAt: l.RetiredAt}
}

// LessonsDesk is what the agency teaches by, and what it could.
type LessonsDesk struct {
	Skills   []LessonsOf
	Drawings []postgres.Drawing // of the agency
	Starters int                // starter lessons of our skills that were never taken up
}

// LessonsOf is a skill with its lessons, one line a language.
type LessonsOf struct {
	Skill SkillRef
	Lines []LessonLine
}

// LessonLine is where the lesson of a skill in a language stands.
type LessonLine struct {
	Language wording.Language
	InForce  LessonRef // empty: none
	Draft    LessonRef // empty: none
	Level    reading.Level
	Starter  bool // there is a starter lesson to begin with, and nothing yet
}

// Lessons lists for each skill what there is to learn from, in each language.
func (o *Office) Lessons(ctx context.Context, by assessment.Actor) (LessonsDesk, error) {
	var d LessonsDesk
	err := o.before(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return err
		}
		all, err := tx.Lessons.Working(ctx)
		if err != nil {
			return err
		}
		d = LessonsDesk{}
		if d.Drawings, err = tx.Lessons.Drawings(ctx); err != nil {
			return err
		}
		for _, s := range skills {
			of := LessonsOf{Skill: SkillRef{s.ID, s.Code, s.Title}}
			for _, in := range wording.Languages {
				line, err := lessonLine(all, s, in)
				if err != nil {
					return err
				}
				if line.Starter {
					d.Starters++
				}
				of.Lines = append(of.Lines, line)
			}
			d.Skills = append(d.Skills, of)
		}
		return nil
	})
	return d, err
}

// lessonLine finds what there is; its level is that of what is in force, else of the draft.
func lessonLine(all []postgres.Lesson, s postgres.Skill, in wording.Language) (LessonLine, error) {
	line := LessonLine{Language: in}
	var measured string
	for _, l := range all {
		if l.SkillID != s.ID || l.Language != string(in) {
			continue
		}
		if l.State == assessment.InForce {
			line.InForce, measured = viewLesson(l), l.Source
			continue
		}
		line.Draft = viewLesson(l)
		if measured == "" {
			measured = l.Source
		}
	}
	if measured == "" {
		_, err := catalog.LessonSource(s.Code, in)
		line.Starter = err == nil
		return line, nil
	}
	text, err := lesson.Read([]byte(measured))
	line.Level = text.Level(string(in))
	return line, err
}

// LessonView is one version with all that it says and shows.
type LessonView struct {
	LessonRef
	Skill    SkillRef
	Source   string // Markdown
	Text     lesson.Lesson
	Drawings Drawings
	Level    reading.Level
	Agency   AgencyView
	Zone     *time.Location
	Before   []LessonRef // other versions of the same skill and language, the newest first
}

// Lesson is one version, to be read by whoever writes lessons.
func (o *Office) Lesson(ctx context.Context, by assessment.Actor, id assessment.LessonID) (LessonView, error) {
	var v LessonView
	err := o.before(ctx, by, assessment.EditLessons, func(tx *postgres.Tx, now Moment) error {
		l, err := tx.Lessons.Get(ctx, id)
		if err != nil {
			return err
		}
		if v, err = o.openLesson(ctx, tx, now, l); err != nil {
			return err
		}
		others, err := tx.Lessons.Of(ctx, l.SkillID, l.Language)
		for _, other := range others {
			if other.ID != id {
				v.Before = append(v.Before, viewLesson(other))
			}
		}
		return err
	})
	return v, err
}

// openLesson reads a version with its drawings.
func (o *Office) openLesson(ctx context.Context, tx *postgres.Tx, now Moment, l postgres.Lesson) (LessonView, error) {
	v := LessonView{LessonRef: viewLesson(l), Source: l.Source, Agency: viewAgency(now.Agency), Zone: now.Zone}
	skill, err := tx.Checklists.Skill(ctx, l.SkillID)
	if err != nil {
		return v, err
	}
	v.Skill = SkillRef{skill.ID, skill.Code, skill.Title}
	if v.Text, err = lesson.Read([]byte(l.Source)); err != nil {
		return v, err
	}
	v.Level = v.Text.Level(l.Language)
	v.Drawings, err = drawingsFor(ctx, tx, v.Text)
	return v, err
}

// CompareLessons tells two versions of one skill in one language apart.
func (o *Office) CompareLessons(ctx context.Context, by assessment.Actor, older, newer assessment.LessonID) (a, b LessonView, changes []lesson.Change, err error) {
	if a, err = o.Lesson(ctx, by, older); err != nil {
		return a, b, nil, err
	}
	if b, err = o.Lesson(ctx, by, newer); err != nil {
		return a, b, nil, err
	}
	if a.Skill.ID != b.Skill.ID || a.Language != b.Language {
		return a, b, nil, faultAt("with", "Choose a version of the same lesson.")
	}
	return a, b, lesson.Compare(a.Text, b.Text), nil
}
