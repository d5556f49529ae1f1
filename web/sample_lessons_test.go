package web

import (
	"wellshown/assessment/catalog"
	"wellshown/assessment/lesson"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// sampleLesson is a starter lesson as it is read.
func sampleLesson(code string, in wording.Language) office.LessonView {
	text, err := catalog.Lesson(code, in)
	if err != nil {
		panic(err)
	}
	v := office.LessonView{Text: text, Drawings: office.Drawings{}, Level: text.Level(string(in))}
	v.Language = in
	for _, name := range text.Drawings() {
		if v.Drawings[name], err = catalog.Drawing(name); err != nil {
			panic(err)
		}
	}
	return v
}

var starterReviewed = map[wording.Language][]string{
	wording.English: {"Reviewed by Noor Haddadin, RN 20411, on 18 November 2026. Version 2."},
	wording.Spanish: {"Revisada por Noor Haddadin, RN 20411, el 18 de noviembre de 2026. Versión 2.", "Traducción revisada por Rocío Ibarra, traductora certificada."},
}

// lessonSamples draw every starter lesson in both languages, and the pages around them.
func lessonSamples() map[string]Page {
	all := map[string]Page{}
	mother := motherFrame()
	mother.Language = wording.Spanish
	for _, code := range catalog.Codes() {
		for _, in := range wording.Languages {
			frame := motherFrame()
			frame.Language = in
			all["lesson-"+code+"-"+string(in)] = LessonPage{Frame: frame, Text: lessonText(sampleLesson(code, in)), Reviewed: starterReviewed[in], Others: []Tongue{{notIn(in).Own(), string(notIn(in)), "/learn/" + code + "?in=" + string(notIn(in))}},
				PDF: "/learn/" + code + "/lesson.pdf", Copy: "/learn/" + code + "/copy?in=" + string(in), Kept: "/learn/kept", Checklist: "/revisions/r1", Back: "/learn"}
		}
	}
	suction := sampleLesson("suction", wording.English)
	all["learn"] = LearnPage{Frame: mother, Mine: true, Ready: 2, PDF: "/learn.pdf", Kept: "/learn/kept", Lessons: []LearnLine{{Title: "Aspirar la cánula de su hijo o hija", Href: "/learn/suction"},
		{Title: "Giving breaths with the bag", Href: "/learn/bagging", Tag: "en", Only: "English"}, {Title: "Emergency go-bag check", Tag: "en"}}}
	all["learn-staff"] = LearnPage{Frame: educatorFrame("checklists"), Ready: 1, PDF: "/learn.pdf", Kept: "/learn/kept", Write: "/lessons", Lessons: []LearnLine{{Title: "Suctioning", Href: "/learn/suction"}}}
	all["learn-none"] = LearnPage{Frame: mother, Mine: true, Kept: "/learn/kept"}
	all["lesson-only"] = LessonPage{Frame: mother, Text: lessonText(suction), Only: "English", Reviewed: starterReviewed[wording.Spanish], PDF: "/learn/suction/lesson.pdf", Copy: "/learn/suction/copy?in=en", Kept: "/learn/kept", Back: "/learn"}
	all["lesson-copy"] = LessonCopyPage{Frame: Frame{Language: wording.Spanish, Demo: true}, Text: lessonText(sampleLesson("suction", wording.Spanish)), Reviewed: starterReviewed[wording.Spanish], Kept: "/learn/kept"}
	all["kept"] = KeptPage{Frame: Frame{Language: wording.Spanish, Demo: true}, All: "/learn"}
	for name, page := range writtenLessonSamples(suction) {
		all[name] = page
	}
	return all
}

// writtenLessonSamples are the pages of whoever writes lessons.
func writtenLessonSamples(v office.LessonView) map[string]Page {
	frame := educatorFrame("checklists")
	level, text := lessonLevel(v.Level), lessonText(v)
	hard := level
	hard.Grade, hard.Within = "grade 11.4 (Flesch–Kincaid)", false
	lines := []LessonLine{{Skill: "Suctioning", SkillID: "s1", Language: "English", Tag: "en", InForce: "version 2 since 18 Nov 2026", Href: "/lessons/l2", Draft: "version 3, saved 25 Nov 2026 by Maximiliana-Konstantina Papadopoulou-Wolfeschlegelsteinhausen", Edit: "/lessons/l3", Level: "grade 4.1 (Flesch–Kincaid)"},
		{Skill: "Suctioning", SkillID: "s1", Language: "Español", Tag: "es", Level: "grade 12, ease 55 (Fernández Huerta)", Hard: true, Begin: true, InForce: "version 1 since 18 Nov 2026", Href: "/lessons/l4"}}
	none := []LessonLine{{Skill: "Our own check", SkillID: "s2", Language: "English", Tag: "en", Begin: true}, {Skill: "Our own check", SkillID: "s2", Language: "Español", Tag: "es", Begin: true, Starter: true}}
	shown := LessonPicture{Says: "suction-1", Box: "0 0 320 200", Shapes: []PictureShape{{Class: "line", Data: "M 10 10 L 300 150"}, {Class: "line", Digit: "1", X: "40", Y: "60"}}}
	list := LessonsPage{Frame: frame, InForce: 2, Drafts: 1, Starters: 22, Skills: []LessonSkill{{"Suctioning", lines}, {"Our own check", none}}, Drawings: []DrawingLine{{"suction-1.svg", "18 Nov 2026, Noor Haddadin", shown}}}
	bad := list
	bad.Name, bad.Faults = "Über", Faults{What: "The drawing is not added.", Why: "2 things need mending.", Next: "Look at each one below; what you typed is still there.", Fields: []FieldFault{{"file", "Drawing", "A drawing takes no element \"script\"."}, {"name", "Name", "Name it with small letters, digits and hyphens, such as suction-5."}}}
	draft := LessonDraftPage{Frame: frame, Skill: "Suctioning", Tongue: "English", Tag: "en", Number: 3, Action: "/lessons/l3/source", Source: "# Suctioning\n\nMucus can block the tube.\n", Version: "9f", From: "Español", Level: level, Text: text, Back: "/lessons/l3"}
	refused := draft
	refused.Source, refused.Level, refused.Text, refused.Translated = "# T\n\n<script>alert(1)</script>\n", LessonLevel{}, LessonText{}, "yes"
	refused.Faults = Faults{What: "The lesson is not saved.", Why: "One thing needs mending.", Next: "Look at each one below; what you typed is still there.", Fields: []FieldFault{{"source", "The lesson, in Markdown", "Near line 3: a lesson cannot have HTML."}}}
	clashed := draft
	clashed.Changed, clashed.Level = "Ruth Adeyemi", hard
	clashed.Faults = Faults{What: "The lesson is not saved.", Why: "Ruth Adeyemi has saved this draft since you read it, and it says something else now."}
	version := LessonVersionPage{Frame: frame, Skill: "Suctioning", Tongue: "English", Tag: "en", Number: 2, State: "in force", Facts: []string{"Saved 17 Nov 2026, 10:02 MST by Ruth Adeyemi.", "Reviewed by Noor Haddadin, RN 20411, and in force since 18 Nov 2026, 09:00 MST. Reviewed: Our orders."}, Level: level, Text: text, Retire: "/lessons/l2/retirement", Compare: "/lessons/l2/compare?with=l1", Next: "s1"}
	kept := version
	kept.Faults = Faults{What: "It is not retired.", Fields: []FieldFault{{"password", "Your password", "This password does not match. Nothing has been signed."}}}
	drafted := version
	drafted.State, drafted.Number, drafted.Retire, drafted.Next, drafted.Edit, drafted.Force, drafted.Discard, drafted.Level = "draft", 3, "", "", "/lessons/l3/source", "/lessons/l3/in-force?read=9f", "/lessons/l3/discarding", hard
	sign := LessonForcePage{Frame: frame, Skill: "Suctioning", Tongue: "Español", Number: 2, Action: "/lessons/l3/in-force", Version: "9f", Replaces: 1, Reviewer: "Noor Haddadin", Licence: "RN 20411", Now: "25 Nov 2026, 09:12 MST", From: "English", Level: level, Text: text, Back: "/lessons/l3"}
	unsigned := sign
	unsigned.Reviewed, unsigned.Statement = "yes", "Against our orders."
	unsigned.Faults = Faults{What: "It is not in force.", Why: "One thing needs mending.", Fields: []FieldFault{{"translator", "Translator", "Name the qualified translator who reviewed this translation, and what qualifies them."}}}
	compare := LessonComparePage{Frame: frame, Skill: "Suctioning", Older: 1, Newer: 2, Action: "/lessons/l2/compare", With: "l1", Others: []Option{{Value: "l1", Text: "version 1, retired"}}, Changes: []Change{lessonChange(lesson.Change{Section: "Why", Before: "a", After: "b"}), lessonChange(lesson.Change{Section: "Why", After: "c"})}, Back: "/lessons/l2"}
	same := compare
	same.Changes = nil
	return map[string]Page{"lessons": list, "lessons-fault": bad, "lessons-none": LessonsPage{Frame: frame}, "lesson-draft": draft, "lesson-draft-refused": refused, "lesson-draft-clashed": clashed,
		"lesson-version": version, "lesson-version-fault": kept, "lesson-version-draft": drafted, "lesson-force": sign, "lesson-force-fault": unsigned, "lesson-compare": compare, "lesson-compare-same": same}
}
