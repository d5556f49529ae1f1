package web

import (
	"fmt"
	"io"

	"wellshown/assessment"
	"wellshown/assessment/drawing"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const lessonsAt = "/lessons"

// lessons lists which skill has which lesson, for whoever writes them.
func (s *Site) lessons(v *visit) error {
	page, err := s.lessonsPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) lessonsPage(v *visit) (LessonsPage, error) {
	page := LessonsPage{Frame: v.frame("checklists")}
	d, err := s.office.Lessons(v.ctx(), v.by())
	if err != nil {
		return page, err
	}
	page.Starters = d.Starters
	for _, of := range d.Skills {
		skill := LessonSkill{Skill: of.Skill.Title}
		for _, l := range of.Lines {
			skill.Lines = append(skill.Lines, lessonLine(v, of.Skill, l))
			if l.InForce.ID != "" {
				page.InForce++
			}
			if l.Draft.ID != "" {
				page.Drafts++
			}
		}
		page.Skills = append(page.Skills, skill)
	}
	for _, k := range d.Drawings {
		line := DrawingLine{Name: k.Name + ".svg", Added: dayIn(&k.AddedAt, v.zone()) + ", " + k.AddedBy}
		if shown, err := drawing.Read([]byte(k.SVG)); err == nil {
			line.Picture = LessonPicture{Says: k.Name, Box: shown.Box(), Shapes: shapesOf(shown)}
		}
		page.Drawings = append(page.Drawings, line)
	}
	return page, nil
}

func lessonLine(v *visit, skill office.SkillRef, l office.LessonLine) LessonLine {
	level := lessonLevel(l.Level)
	line := LessonLine{Skill: skill.Title, SkillID: string(skill.ID), Language: l.Language.Own(), Tag: string(l.Language), Level: level.Grade, Hard: l.Level.Known() && !l.Level.Within(),
		Starter: l.Starter, Begin: l.Draft.ID == ""}
	if l.InForce.ID != "" {
		line.InForce, line.Href = fmt.Sprintf("version %d since %s", l.InForce.Number, dayIn(l.InForce.InForceAt, v.zone())), versionAt(l.InForce.ID)
	}
	if l.Draft.ID != "" {
		line.Draft, line.Edit = fmt.Sprintf("version %d, saved %s by %s", l.Draft.Number, dayIn(&l.Draft.DraftedAt, v.zone()), l.Draft.DraftedBy), versionAt(l.Draft.ID)
	}
	return line
}

func versionAt(id assessment.LessonID) string { return lessonsAt + "/" + string(id) }

// takeStarterLessons takes all starter lessons that are not there yet, or the one chosen.
func (s *Site) takeStarterLessons(v *visit) error {
	n, err := s.office.TakeStarterLessons(v.ctx(), v.by(), v.form("skill"), wording.Language(v.form("language")))
	if fault.KindOf(err) == fault.Conflict {
		return v.to(lessonsAt, "There is such a lesson already. Go on with that one.")
	}
	if err != nil {
		return err
	}
	return v.to(lessonsAt, spelledCount(n, "starter lesson is a draft", "starter lessons are drafts")+" now. Read each, edit it, then put it in force.")
}

// draftLesson begins the next version in a language.
func (s *Site) draftLesson(v *visit) error {
	skill, err := formID[assessment.SkillID](v, "skill")
	if err != nil {
		return err
	}
	l, err := s.office.DraftLesson(v.ctx(), v.by(), skill, wording.Language(v.form("language")))
	if kind := fault.KindOf(err); kind == fault.Conflict || kind == fault.Invalid {
		return v.to(lessonsAt, "No draft was begun: there is one already, or no language was chosen.")
	}
	if err != nil {
		return err
	}
	return v.to(versionAt(l.ID)+"/source", "It is a draft now. Edit it, then put it in force.")
}

// addDrawing takes a line drawing that somebody sends.
func (s *Site) addDrawing(v *visit) error {
	f := office.DrawingForm{Name: v.form("name")}
	if header, err := v.c.FormFile("file"); err == nil {
		file, err := header.Open()
		if err != nil {
			return tooLarge(err)
		}
		defer file.Close()
		if f.SVG, err = io.ReadAll(io.LimitReader(file, drawing.MostBytes+1)); err != nil {
			return tooLarge(err)
		}
		if f.Name == "" {
			f.Name = header.Filename
		}
	}
	name, refused := s.office.AddDrawing(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(lessonsAt+"#drawings", "The drawing is there. Show it in a lesson by its name: ![what it shows]("+name+".svg)")
	}
	faults, unknown := v.wrong(refused, "The drawing is not added.", label("file", "Drawing"), label("name", "Name"))
	if unknown != nil {
		return unknown
	}
	page, err := s.lessonsPage(v)
	if err != nil {
		return err
	}
	page.Faults, page.Name = faults, f.Name
	return v.again(page)
}

func (s *Site) lessonVersion(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.lessonVersionPage(v, id)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) lessonVersionPage(v *visit, id assessment.LessonID) (LessonVersionPage, error) {
	l, err := s.office.Lesson(v.ctx(), v.by(), id)
	if err != nil {
		return LessonVersionPage{}, err
	}
	at := versionAt(id)
	page := LessonVersionPage{Frame: v.frame("checklists"), Skill: l.Skill.Title, Tongue: l.Language.Own(), Tag: string(l.Language), Number: l.Number, State: string(l.State), Facts: lessonFacts(v, l.LessonRef),
		Level: lessonLevel(l.Level), Text: lessonText(l)}
	drafted := l.State == assessment.Draft
	for _, other := range l.Before {
		drafted = drafted || other.State == assessment.Draft
		if page.Compare == "" && other.Number < l.Number {
			page.Compare = at + "/compare?with=" + string(other.ID)
		}
	}
	switch l.State {
	case assessment.Draft:
		page.Edit, page.Discard = at+"/source", at+"/discarding"
		if v.may(assessment.ForceLesson) {
			page.Force = at + "/in-force?read=" + l.Version
		}
	case assessment.InForce:
		if v.may(assessment.ForceLesson) {
			page.Retire = at + "/retirement"
		}
	}
	if !drafted {
		page.Next = string(l.Skill.ID)
	}
	return page, nil
}

// lessonFacts say who wrote, reviewed and translated a version.
func lessonFacts(v *visit, l office.LessonRef) []string {
	facts := []string{"Saved " + v.instant(l.DraftedAt) + " by " + l.DraftedBy + "."}
	if l.Starter {
		facts[0] = "It began as the starter lesson that comes with the program. " + facts[0]
	}
	if l.Translated {
		facts = append(facts, "A translation from "+l.WrittenIn.Own()+".")
	}
	if l.InForceAt != nil {
		facts = append(facts, "Reviewed by "+l.InForceBy+", "+l.Licence+", and in force since "+v.instant(*l.InForceAt)+". Reviewed: "+l.Statement)
	}
	if l.Translator != "" {
		facts = append(facts, "Translation reviewed by "+l.Translator+".")
	}
	if l.RetiredAt != nil {
		facts = append(facts, "Retired "+v.instant(*l.RetiredAt)+".")
	}
	return facts
}

func (s *Site) discardLesson(v *visit) error {
	id, err := pathID[assessment.LessonID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.DiscardLesson(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(lessonsAt, "The draft is thrown away.")
}
