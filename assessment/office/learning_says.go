package office

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/phrase"
)

// Answer is the plan in one sentence.
func (p LearningPlan) Answer() phrase.Phrase {
	switch {
	case len(p.Lines) == 0 && len(p.Held) == 0:
		return phrase.Of("Nothing is asked of you yet")
	case len(p.Lines) == 0:
		return phrase.Of("Nothing is left to learn")
	case !p.Circle.IsZero():
		return phrase.Count(len(p.Lines), "One skill is left to learn", "%d skills are left to learn")
	}
	return phrase.Count(len(p.Lines), "One skill is left to learn: %[2]s", "%d skills are left to learn. Next: %s", p.Lines[0].Skill.Title)
}

// Next is what is done next; nothing where nothing is left, or nothing has an order.
func (p LearningPlan) Next() phrase.Phrase {
	if len(p.Lines) == 0 || !p.Circle.IsZero() {
		return phrase.Phrase{}
	}
	return p.Lines[0].Learnt.Next(p.Lines[0].Skill.Title, p.Lines[0].Next)
}

// Toward is what somebody learns toward.
func (p LearningPlan) Toward() phrase.Phrase {
	with := p.With.FirstName
	switch {
	case p.Goal == assessment.GoingHome && with != "":
		return phrase.Of("%s goes home", with)
	case p.Goal == assessment.GoingHome:
		return phrase.Of("going home")
	case p.Goal == assessment.FirstShift && with != "":
		return phrase.Of("first shift with %s", with)
	case p.Goal == assessment.FirstShift:
		return phrase.Of("first shift")
	}
	return phrase.Of("the day that was chosen")
}

// Target says by when; nothing where there is no day.
func (p LearningPlan) Target() phrase.Phrase {
	if !p.HasTarget() {
		return phrase.Phrase{}
	}
	return phrase.Of("To be ready by %s: %s", p.Dates.Target, p.Toward())
}

// Warns says what is wrong with the target.
func (p LearningPlan) Warns() []phrase.Phrase {
	if !p.HasTarget() || len(p.Lines) == 0 || !p.Circle.IsZero() {
		return nil
	}
	var all []phrase.Phrase
	if p.Dates.Past {
		all = append(all, phrase.Of("This day is past. Ask for another one."))
	}
	if p.Dates.Short > 0 {
		all = append(all, phrase.Of("%s %s", phrase.Count(p.Dates.Short, "One day is missing for all of it.", "%d days are missing for all of it."),
			phrase.Of("It takes %d days, one skill after the other. There is enough time from %s on.", p.Dates.Needed, p.Dates.Enough)))
	}
	return all
}

// Notes say what is to be known of a line: a standing that was lost, what comes first, and
// what is wrong with its day.
func (l LearningLine) Notes() []phrase.Phrase {
	var all []phrase.Phrase
	note := func(p phrase.Phrase) { all = append(all, p) }
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
	return all
}

// What lists the skills of a session.
func (v TeachingView) What() phrase.Phrase {
	titles := phrase.List{}
	for _, k := range v.Taught {
		titles = append(titles, k.Title)
	}
	return phrase.Of("%s", titles)
}

// How is how somebody was taught in a session; nothing where they were not.
func (v TeachingView) How(person assessment.PersonID) phrase.Phrase {
	for _, w := range v.Who {
		if w.Person.ID == person {
			return w.TaughtHow.Says()
		}
	}
	return phrase.Phrase{}
}

// Length is how long a session was, and with whom.
func (v TeachingView) Length() phrase.Phrase {
	return phrase.Count(v.Minutes, "one minute with %[2]s", "%d minutes with %s", v.Teacher.Name)
}

// How is who was there, and how the steps went.
func (v PracticeRunView) How() phrase.Phrase {
	how := phrase.Of("with %s beside", v.Beside.Name)
	switch {
	case v.ByMyself():
		how = phrase.Of("practised by myself, not observed")
	case v.Alone:
		how = phrase.Of("alone")
	}
	return phrase.Of("%s: %s, %d with help, %d not yet", how, phrase.Count(v.Count(assessment.WentAlone), "one step alone", "%d steps alone"), v.Count(assessment.WentWithHelp), v.Count(assessment.WentNotYet))
}
