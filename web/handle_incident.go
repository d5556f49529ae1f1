package web

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
)

func (s *Site) incident(v *visit) error {
	page, err := s.incidentPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) incidentPage(v *visit) (IncidentPage, error) {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return IncidentPage{}, err
	}
	d, err := s.office.IncidentDesk(v.ctx(), v.by(), id)
	if err != nil {
		return IncidentPage{}, err
	}
	here := "today"
	if !v.may(assessment.ReadReports) {
		here = ""
	}
	page := IncidentPage{Frame: v.frame(here), Answer: v.words().Of(incidentAnswer(d, v.by().Reach(assessment.ReadReports) == assessment.Everything)), Line: incidentLine(v.words(), d.IncidentView), PersonAt: "/people/" + string(d.Person.ID), Recorded: d.By + ", " + v.words().Instant(d.Recorded, d.Recorded.Location()),
		Withdrew: v.words().Of(withdrew(d.Withdraws)), Through: day(d.Through), Open: d.Open, Waits: v.words().Of(d.Waits)}
	page.took(v, d)
	page.ended(v.words(), d)
	page.breaks(v, d.Breaks)
	page.Own = d.Open && v.by().Person == d.Person.ID
	for _, k := range d.Visits {
		page.Visits = append(page.Visits, v.visitAgain(k))
	}
	for _, k := range d.Proposed {
		page.Proposed = append(page.Proposed, v.visitAgain(k))
	}
	if d.Open && v.may(assessment.ReadReports) && len(d.Visits)+len(d.Proposed) > 0 {
		page.Plan = "/visits"
	}
	for _, t := range d.Taught {
		page.Taught = append(page.Taught, TaughtAgain{v.words().ShortDay(t.FromOn), t.By, t.Reason})
	}
	if d.Open && v.may(assessment.LogCare) && v.by().Person != d.Person.ID {
		page.Teach = page.PersonAt + "#log"
	}
	return page, nil
}

// mostBreaks is how many of the shifts that break stand open on the page; the others are folded.
const mostBreaks = 6

// breaks tells the shifts that break, and leads to a proposal of who takes all of them.
func (p *IncidentPage) breaks(v *visit, lines []office.CoverLine) {
	for i, l := range lines {
		if i < mostBreaks {
			p.Breaks = append(p.Breaks, coverLine(l))
		} else {
			p.MoreBreaks = append(p.MoreBreaks, coverLine(l))
		}
	}
	p.ShareOut = v.shareOut(lines)
}

// took tells the standings that it took away, and folds those that were never held.
func (p *IncidentPage) took(v *visit, d office.IncidentDesk) {
	for _, t := range d.Took {
		l := TookLine{Skill: t.Skill.Title, Client: clientName(t.Client), Word: string(t.Now.Word), Now: v.say("Today %s; on the day before it happened: %s.", t.Now.Word, t.Before), Next: sentence(v.words().Of(t.Now.Next.Phrase()))}
		if d.Open && t.Stands && v.may(assessment.Observe) && v.by().Person != d.Person.ID && t.Now.Next.Demonstrations > 0 {
			l.Start = startAddress(d.Person.ID, t.Skill.Code, t.Client.ID)
		}
		own := t.Skill.ID == d.Skill.ID && t.Client.ID == d.Client.ID
		if own || t.Required || t.Before.Holds() {
			p.Took = append(p.Took, l)
		} else {
			p.Barred = append(p.Barred, l)
		}
	}
}

// ended tells how it was closed or taken back, or offers to.
func (p *IncidentPage) ended(w wording.Words, d office.IncidentDesk) {
	at := incidentsAt + "/" + string(d.ID)
	if !d.Closed.IsZero() {
		p.Closed = &EndedLine{d.ClosedBy + ", " + w.Instant(d.Closed, d.Closed.Location()), sentence(d.Note)}
		p.Record = Link{w.Say("The record that evaluated it again"), "/demonstrations/" + string(d.Record)}
	}
	if !d.TakenBack.IsZero() {
		p.TakenBack = &EndedLine{d.BackBy + ", " + w.Instant(d.TakenBack, d.TakenBack.Location()), sentence(d.BackWhy)}
	}
	if d.MayClose && d.Waits.IsZero() {
		p.Close.Action, p.Close.Records = at+"/closing", []Option{{Text: "Choose the record"}}
		for _, r := range d.Records {
			p.Close.Records = append(p.Close.Records, Option{Value: string(r.ID), Text: r.Performed.Format(instantForm) + ", seen by " + r.Observer})
		}
	}
	if d.MayBack {
		p.Undo.Action = at + "/taking-back"
	}
}

// incidentAnswer says in a sentence what it took and broke; of shifts only to whoever may see them all.
func incidentAnswer(d office.IncidentDesk, shifts bool) phrase.Phrase {
	left, held := 0, 0
	for _, t := range d.Took {
		if t.Stands && (t.Required || t.Before.Holds()) {
			left++
		}
		if t.Before.Holds() {
			held++
		}
	}
	who, skill := d.Person.Name, phrase.Step(d.Skill.Title)
	says := func(what phrase.Phrase) phrase.Phrase { return phrase.Of("%s, %s: %s", who, skill, what) }
	lost := phrase.Count(left, "%d skill is withdrawn", "%d skills are withdrawn")
	switch {
	case !d.TakenBack.IsZero():
		return says(phrase.Of("this incident was taken back"))
	case !d.Closed.IsZero():
		return says(phrase.Of("this incident is closed"))
	case len(d.Took) == 0:
		return says(phrase.Of("nothing was withdrawn"))
	case left == 0:
		return says(phrase.Of("everything is shown again"))
	case !shifts:
		return says(lost)
	case len(d.Breaks) > 0:
		return says(phrase.Of("%s, %s", lost, phrase.Count(len(d.Breaks), "%d shift breaks", "%d shifts break")))
	}
	return says(phrase.Of("%s, %s", lost, phrase.Of("no shift breaks by it")))
}

// withdrew says what an incident withdrew.
func withdrew(scope assessment.IncidentScope) phrase.Phrase {
	switch scope {
	case assessment.SkillAndRelated:
		return phrase.Of("It withdrew the skill and all related ones, with every child.")
	case assessment.SkillAlone:
		return phrase.Of("It withdrew the skill alone, with the child that is named.")
	}
	return phrase.Of("It withdrew nothing.")
}

// visitAgain is a visit at which it can be shown again.
func (v *visit) visitAgain(k office.HomeVisitView) VisitLine {
	l := visitLine(k)
	if w := v.words(); w.Language() != wording.English {
		l.Day = fullDay(w, k.On)
	}
	return l
}

func (s *Site) closeIncident(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	record, err := formID[assessment.DemonstrationID](v, "record")
	if err != nil {
		return err
	}
	refused := s.office.CloseIncident(v.ctx(), v.by(), office.CloseIncidentForm{ID: id, Record: record, Note: v.form("note"), Proof: v.proof()})
	if refused == nil {
		return v.to(incidentsAt+"/"+string(id), "The incident is closed.")
	}
	page, err := s.incidentPage(v)
	if err != nil {
		return err
	}
	page.Close.Record, page.Close.Note = string(record), v.form("note")
	if err := v.take(&page.Close.Faults, refused, "The incident was not closed.", label("record", "Record"), label("note", "Note"), label("password", "Your password")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) takeIncidentBack(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	refused := s.office.TakeIncidentBack(v.ctx(), v.by(), id, v.form("reason"), v.proof())
	if refused == nil {
		return v.to(incidentsAt+"/"+string(id), takenBack)
	}
	page, err := s.incidentPage(v)
	if err != nil {
		return err
	}
	page.Undo.Reason = v.form("reason")
	if err := v.take(&page.Undo.Faults, refused, "Nothing was taken back.", label("reason", "Reason"), label("password", "Your password")); err != nil {
		return err
	}
	return v.again(page)
}
