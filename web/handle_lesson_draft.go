package web

import (
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/lesson"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (s *Site) lessonSource(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	l, err := s.office.Lesson(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	if l.State != assessment.Draft {
		return v.to(versionAt(id), "This version is "+string(l.State)+" and never changes. Draft the next one.")
	}
	return v.show(lessonDraftPage(v, l))
}

func lessonDraftPage(v *visit, l office.LessonView) LessonDraftPage {
	at := versionAt(l.ID)
	page := LessonDraftPage{Frame: v.frame("checklists"), Skill: l.Skill.Title, Tongue: l.Language.Own(), Tag: string(l.Language), Number: l.Number, Action: at + "/source", Source: l.Source, Version: l.Version,
		From: notIn(l.Language).Own(), Level: lessonLevel(l.Level), Text: lessonText(l), Back: at}
	if l.Translated {
		page.Translated = "yes"
	}
	return page
}

// notIn is the other language.
func notIn(in wording.Language) wording.Language {
	if in == wording.English {
		return wording.Spanish
	}
	return wording.English
}

// saveLesson saves a draft, or only shows what it would be. Whatever is wrong with it, what
// was typed stays.
func (s *Site) saveLesson(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	f := office.LessonForm{Lesson: id, Version: v.form("version"), Source: v.secret("source"), Translated: v.ticked("translated")}
	var refused error
	if v.form("do") != "look" {
		if _, refused = s.office.SaveLesson(v.ctx(), v.by(), f); refused == nil {
			return v.to(versionAt(id), "The draft is saved.")
		}
	}
	l, tried := s.office.TryLesson(v.ctx(), v.by(), f)
	if tried != nil && fault.KindOf(tried) != fault.Invalid {
		return tried
	}
	page := lessonDraftPage(v, l)
	if page.Translated = ""; f.Translated {
		page.Translated = "yes"
	}
	what := "The lesson is not saved."
	if refused == nil {
		refused, what = tried, "It could not be saved like this."
	}
	if refused != nil {
		if page.Faults, err = v.wrong(refused, what, label("source", "The lesson, in Markdown")); err != nil {
			return err
		}
	}
	if fault.KindOf(refused) == fault.Conflict && l.Version != f.Version {
		page.Changed = l.DraftedBy
	} else {
		page.Version = f.Version
	}
	if refused == nil {
		return v.show(page)
	}
	return v.again(page)
}

func (s *Site) compareLessons(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	older, err := assessment.ParseID[assessment.LessonID](v.query("with"))
	if err != nil {
		return fault.Of(fault.Invalid, "Choose the version to compare with, on the page of the lesson.")
	}
	a, b, found, err := s.office.CompareLessons(v.ctx(), v.by(), older, id)
	if err != nil {
		return err
	}
	page := LessonComparePage{Frame: v.frame("checklists"), Skill: b.Skill.Title, Older: a.Number, Newer: b.Number, Action: versionAt(id) + "/compare", With: string(older), Back: versionAt(id)}
	for _, other := range b.Before {
		page.Others = append(page.Others, Option{Value: string(other.ID), Text: "version " + strconv.Itoa(other.Number) + ", " + string(other.State)})
	}
	for _, c := range found {
		page.Changes = append(page.Changes, lessonChange(c))
	}
	return v.show(page)
}

func lessonChange(c lesson.Change) Change {
	how := "changed"
	switch {
	case c.Before == "":
		how = "added"
	case c.After == "":
		how = "removed"
	}
	return Change{How: how, Where: c.Section, Before: c.Before, After: c.After}
}
