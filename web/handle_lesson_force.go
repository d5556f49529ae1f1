package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// lessonForce offers to sign for a draft that was read before. Whoever comes without
// having read it as it is now is led to it.
func (s *Site) lessonForce(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.lessonForcePage(v, id)
	if err != nil {
		return err
	}
	if page.Version != v.query("read") {
		return v.to(page.Back, "Read it as it is now, then put it in force.")
	}
	return v.show(page)
}

func (s *Site) lessonForcePage(v *visit, id assessment.LessonID) (LessonForcePage, error) {
	b, err := s.office.BeforeLesson(v.ctx(), v.by(), id)
	if err != nil {
		return LessonForcePage{}, err
	}
	page := LessonForcePage{Frame: v.frame("checklists"), Skill: b.Skill.Title, Tongue: b.Language.Own(), Number: b.Number, Action: versionAt(id) + "/in-force", Version: b.Version, Replaces: b.Replaces.Number,
		Reviewer: v.by().Name, Licence: b.Licence, Now: v.instant(b.Now), Level: lessonLevel(b.Level), Text: lessonText(b.LessonView), Back: versionAt(id)}
	if b.Translated {
		page.From = b.WrittenIn.Own()
	}
	return page, nil
}

// errLessonUnread answers whoever signs without having said that they read it.
var errLessonUnread = &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.",
	Fields: map[string]string{"reviewed": "Read every sentence and look at every drawing first, then tick this."}}

func (s *Site) putLessonInForce(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	err = error(errLessonUnread)
	if v.ticked("reviewed") {
		err = s.office.PutLessonInForce(v.ctx(), v.by(), office.ForceLessonForm{Lesson: id, Version: v.form("version"), Statement: v.form("statement"), Translator: v.form("translator"), Proof: v.proof()})
	}
	if err == nil {
		return v.to(versionAt(id), "It is in force. Families find it under Lessons.")
	}
	refused := err
	var faults Faults
	if unknown := v.take(&faults, err, "It is not in force.", label("reviewed", "Your review"), label("statement", "What you reviewed"), label("translator", "Translator"), label("password", "Your password")); unknown != nil {
		return unknown
	}
	page, err := s.lessonForcePage(v, id)
	if err != nil {
		return err
	}
	page.Faults, page.Statement, page.Translator = faults, v.form("statement"), v.form("translator")
	if v.ticked("reviewed") && page.Version == v.form("version") {
		page.Reviewed = "yes"
	}
	return v.redrawn(page, refused)
}

func (s *Site) retireLesson(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	refused := s.office.RetireLesson(v.ctx(), v.by(), id, v.proof())
	if refused == nil {
		return v.to(versionAt(id), "It is retired. Nobody learns from it any more.")
	}
	faults, unknown := v.wrong(refused, "It is not retired.", label("password", "Your password"))
	if unknown != nil {
		return unknown
	}
	page, err := s.lessonVersionPage(v, id)
	if err != nil {
		return err
	}
	page.Faults = faults
	return v.redrawn(page, refused)
}
