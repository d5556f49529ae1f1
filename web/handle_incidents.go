package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const incidentsAt = "/incidents"

func (s *Site) incidents(v *visit) error {
	page := IncidentsPage{Frame: v.frame("today")}
	q := office.IncidentQuery{}
	if whose := v.query("person"); whose != "" {
		var err error
		if q.Person, err = assessment.ParseID[assessment.PersonID](whose); err != nil {
			return err
		}
	}
	found, err := s.office.Incidents(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	for _, i := range found {
		if q.Person != "" {
			page.Whose = i.Person.Name
		}
		if i.Open {
			page.Open = append(page.Open, incidentLine(i))
		} else {
			page.Over = append(page.Over, incidentLine(i))
		}
	}
	switch n := len(page.Open); n {
	case 0:
		page.Answer = "No incident is open"
	default:
		page.Answer = spelledCount(n, "incident is open", "incidents are open")
	}
	if page.Whose != "" {
		page.Answer += " about " + page.Whose
	}
	if v.may(assessment.RecordIncident) {
		page.New = incidentsAt + "/new"
	}
	if v.may(assessment.ReadReports) {
		page.Rules = "/practice"
	}
	return v.show(page)
}

func incidentLine(i office.IncidentView) IncidentLine {
	l := IncidentLine{Href: incidentsAt + "/" + string(i.ID), When: i.Happened.Format("Mon " + instantForm), Person: i.Person.Name, Skill: i.Skill.Title, Client: clientName(i.Client), Seen: i.Seen, Shape: "open",
		Then: "open, recorded on " + i.Recorded.Format(dayForm) + " by " + i.By}
	switch {
	case !i.TakenBack.IsZero():
		l.Shape, l.Then = "fault", "taken back on "+i.TakenBack.Format(dayForm)+" by "+i.BackBy
	case !i.Closed.IsZero():
		l.Shape, l.Then = "met", "closed on "+i.Closed.Format(dayForm)+" by "+i.ClosedBy
	}
	return l
}

func (s *Site) newIncident(v *visit) error {
	page, err := s.incidentForm(v)
	if err != nil {
		return err
	}
	page.Whose, page.Skill, page.Client, page.Happened = v.query("person"), v.query("skill"), v.query("client"), v.query("happened")
	page.Seen = v.query("seen")
	return v.show(page)
}

// incidentForm offers what can be chosen. Nothing is chosen beforehand.
func (s *Site) incidentForm(v *visit) (IncidentFormPage, error) {
	d, err := s.office.BeforeIncident(v.ctx(), v.by())
	if err != nil {
		return IncidentFormPage{}, err
	}
	page := IncidentFormPage{Frame: v.frame("today"), Zone: d.Now.Format("MST"), People: []Option{{Text: "Choose whose hands"}}, Skills: []Option{{Text: "Choose the skill"}},
		Clients: clientOptions("every child, or choose the child", d.Clients)}
	for _, p := range d.People {
		page.People = append(page.People, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	for _, k := range d.Skills {
		o := Option{Value: k.Code, Text: k.Title}
		if k.PerChild {
			o.Text += ", for one child"
		}
		page.Skills = append(page.Skills, o)
	}
	if d.Rules.IncidentByItself {
		page.Withdraws, page.Says = string(d.Rules.IncidentWithdraws), scopeWords(d.Rules.IncidentWithdraws)
	} else {
		page.Withdraws = string(assessment.SkillAndRelated)
		page.Scopes = []Option{{Value: string(assessment.SkillAndRelated), Text: "the skill and all related ones", Hint: "with every child"},
			{Value: string(assessment.SkillAlone), Text: "the skill alone", Hint: "with the child that is named"}, {Value: string(assessment.WithdrawNothing), Text: "nothing", Hint: "they go on doing it alone"}}
	}
	page.ID, err = s.office.NewID()
	return page, err
}

// scopeWords says what an incident withdraws.
func scopeWords(scope assessment.IncidentScope) string {
	switch scope {
	case assessment.SkillAndRelated:
		return "the skill and all related ones, with every child"
	case assessment.SkillAlone:
		return "the skill alone, with the child that is named"
	}
	return "nothing"
}

func (s *Site) recordIncident(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	client, err := formID[assessment.ClientID](v, "client")
	if err != nil {
		return err
	}
	f := office.IncidentForm{ID: v.form("id"), Person: person, Skill: v.form("skill"), Client: client, Happened: v.form("happened"), Seen: v.form("seen"), Withdraws: v.form("withdraws"), Proof: v.proof()}
	id, refused := s.office.RecordIncident(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(incidentsAt+"/"+string(id), "The incident is recorded.")
	}
	page, err := s.incidentForm(v)
	if err != nil {
		return err
	}
	page.Whose, page.Skill, page.Client, page.Happened, page.Seen = v.form("person"), f.Skill, v.form("client"), f.Happened, f.Seen
	if len(page.Scopes) > 0 && f.Withdraws != "" {
		page.Withdraws = f.Withdraws
	}
	err = take(&page.Faults, refused, "The incident was not recorded, and nothing was withdrawn.", label("person", "Whose hands"), label("skill", "Skill"), label("client", "Child"),
		label("happened", "When it happened"), label("seen", "What was seen"), label("withdraws", "What it withdraws"), label("password", "Your password"))
	if err != nil {
		return err
	}
	return v.again(page)
}

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
	page := IncidentPage{Frame: v.frame(here), Answer: incidentAnswer(d), Line: incidentLine(d.IncidentView), PersonAt: "/people/" + string(d.Person.ID), Recorded: d.By + ", " + d.Recorded.Format(instantForm),
		Withdrew: scopeWords(d.Withdraws), Through: day(d.Through), Open: d.Open, Waits: d.Waits}
	page.took(v, d)
	page.ended(d)
	for _, l := range d.Breaks {
		page.Breaks = append(page.Breaks, coverLine(l))
	}
	for _, k := range d.Visits {
		page.Visits = append(page.Visits, visitLine(k))
	}
	for _, k := range d.Proposed {
		page.Proposed = append(page.Proposed, visitLine(k))
	}
	if d.Open && v.may(assessment.ReadReports) && len(d.Visits)+len(d.Proposed) > 0 {
		page.Plan = "/visits"
	}
	for _, t := range d.Taught {
		page.Taught = append(page.Taught, strings.TrimSuffix(day(t.FromOn)+", by "+t.By+": "+t.Reason, ": "))
	}
	if d.Open && v.may(assessment.LogCare) && v.by().Person != d.Person.ID {
		page.Teach = page.PersonAt + "#log"
	}
	return page, nil
}

// took tells the standings that it took away, and folds those that were never held.
func (p *IncidentPage) took(v *visit, d office.IncidentDesk) {
	for _, t := range d.Took {
		l := TookLine{Skill: t.Skill.Title, Client: clientName(t.Client), Word: string(t.Now.Word), Before: string(t.Before), Next: sentence(t.Now.Next.InWords())}
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
func (p *IncidentPage) ended(d office.IncidentDesk) {
	at := incidentsAt + "/" + string(d.ID)
	if !d.Closed.IsZero() {
		p.Closed = d.ClosedBy + ", " + d.Closed.Format(instantForm) + ": " + sentence(d.Note)
		p.Record = Link{"The record that evaluated it again", "/demonstrations/" + string(d.Record)}
	}
	if !d.TakenBack.IsZero() {
		p.TakenBack = d.BackBy + ", " + d.TakenBack.Format(instantForm) + ": " + sentence(d.BackWhy)
	}
	if d.MayClose && d.Waits == "" {
		p.Close.Action, p.Close.Records = at+"/closing", []Option{{Text: "Choose the record"}}
		for _, r := range d.Records {
			p.Close.Records = append(p.Close.Records, Option{Value: string(r.ID), Text: r.Performed.Format(instantForm) + ", seen by " + r.Observer})
		}
	}
	if d.MayBack {
		p.Undo.Action = at + "/taking-back"
	}
}

// incidentAnswer says in a sentence what it took and broke.
func incidentAnswer(d office.IncidentDesk) string {
	left, held := 0, 0
	for _, t := range d.Took {
		if t.Stands && (t.Required || t.Before.Holds()) {
			left++
		}
		if t.Before.Holds() {
			held++
		}
	}
	who := d.Person.Name + ", " + d.Skill.Title + ": "
	switch {
	case !d.TakenBack.IsZero():
		return who + "this incident was taken back"
	case !d.Closed.IsZero():
		return who + "this incident is closed"
	case len(d.Took) == 0:
		return who + "nothing was withdrawn"
	case left == 0:
		return who + "everything is shown again"
	case len(d.Breaks) > 0:
		return who + count(left, "skill is", "skills are") + " withdrawn, " + count(len(d.Breaks), "shift breaks", "shifts break")
	}
	return who + count(left, "skill is", "skills are") + " withdrawn, no shift breaks by it"
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
	if err := take(&page.Close.Faults, refused, "The incident was not closed.", label("record", "Record"), label("note", "Note"), label("password", "Your password")); err != nil {
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
	if err := take(&page.Undo.Faults, refused, "Nothing was taken back.", label("reason", "Reason"), label("password", "Your password")); err != nil {
		return err
	}
	return v.again(page)
}
