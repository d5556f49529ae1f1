package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// stageShape: practice has a shape of its own, which no standing has.
func stageShape(l assessment.Learnt) string {
	switch l.Stage() {
	case assessment.Practised:
		return "practice"
	case assessment.NotBegun:
		return "not started"
	case assessment.LearntByThen:
		return "current"
	}
	return "learning"
}

// planDates says what there is to say of the target.
func planDates(v office.LearningPlan, words wording.Words) PlanDates {
	d := PlanDates{Circle: words.Of(v.Circle)}
	if !v.HasTarget() {
		return d
	}
	d.Target = words.Of(v.Target())
	for _, w := range v.Warns() {
		d.Warns = append(d.Warns, words.Of(w))
	}
	return d
}

// learnLine is one skill as it is read.
func learnLine(l office.LearningLine, words wording.Words) LearningLine {
	line := LearningLine{Skill: l.Skill.Title, Client: clientName(l.Client), Shape: stageShape(l.Learnt), Stage: words.Of(l.Says()), Teacher: l.Teacher.Name}
	if !l.By.IsZero() {
		line.By = words.Say("ready by %s", l.By)
	}
	for _, n := range l.Notes() {
		line.Notes = append(line.Notes, words.Of(n))
	}
	return line
}

// taughtLine is a session as a learner, or who keeps their plan, reads it.
func taughtLine(t office.TeachingView, person assessment.PersonID, words wording.Words) TaughtLine {
	line := TaughtLine{Day: words.Day(t.HeldOn), What: words.Of(t.What()), How: words.Of(t.How(person)), Note: t.Note, By: words.Of(t.Length())}
	if t.Corrected != "" {
		line.Back = words.Say("Corrected later: another entry stands in its place.")
	}
	return line
}

// practiceEntry is a practice run in a list.
func practiceEntry(r office.PracticeRunView, words wording.Words) PracticeEntry {
	e := PracticeEntry{Day: words.Day(r.DoneOn), What: r.What.Title, How: words.Of(r.How()), Href: "/practice-runs/" + string(r.ID)}
	if r.Back != "" {
		e.Back = words.Say("Written down by mistake: %s", r.Back)
	}
	return e
}
