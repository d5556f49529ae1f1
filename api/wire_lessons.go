package api

import (
	"time"

	"wellshown/assessment/lesson"
	"wellshown/assessment/office"
)

// LessonLine is a skill with the lesson that teaches it.
type LessonLine struct {
	Skill  SkillRef `json:"skill"`
	Lesson *Lesson  `json:"lesson,omitempty" doc:"Left out where none is in force."`
}

// Lesson is one version of what teaches a skill in one language, without its text.
type Lesson struct {
	ID         string     `json:"id" format:"uuid"`
	Language   string     `json:"language" enum:"en,es"`
	Number     int        `json:"number" doc:"Which version it is, from 1."`
	Title      string     `json:"title"`
	Version    string     `json:"version" doc:"The SHA-256 of its text."`
	InForceAt  *time.Time `json:"in_force_at,omitempty"`
	InForceBy  string     `json:"in_force_by,omitempty" doc:"The licensed clinician who reviewed it and signed it into force."`
	Translator string     `json:"translator,omitempty" doc:"Who reviewed the translation; left out for what is none."`
}

// LessonInFull is a lesson with all that it says and shows.
type LessonInFull struct {
	Lesson
	Skill     SkillRef        `json:"skill"`
	Languages []string        `json:"languages" doc:"Those in which a lesson of this skill is in force."`
	Markdown  string          `json:"markdown"`
	Grade     float64         `json:"grade" doc:"The year of school in which it can be read: Flesch–Kincaid for English, by the bands of Fernández Huerta for Spanish."`
	Drawings  []LessonDrawing `json:"drawings"`
}

// LessonDrawing is a line drawing that a lesson shows.
type LessonDrawing struct {
	Name string `json:"name"`
	Says string `json:"says" doc:"What it shows, for whoever cannot see it."`
	SVG  string `json:"svg" doc:"Paths and digits with a class each: line, thin, soft, mark, dash or spot."`
}

func lessonRef(l office.LessonRef) Lesson {
	return Lesson{ID: string(l.ID), Language: string(l.Language), Number: l.Number, Title: l.Title, Version: l.Version, InForceAt: l.InForceAt, InForceBy: l.InForceBy, Translator: l.Translator}
}

func lessonInFull(v office.TaughtLesson) LessonInFull {
	full := LessonInFull{Lesson: lessonRef(v.LessonRef), Skill: skillRef(v.Skill), Markdown: v.Source, Grade: v.Level.Grade, Languages: []string{}, Drawings: []LessonDrawing{}}
	for _, in := range v.Languages {
		full.Languages = append(full.Languages, string(in))
	}
	for _, b := range v.Text.Blocks() {
		if d, have := v.Drawings[b.Drawing]; have && b.Kind == lesson.Picture {
			full.Drawings = append(full.Drawings, LessonDrawing{b.Drawing, b.Says, d.SVG()})
		}
	}
	return full
}
