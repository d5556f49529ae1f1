package reports

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// LearningPlan prints what somebody still has to learn, in a language: the answer and what
// comes next, then each skill in its order with how far it is, then what is held, what was
// taught, and practice, clearly apart.
func (r *Reports) LearningPlan(ctx context.Context, by assessment.Actor, person assessment.PersonID, in wording.Language) ([]byte, string, error) {
	v, err := r.office.LearningPlan(ctx, by, person)
	if err != nil {
		return nil, "", fmt.Errorf("print a learning plan: %w", err)
	}
	p, err := learningPlan(v, wording.In(in))
	return r.handOut(ctx, by, office.Export{Act: assessment.ReadLearning, Paper: "learning plan", Subject: string(person)})(document(p, err, "learning-plan", v.Today.String()))
}

func learningPlan(v office.LearningPlan, w wording.Words) (*paper, error) {
	issued, zone, err := noonOn(v.Today, v.Agency.Zone)
	if err != nil {
		return nil, err
	}
	p, err := newPaper(meta{Title: w.Say("Learning plan"), Language: string(w.Language()), Agency: v.Agency.Name, Demo: v.Agency.Demo, Issued: issued, Zone: zone})
	if err != nil {
		return nil, err
	}
	p.letterhead(w.Of(v.Answer()))
	p.running(big(w.Say("Being taught and practising are the way there. A skill is yours once an observer has seen you do it and both have signed.")))
	p.running(bigStrong(w.Say("In an emergency, call the local emergency number first.")))
	p.gap(4)
	p.row(label(w.Say("who")), bigStrong(v.Person.Name), bigSoft(w.Say("on %s", v.Today)))
	p.learningTarget(v, w)
	if next := v.Next(); !next.IsZero() {
		p.row(label(w.Say("next")), bigStrong(w.Of(next)))
	}
	p.learningLines(v, w)
	p.learningHeld(v, w)
	p.learningTaught(v, w)
	p.learningRuns(v, w)
	return p, nil
}

// learningTarget says by when, and what is wrong with that.
func (p *paper) learningTarget(v office.LearningPlan, w wording.Words) {
	var pieces []words
	if v.HasTarget() {
		pieces = append(pieces, big(w.Of(v.Target())))
	}
	for _, warn := range v.Warns() {
		pieces = append(pieces, big(w.Of(warn)))
	}
	if !v.Circle.IsZero() {
		pieces = append(pieces, big(w.Say("No order can be given.")), bigSoft(w.Of(v.Circle)))
	}
	if len(pieces) == 0 {
		pieces = []words{bigSoft(w.Say("The day is not set yet."))}
	}
	p.row(label(w.Say("by when")), pieces...)
}

func (p *paper) learningLines(v office.LearningPlan, w wording.Words) {
	if len(v.Lines) == 0 {
		return
	}
	p.gap(4)
	p.heading(w.Say("What is left, in this order"))
	for i, l := range v.Lines {
		pieces := []words{bigStrong(entitled(w, l.Skill, l.Client))}
		when := w.Say("No teacher is chosen yet.")
		if l.Teacher.Name != "" {
			when = ended(w.Say("Taught by %s", l.Teacher.Name))
		}
		if !l.By.IsZero() {
			when = ended(capital(w.Say("ready by %s", l.By))) + " " + when
		}
		pieces = append(pieces, big(when))
		for _, told := range l.Tells() {
			pieces = append(pieces, big(ended(capital(w.Of(told)))))
		}
		for _, note := range l.Notes() {
			pieces = append(pieces, bigSoft(w.Of(note)))
		}
		p.row(words{style: style{sansBold, 11, 16, ink}, text: fmt.Sprint(i + 1)}, pieces...)
	}
}

func (p *paper) learningHeld(v office.LearningPlan, w wording.Words) {
	if len(v.Held) == 0 {
		return
	}
	p.heading(w.Say("Held already"))
	for _, h := range v.Held {
		p.row(standingSaid(w, h.Word), big(entitled(w, h.Skill, h.Client)), bigSoft(w.Say("through %s", h.Through)))
	}
}

// learningTaught lists the sessions, the newest first. One that was corrected is told so.
func (p *paper) learningTaught(v office.LearningPlan, w wording.Words) {
	if len(v.Sessions) == 0 {
		return
	}
	p.heading(w.Say("What you were taught"))
	t := table{columns: []column{{w.Say("day"), 1.1, toLeft}, {w.Say("skill"), 2.4, toLeft}, {w.Say("how"), 2, toLeft}, {w.Say("with"), 2, toLeft}}}
	for _, s := range v.Sessions {
		how := []words{text(w.Of(s.How(v.Person.ID)))}
		if s.Corrected != "" {
			how = append(how, soft(w.Say("Corrected later: another entry stands in its place.")))
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(w.ShortDay(s.HeldOn))), cell(text(w.Of(s.What()))), how, cell(text(w.Of(s.Length())))}})
	}
	p.table(t)
}

// learningRuns lists practice under a heading that says what it is.
func (p *paper) learningRuns(v office.LearningPlan, w wording.Words) {
	if len(v.Runs) == 0 {
		return
	}
	p.heading(w.Say("Practice: counts for no skill"))
	p.note(w.Say("What is practised is not signed and makes nobody current. Only a demonstration before an observer does."))
	t := table{columns: []column{{w.Say("day"), 1.1, toLeft}, {w.Say("skill"), 2.4, toLeft}, {w.Say("how"), 4, toLeft}}}
	for _, r := range v.Runs {
		how := []words{text(w.Of(r.How()))}
		if r.Back != "" {
			how = append(how, soft(w.Say("Written down by mistake: %s", r.Back)))
		}
		t.rows = append(t.rows, tableRow{cells: [][]words{cell(text(w.ShortDay(r.DoneOn))), cell(text(theirTitle(w, r.What.Title))), how}})
	}
	p.table(t)
}

// entitled names a skill, with the child that it is for.
func entitled(w wording.Words, s office.SkillRef, c office.ClientRef) string {
	if c.ID == "" {
		return theirTitle(w, s.Title)
	}
	return w.Say("%s, for %s", s.Title, child(c))
}

func theirTitle(w wording.Words, title string) string {
	said, _ := w.Theirs(title)
	return said
}
