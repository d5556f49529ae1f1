package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
	"wellshown/assessment/wording"
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
			page.Open = append(page.Open, incidentLine(v.words(), i))
		} else {
			page.Over = append(page.Over, incidentLine(v.words(), i))
		}
	}
	n := len(page.Open)
	answer := phrase.Count(n, "One incident is open", "%d incidents are open")
	switch {
	case n == 0 && q.Person == "" && !v.may(assessment.ReadReports):
		answer = phrase.Of("No incident about you is open")
	case n == 0:
		answer = phrase.Of("No incident is open")
	}
	if page.Whose != "" {
		answer = phrase.Of("%s about %s", answer, page.Whose)
	}
	page.Answer = v.words().Of(answer)
	if v.may(assessment.RecordIncident) {
		page.New = incidentsAt + "/new"
	}
	if v.may(assessment.ReadReports) {
		page.Rules = "/practice"
	}
	return v.show(page)
}

func incidentLine(w wording.Words, i office.IncidentView) IncidentLine {
	zone := i.Happened.Location()
	on := func(at time.Time) string { return w.ShortDay(civil.DayOf(at, zone)) }
	l := IncidentLine{Href: incidentsAt + "/" + string(i.ID), When: performedAt(w, i.Happened, zone), Person: i.Person.Name, Skill: i.Skill.Title, Client: clientName(i.Client), Seen: i.Seen, Shape: "open",
		Then: w.Say("open, recorded on %s by %s", on(i.Recorded), i.By)}
	switch {
	case !i.TakenBack.IsZero():
		l.Shape, l.Then = "fault", w.Say("taken back on %s by %s", on(i.TakenBack), i.BackBy)
	case !i.Closed.IsZero():
		l.Shape, l.Then = "met", w.Say("closed on %s by %s", on(i.Closed), i.ClosedBy)
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
		Clients: clientOptions("every child", d.Clients)}
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
	err = v.take(&page.Faults, refused, "The incident was not recorded, and nothing was withdrawn.", label("person", "Whose hands"), label("skill", "Skill"), label("client", "Child"),
		label("happened", "When it happened"), label("seen", "What was seen"), label("withdraws", "What it withdraws"), label("password", "Your password"))
	if err != nil {
		return err
	}
	return v.again(page)
}
