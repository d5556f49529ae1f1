package api_test

import (
	"net/http"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// lessons tells what somebody learns from, in each language, and its papers.
func (d *desk) lessons(learner assessment.Actor) {
	d.t.Helper()
	var none, list api.List[api.LessonLine]
	d.get("/lessons?language=es", learner).into(http.StatusOK, &none)
	d.get("/lessons/suction", learner).problem(http.StatusNotFound)
	d.get("/lessons/nothing", learner).problem(http.StatusNotFound)
	d.get("/lessons?language=fr", learner).problem(http.StatusBadRequest)
	d.forceLessons("suction")
	d.get("/lessons?language=es", d.Coordinator).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].Skill.Code != "suction" || list.Items[0].Lesson == nil || list.Items[0].Lesson.Language != "es" {
		d.t.Fatalf("there are the lessons %+v", list.Items)
	}
	for _, line := range none.Items {
		if line.Lesson != nil {
			d.t.Errorf("before any is in force there is %+v", line.Lesson)
		}
	}
	var full api.LessonInFull
	d.get("/lessons/suction?language=es", learner).into(http.StatusOK, &full)
	if full.Language != "es" || full.InForceBy != d.Educators[0].Name || full.Translator == "" || len(full.Languages) != 2 || !strings.HasPrefix(full.Markdown, "# ") || full.Grade < 1 || full.Grade > 8 {
		d.t.Errorf("the lesson is %+v", full.Lesson)
	}
	if len(full.Drawings) < 2 || !strings.HasPrefix(full.Drawings[0].SVG, "<svg ") || full.Drawings[0].Says == "" {
		d.t.Errorf("it shows %+v", full.Drawings)
	}
	var english api.LessonInFull
	d.get("/lessons/suction", learner).into(http.StatusOK, &english)
	if full = english; full.Language != "en" || full.Translator != "" {
		d.t.Errorf("in English it is %+v", full.Lesson)
	}
	d.paper("/lessons/suction/paper.pdf?language=es", learner, "%PDF lesson Aspirar")
	d.paper("/lessons.pdf?language=en", d.Coordinator, "%PDF 1 lessons")
}

// forceLessons puts the starter lessons of a skill in force, in both languages.
func (d *desk) forceLessons(code string) {
	d.t.Helper()
	_, err := d.Office.TakeStarterLessons(d.t.Context(), d.Educators[0], code, "")
	d.need(err)
	all, err := d.Office.Lessons(d.t.Context(), d.Educators[0])
	d.need(err)
	for _, of := range all.Skills {
		for _, l := range of.Lines {
			if l.Draft.ID != "" {
				d.need(d.Office.PutLessonInForce(d.t.Context(), d.Educators[0], office.ForceLessonForm{Lesson: l.Draft.ID, Version: l.Draft.Version, Statement: "Read.", Translator: "Rocío Ibarra, translator", Proof: ward.Proof}))
			}
		}
	}
}
