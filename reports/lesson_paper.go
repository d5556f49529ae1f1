package reports

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// Lesson prints what teaches a skill, in a language or in the one there is.
func (r *Reports) Lesson(ctx context.Context, by assessment.Actor, code string, in wording.Language) ([]byte, string, error) {
	v, err := r.office.TaughtLesson(ctx, by, code, in)
	if err != nil {
		return nil, "", fmt.Errorf("print a lesson: %w", err)
	}
	p, err := lessons(v.Text.Title, v.Language, v)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadLessons, Paper: "lesson", Subject: string(v.ID)})(document(p, err, "lesson", v.Skill.Code, string(v.Language)))
}

// Lessons prints all lessons that somebody learns from, each from the top of a page.
func (r *Reports) Lessons(ctx context.Context, by assessment.Actor, in wording.Language) ([]byte, string, error) {
	all, err := r.office.TaughtLessons(ctx, by, in)
	if err != nil {
		return nil, "", fmt.Errorf("print the lessons: %w", err)
	}
	p, err := lessons(wording.In(in).Say("Lessons"), in, all...)
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadLessons, Paper: "lessons"})(document(p, err, "lessons", string(in)))
}

// lessons draws at least one. The paper states the instant at which the newest of them
// came in force: the same lessons give the same bytes.
func lessons(title string, in wording.Language, all ...office.TaughtLesson) (*paper, error) {
	first := all[0]
	m := meta{Title: title, Language: string(in), Agency: first.Agency.Name, Demo: first.Agency.Demo, Zone: first.Zone}
	for _, v := range all {
		if v.InForceAt != nil && v.InForceAt.After(m.Issued) {
			m.Issued = *v.InForceAt
		}
	}
	p, err := newPaper(m)
	if err != nil {
		return nil, err
	}
	for i, v := range all {
		if i > 0 {
			p.flush()
			p.turn(atom{})
		}
		if len(all) > 1 {
			p.here(v.Skill.Code, v.Text.Title, 0)
		}
		p.taught(v.Text, v.Drawings)
		p.reviewed(v, wording.In(in))
	}
	return p, nil
}

// reviewed says by whom a lesson was reviewed, and by whom its translation was.
func (p *paper) reviewed(v office.TaughtLesson, say wording.Words) {
	p.gap(8)
	if v.Language != say.Language() {
		p.note(say.Say("This lesson is in %s only so far.", v.Language.Own()))
	}
	p.row(label(say.Say("reviewed by")), softly(reviewedBy(say, v.LessonRef, p.zone)...)...)
}

func softly(lines ...string) []words {
	var all []words
	for _, l := range lines {
		all = append(all, soft(l))
	}
	return all
}

// reviewedBy is said below a lesson: who stands for it, and since when it is in force.
func reviewedBy(say wording.Words, v office.LessonRef, zone *time.Location) []string {
	var lines []string
	if v.InForceAt != nil {
		lines = append(lines, say.Say("%s, %s, on %s. Version %d.", v.InForceBy, v.Licence, civil.DayOf(*v.InForceAt, zone), v.Number))
	}
	if v.Translator != "" {
		lines = append(lines, say.Say("Translation reviewed by %s.", v.Translator))
	}
	return lines
}
