package web

import (
	"wellshown/assessment"
	"wellshown/assessment/knowledge"
	"wellshown/assessment/office"
)

const checksAt = "/checks"

func sittingAt(id assessment.RecordID) string { return "/sittings/" + string(id) }

// checks lists the reader's own checks, and all of them for those who keep them.
func (s *Site) checks(v *visit) error {
	d, err := s.office.Checks(v.ctx(), v.by())
	if err != nil {
		return err
	}
	here := "checklists"
	if !v.worksHere() {
		here = "home"
	}
	page := ChecksPage{Frame: v.frame(here), Takes: d.Takes}
	for _, c := range d.Own {
		line := v.checkLine(d, c)
		line.CSRF = page.CSRF
		page.Own = append(page.Own, line)
		if !c.Holds() && c.Rule.Asked != knowledge.NotAsked {
			page.Left++
		}
	}
	for _, c := range d.All {
		page.All = append(page.All, bankLine(c))
	}
	return v.show(page)
}

func (v *visit) checkLine(d office.ChecksView, c office.OwnCheck) CheckLine {
	w := v.words()
	line := CheckLine{Title: c.Called.In(string(v.language())), Shape: "open", Says: v.say("Not taken yet."), Again: len(c.Tries) > 0}
	switch {
	case c.Holds() && c.Through.IsZero():
		line.Shape, line.Says = "met", v.say("Passed on %s.", c.Passed)
	case c.Holds():
		line.Shape, line.Says = "met", v.say("Passed. It holds through %s.", c.Through)
	case c.Waits:
		line.Shape, line.Says = "open", v.say("Passed. You could read what it asks, so it counts once another educator says that a trainer was there.")
	case c.Easier:
		line.Shape, line.Says = "open", v.say("Passed before. More is asked now, so it is to be taken again.")
	case !c.Ran.IsZero():
		line.Shape, line.Says = "open", v.say("Passed before. It held through %s.", c.Ran)
	case len(c.Tries) > 0:
		line.Shape, line.Says = "open", v.say("Not passed yet. The last time, %d of %d were right.", c.Tries[0].Right, c.Tries[0].Of)
	}
	if c.Called.Lesson() {
		line.Learn = "/learn/" + c.Skill.Code
	}
	for _, t := range c.Tries {
		line.Tries = append(line.Tries, Link{Text: w.Day(t.On) + ": " + v.say("%d of %d right", t.Right, t.Of), Href: sittingAt(t.ID)})
	}
	switch {
	case c.Open != "":
		line.GoOn = sittingAt(c.Open)
		if line.Why = v.say("It is open until %s.", w.Instant(c.Ends, d.Zone)); c.Over {
			line.Why = v.say("Its time was over on %s. What you answered until then is kept: hand it in to see what is right, and when the next try is.", w.Instant(c.Ends, d.Zone))
		}
	case c.Rule.Asked == knowledge.NotAsked:
		line.Why = v.say("It is not asked any more.")
	case c.Next.Waits(d.At) || c.Next.Teach:
		line.Why = v.nextTry(c.Next, d)
	default:
		line.Begin = checksAt + "/" + c.Skill.Code + "/sittings"
		if c.Rule.Asked == knowledge.First && !c.Holds() {
			line.Why = v.say("It comes before you show this skill to an educator.")
		}
	}
	return line
}

// nextTry says when somebody may try again, and why not now.
func (v *visit) nextTry(n office.NextTry, d office.ChecksView) string {
	switch {
	case n.Teach && n.Waits(d.At):
		return v.say("Your educator goes through it with you first. The next try is from %s on.", v.words().Instant(n.From, d.Zone))
	case n.Teach:
		return v.say("Your educator goes through it with you first, because several tries were not easy. Then you try again.")
	case n.Waits(d.At):
		return v.say("The next try is from %s on. Until then there is time to read and to ask.", v.words().Instant(n.From, d.Zone))
	}
	return v.say("You may try again now.")
}

func bankLine(c office.CheckSummary) BankLine {
	line := BankLine{Title: c.Skill.Title, Href: checksAt + "/" + c.Skill.Code, Shape: "not started", Says: "Not asked."}
	if c.Rule.Asked != knowledge.NotAsked {
		line.Shape, line.Says = "met", checkRuleWords(c.Rule)
	}
	line.Minor = count(c.Items, "item", "items") + " in the bank"
	if c.Items == 0 && c.Starter {
		line.Minor = "No items yet; starter items can be taken in"
	}
	if c.Handed > 0 {
		line.Minor += "; taken " + count(c.Handed, "time", "times") + ", passed " + count(c.Passed, "time", "times")
	}
	return line
}

// beginCheck begins a check, or goes on with the one that was begun.
func (s *Site) beginCheck(v *visit) error {
	id, err := s.office.BeginCheck(v.ctx(), v.by(), v.c.Param("code"), string(v.language()))
	if err != nil {
		return err
	}
	return v.to(sittingAt(id), "")
}
