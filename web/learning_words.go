package web

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

// stageOf says how far somebody is with a skill of their plan.
func stageOf(l assessment.Learnt) phrase.Phrase {
	switch l.Stage() {
	case assessment.Taught:
		return phrase.Of("taught")
	case assessment.Practised:
		return phrase.Count(l.Runs, "practised once", "practised %d times")
	case assessment.CheckPassed:
		return phrase.Of("knowledge check passed")
	case assessment.Shown:
		return phrase.Of("shown %d of %d times", l.Shown, l.Of)
	case assessment.LearntByThen:
		return phrase.Of("current")
	}
	return phrase.Of("not begun")
}

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

// goalOf says what somebody learns toward.
func goalOf(v office.LearningPlan) phrase.Phrase {
	with := v.With.FirstName
	switch {
	case v.Goal == assessment.GoingHome && with != "":
		return phrase.Of("%s goes home", with)
	case v.Goal == assessment.GoingHome:
		return phrase.Of("going home")
	case v.Goal == assessment.FirstShift && with != "":
		return phrase.Of("first shift with %s", with)
	case v.Goal == assessment.FirstShift:
		return phrase.Of("first shift")
	}
	return phrase.Of("the day that was chosen")
}

// planAnswer is the first line of a plan.
func planAnswer(v office.LearningPlan) phrase.Phrase {
	switch {
	case len(v.Lines) == 0 && len(v.Held) == 0:
		return phrase.Of("Nothing is asked of you yet")
	case len(v.Lines) == 0:
		return phrase.Of("Nothing is left to learn")
	case v.Circle != "":
		return phrase.Count(len(v.Lines), "One skill is left to learn", "%d skills are left to learn")
	}
	return phrase.Count(len(v.Lines), "One skill is left to learn: %[2]s", "%d skills are left to learn. Next: %s", v.Lines[0].Skill.Title)
}

// planDates says what there is to say of the target.
func planDates(v office.LearningPlan, words wording.Words) PlanDates {
	d := PlanDates{Circle: v.Circle}
	if !v.HasTarget() {
		return d
	}
	d.Target = words.Say("To be ready by %s: %s", v.Dates.Target, goalOf(v))
	if len(v.Lines) == 0 || v.Circle != "" {
		return d
	}
	if v.Dates.Past {
		d.Warns = append(d.Warns, words.Say("This day is past. Ask for another one."))
	}
	if v.Dates.Short > 0 {
		d.Warns = append(d.Warns, words.Count(v.Dates.Short, "One day is missing for all of it.", "%d days are missing for all of it.")+" "+
			words.Say("It takes %d days, one skill after the other. There is enough time from %s on.", v.Dates.Needed, v.Dates.Enough))
	}
	return d
}

// learnLine is one skill as it is read.
func learnLine(l office.LearningLine, words wording.Words) LearningLine {
	line := LearningLine{Skill: l.Skill.Title, Client: clientName(l.Client), Shape: stageShape(l.Learnt), Stage: words.Of(stageOf(l.Learnt)), Teacher: l.Teacher.Name}
	if !l.By.IsZero() {
		line.By = words.Say("ready by %s", l.By)
	}
	note := func(p phrase.Phrase) { line.Notes = append(line.Notes, words.Of(p)) }
	if slices.Contains([]assessment.StandingWord{assessment.Lapsed, assessment.Withdrawn, assessment.Waived}, l.Word) {
		note(phrase.Of("Standing: %s.", l.Word.Phrase()))
	}
	if len(l.First) > 0 {
		first := phrase.List{}
		for _, title := range l.First {
			first = append(first, title)
		}
		note(phrase.Of("Comes after: %s.", first))
	}
	if l.Late {
		note(phrase.Of("This day is past."))
	}
	if l.Short > 0 {
		note(phrase.Count(l.Short, "One day is missing until then, with what comes first.", "%d days are missing until then, with what comes first."))
	}
	if l.After != "" {
		note(phrase.Of("%s comes after it and has an earlier day.", l.After))
	}
	return line
}

// taughtHow lists what happened.
func taughtHow(h assessment.TaughtHow) phrase.Phrase {
	var all phrase.List
	for _, one := range []struct {
		is   bool
		says phrase.Phrase
	}{{h.Shown, phrase.Of("shown how")}, {h.Explained, phrase.Of("explained")}, {h.Practised, phrase.Of("practised with help")}, {h.TaughtBack, phrase.Of("taught back")}} {
		if one.is {
			all = append(all, one.says)
		}
	}
	return phrase.Of("%s", all)
}

// taughtLine is a session as a learner, or who keeps their plan, reads it.
func taughtLine(t office.TeachingView, person assessment.PersonID, words wording.Words) TaughtLine {
	titles := phrase.List{}
	for _, k := range t.Taught {
		titles = append(titles, k.Title)
	}
	line := TaughtLine{Day: words.Day(t.HeldOn), What: words.Of(phrase.Of("%s", titles)), Note: t.Note, By: words.Count(t.Minutes, "one minute with %[2]s", "%d minutes with %s", t.Teacher.Name)}
	for _, w := range t.Who {
		if w.Person.ID == person {
			line.How = words.Of(taughtHow(w.TaughtHow))
		}
	}
	if t.Corrected != "" {
		line.Back = words.Say("Corrected later: another entry stands in its place.")
	}
	return line
}

// practiceEntry is a practice run in a list.
func practiceEntry(r office.PracticeRunView, words wording.Words) PracticeEntry {
	e := PracticeEntry{Day: words.Day(r.DoneOn), What: r.What.Title, Href: "/practice-runs/" + string(r.ID)}
	how := phrase.Of("alone")
	if !r.Alone {
		how = phrase.Of("with %s beside", r.Beside.Name)
	}
	e.How = words.Of(phrase.Of("%s: %d steps alone, %d with help, %d not yet", how, r.Count(assessment.WentAlone), r.Count(assessment.WentWithHelp), r.Count(assessment.WentNotYet)))
	if r.Back != "" {
		e.Back = words.Say("Written down by mistake: %s", r.Back)
	}
	return e
}
