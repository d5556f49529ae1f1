package web

import (
	_ "embed" // the worker
	"net/http"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const (
	learnAt = "/learn"
	keptAt  = "/learn/kept"
)

//go:embed static/learn/worker.js
var lessonWorkerBody []byte

// learn lists what the reader learns from, in their language.
func (s *Site) learn(v *visit) error {
	shelf, err := s.office.LessonShelf(v.ctx(), v.by(), v.language())
	if err != nil {
		return err
	}
	page := LearnPage{Frame: v.frame("learn"), Mine: shelf.Mine, Kept: keptAt}
	for _, l := range shelf.Lines {
		line := LearnLine{Title: l.Skill.Title}
		if l.Lesson.ID != "" {
			line.Title, line.Href, line.Tag = l.Lesson.Title, learnAt+"/"+l.Skill.Code, tagBeside(v, l.Lesson.Language)
			if l.Lesson.Language != v.language() {
				line.Only = l.Lesson.Language.Own()
			}
			page.Ready++
		}
		page.Lessons = append(page.Lessons, line)
	}
	if page.Ready > 0 {
		page.PDF = "/learn.pdf"
	}
	if v.may(assessment.EditLessons) {
		page.Write = lessonsAt
	}
	return v.show(page)
}

// tagBeside is a language where it is not that of the page.
func tagBeside(v *visit, l wording.Language) string {
	if l == v.language() {
		return ""
	}
	return string(l)
}

// lessonIn is the language that a lesson is asked for in.
func (v *visit) lessonIn() wording.Language {
	if l := known(v.query("in")); l != "" {
		return l
	}
	return v.language()
}

func (s *Site) learnSkill(v *visit) error {
	in := v.lessonIn()
	l, err := s.office.TaughtLesson(v.ctx(), v.by(), v.c.Param("code"), in)
	if err != nil {
		return err
	}
	at, asked := learnAt+"/"+l.Code, "?in="+string(l.Language)
	page := LessonPage{Frame: v.frame("learn"), Text: lessonText(l.LessonView), Reviewed: reviewed(v.words(), l), PDF: at + "/lesson.pdf" + asked, Copy: at + "/copy" + asked, Kept: keptAt, Back: learnAt}
	if l.Language != in {
		page.Only = l.Language.Own()
	}
	for _, other := range l.Languages {
		if other != l.Language {
			page.Others = append(page.Others, Tongue{other.Own(), string(other), at + "?in=" + string(other)})
		}
	}
	if l.Checklist != "" && v.may(assessment.ReadChecklists) {
		page.Checklist = "/revisions/" + string(l.Checklist)
	}
	return v.show(page)
}

// reviewed says by whom a lesson was reviewed, and its translation.
func reviewed(say wording.Words, l office.TaughtLesson) []string {
	var lines []string
	if l.InForceAt != nil {
		lines = append(lines, say.Say("Reviewed by %s, %s, on %s. Version %d.", l.InForceBy, l.Licence, civil.DayOf(*l.InForceAt, l.Zone), l.Number))
	}
	if l.Translator != "" {
		lines = append(lines, say.Say("Translation reviewed by %s.", l.Translator))
	}
	return lines
}

// lessonCopy is a lesson without anything of its reader, in one language throughout. It is
// kept on phones that others pick up too, so that no name of anybody may ever be in it.
func (s *Site) lessonCopy(v *visit) error {
	l, err := s.office.TaughtLesson(v.ctx(), v.by(), v.c.Param("code"), v.lessonIn())
	if err != nil {
		return err
	}
	bare := Frame{Language: l.Language, Demo: l.Agency.Demo}
	return v.show(LessonCopyPage{Frame: bare, Text: lessonText(l.LessonView), Reviewed: reviewed(wording.In(l.Language), l), Kept: keptAt})
}

// kept lists what the phone keeps, which the phone alone knows.
func (s *Site) kept(v *visit) error {
	bare := Frame{Language: v.lessonIn(), Demo: v.session.Agency.Demo}
	return v.show(KeptPage{Frame: bare, All: learnAt})
}

func (s *Site) lessonPDF(v *visit) error {
	body, name, err := s.opt.Papers.Lesson(v.ctx(), v.by(), v.c.Param("code"), v.lessonIn())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

func (s *Site) lessonsPDF(v *visit) error {
	body, name, err := s.opt.Papers.Lessons(v.ctx(), v.by(), v.lessonIn())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

// lessonWorker is the service worker that shows kept lessons with the network off. Its
// scope is the list too, which lies above its own folder (Service Workers, 6.1).
func (s *Site) lessonWorker(v *visit) error {
	h := v.c.Writer.Header()
	h.Set("Service-Worker-Allowed", learnAt)
	h.Set("Cache-Control", "no-store")
	v.c.Data(http.StatusOK, contentType("worker.js"), lessonWorkerBody)
	return nil
}
