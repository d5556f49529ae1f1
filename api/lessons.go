package api

import (
	"context"

	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

type lessonsQuery struct {
	Language string `query:"language" enum:"en,es" default:"en" doc:"In which language. A lesson that is not in force in it comes in the one there is."`
}

type lessonQuery struct {
	Code     string `path:"code" doc:"The code of the skill." example:"suction"`
	Language string `query:"language" enum:"en,es" default:"en" doc:"In which language. Where it is not in force in it, the lesson comes in the one there is."`
}

func (e *edge) lessons(ctx context.Context, by caller, in *lessonsQuery) (*answer[List[LessonLine]], error) {
	v, err := e.office.LessonShelf(ctx, by.Actor, wording.Of(in.Language))
	if err != nil {
		return nil, err
	}
	return listed(v.Lines, lessonLine, ""), nil
}

func (e *edge) lesson(ctx context.Context, by caller, in *lessonQuery) (*answer[LessonInFull], error) {
	v, err := e.office.TaughtLesson(ctx, by.Actor, in.Code, wording.Of(in.Language))
	if err != nil {
		return nil, err
	}
	return shown(lessonInFull(v)), nil
}

func (e *edge) lessonPaper(ctx context.Context, by caller, in *lessonQuery) (*file, error) {
	body, name, err := e.papers.Lesson(ctx, by.Actor, in.Code, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

func (e *edge) lessonsPaper(ctx context.Context, by caller, in *lessonsQuery) (*file, error) {
	body, name, err := e.papers.Lessons(ctx, by.Actor, wording.Of(in.Language))
	return drawn(pdf, body, name, err)
}

func lessonLine(l office.ShelfLesson) LessonLine {
	line := LessonLine{Skill: skillRef(l.Skill)}
	if l.Lesson.ID != "" {
		r := lessonRef(l.Lesson)
		line.Lesson = &r
	}
	return line
}
