package web

import (
	"net/url"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const supervisionAt = "/supervision"

// mustChoose refuses a form in which nothing was chosen.
func mustChoose(is bool, field, says string) error {
	if is {
		return nil
	}
	return &fault.Fault{Kind: fault.Invalid, Message: "One thing needs mending.", Fields: map[string]string{field: says}}
}

func (s *Site) supervision(v *visit) error {
	page, err := s.supervisionPage(v, assessment.PersonID(v.query("aide")), assessment.ClientID(v.query("client")))
	if err != nil {
		return err
	}
	page.Log.Aide, page.Log.Client = v.query("aide"), v.query("client")
	return v.show(page)
}

func (s *Site) supervisionPage(v *visit, aide assessment.PersonID, client assessment.ClientID) (SupervisionPage, error) {
	d, err := s.office.Supervision(v.ctx(), v.by(), aide, client)
	if err != nil {
		return SupervisionPage{}, err
	}
	page := SupervisionPage{Frame: v.frame("today"), Answer: supervisionAnswer(d), Off: !d.On, Rules: "/practice"}
	if aide != "" || client != "" {
		page.All = supervisionAt
		if len(d.Lines) == 0 && d.On {
			page.Answer = "Nothing here for this aide and child"
		}
	}
	for _, l := range d.Lines {
		page.Lines = append(page.Lines, supervisionLine(v.words(), l, d.Today, v.may(assessment.LogPractice)))
	}
	for _, m := range d.Visits {
		page.Made = append(page.Made, v.madeLine(m, page.CSRF))
	}
	page.forms(d)
	page.Set.Client = v.query("care")
	if v.may(assessment.LogPractice) {
		page.Log.Action = supervisionAt
		page.Log.ID, err = s.office.NewID()
	}
	if v.may(assessment.EditClients) {
		page.Set.Action = supervisionAt + "/skilled-care"
		for i, c := range d.Care {
			if !c.Known {
				page.Care[i].Set = supervisionAt + "?care=" + string(c.Client.ID) + "#care"
			}
		}
	}
	return page, err
}

// forms fills in what can be chosen.
func (p *SupervisionPage) forms(d office.SupervisionView) {
	p.Log = SupervisionForm{On: isoDay(d.Today), How: string(assessment.OnSite), Aides: []Option{{Text: "Choose the aide"}}, Clients: []Option{{Text: "Choose the child"}}, Supervisors: []Option{{Text: "Choose who assessed it"}},
		Hows: []Option{{Value: string(assessment.OnSite), Text: "on site"}, {Value: string(assessment.AudioVideo), Text: "by two-way audio-video", Hint: "with skilled care only, once in 60 days, and with the circumstances"}}}
	p.Set = CareForm{From: isoDay(d.Today), Clients: []Option{{Text: "Choose the child"}}, Answers: []Option{{Value: "yes", Text: "skilled care too"}, {Value: "no", Text: "no skilled care"}}}
	for _, a := range d.Aides {
		p.Log.Aides = append(p.Log.Aides, Option{Value: string(a.ID), Text: a.Name})
	}
	for _, a := range d.Supervisors {
		p.Log.Supervisors = append(p.Log.Supervisors, Option{Value: string(a.ID), Text: a.Name})
	}
	for _, c := range d.Care {
		o := Option{Value: string(c.Client.ID), Text: clientName(c.Client)}
		p.Log.Clients, p.Set.Clients = append(p.Log.Clients, o), append(p.Set.Clients, o)
		line := CareLine{Client: o.Text, Says: "Not said yet: the shorter times are taken."}
		if c.Known {
			line.Says = map[bool]string{true: "skilled care too", false: "no skilled care"}[c.Skilled] + ", from " + day(c.From)
			if !c.Episodes.IsZero() {
				line.Says += "; 60-day episodes from " + day(c.Episodes)
			}
		}
		p.Care = append(p.Care, line)
	}
}

func supervisionAnswer(d office.SupervisionView) string {
	switch {
	case !d.On:
		return "Supervision of aides is not kept here"
	case len(d.Lines) == 0:
		return "No aide is on a child’s team"
	case d.Overdue > 0 && d.Soon > 0:
		return spelledCount(d.Overdue, "assessment is", "assessments are") + " overdue, " + count(d.Soon, "more is", "more are") + " due within 7 days"
	case d.Overdue > 0:
		return spelledCount(d.Overdue, "assessment is", "assessments are") + " overdue"
	case d.Soon > 0:
		return "Nothing is overdue; " + count(d.Soon, "assessment is", "assessments are") + " due within 7 days"
	}
	return "Nothing is overdue, and nothing due within 7 days"
}

func supervisionLine(w wording.Words, l office.SupervisionLine, today civil.Date, logs bool) SupervisionLine {
	line := SupervisionLine{Aide: l.Aide.Name, Href: "/people/" + string(l.Aide.ID), Client: clientName(l.Client), Shape: "met", Says: w.Say("Assess by %s", w.ShortDay(l.By)), Watch: w.Say("Watch giving care by %s", w.ShortDay(l.WatchBy)), Minor: w.Say("With skilled care")}
	if civil.Earlier(l.By, l.WatchBy).Sub(today) <= office.SupervisionSoon {
		line.Shape = "due"
	}
	if l.Late {
		line.Says = w.Say("%s: overdue", line.Says)
	}
	if l.Unseen {
		line.Watch = w.Say("%s: overdue", line.Watch)
	}
	if l.Late || l.Unseen {
		line.Shape = "lapsed"
	}
	switch {
	case !l.Known:
		line.Minor = w.Say("Whether the child gets skilled care is not said, so the shorter times are taken")
	case !l.Skilled:
		line.Minor = w.Say("Without skilled care")
	}
	if l.Last.IsZero() {
		line.Minor += " · " + w.Say("not assessed yet")
	} else {
		line.Minor += " · " + w.Say("last assessed on %s", w.ShortDay(l.Last))
	}
	if logs {
		line.Log = supervisionAt + "?" + url.Values{"aide": {string(l.Aide.ID)}, "client": {string(l.Client.ID)}}.Encode() + "#log"
	}
	return line
}

func (v *visit) madeLine(m office.SupervisoryView, csrf string) MadeLine {
	line := MadeLine{Says: day(m.On) + ": " + m.Aide.Name + " with " + clientName(m.Client) + ", by " + m.Supervisor.Name + ", " + string(m.How), Found: m.Found, Back: m.TakenBack, CSRF: csrf}
	if m.Watched {
		line.Says += ", watched giving care"
	}
	if m.Why != "" {
		line.Says += " (" + m.Why + ")"
	}
	if m.Deficient && !m.TakenBack && v.may(assessment.RecordIncident) {
		line.Incident = incidentsAt + "/new?" + url.Values{"person": {string(m.Aide.ID)}, "client": {string(m.Client.ID)}, "seen": {"Found at the supervisory visit of " + day(m.On) + ": " + m.Found}}.Encode()
	}
	if v.may(assessment.LogPractice) && !m.TakenBack {
		line.Undo = supervisionAt + "/" + string(m.ID) + "/taking-back"
	}
	return line
}

func (s *Site) addSupervision(v *visit) error {
	var f office.SupervisionForm
	var err error
	if f.Client, err = formID[assessment.ClientID](v, "client"); err != nil {
		return err
	}
	if f.Aide, err = formID[assessment.PersonID](v, "aide"); err != nil {
		return err
	}
	if f.Supervisor, err = formID[assessment.PersonID](v, "supervisor"); err != nil {
		return err
	}
	f.ID, f.On, f.How, f.Watched, f.Why, f.Found, f.Deficient = v.form("id"), v.form("on"), v.form("how"), v.ticked("watched"), v.form("why"), v.form("found"), v.ticked("deficient")
	_, refused := s.office.AddSupervision(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(supervisionAt, "The assessment is written down.")
	}
	page, err := s.supervisionPage(v, "", "")
	if err != nil {
		return err
	}
	form := &page.Log
	form.Client, form.Aide, form.Supervisor, form.On, form.How = string(f.Client), string(f.Aide), string(f.Supervisor), f.On, f.How
	form.Watched, form.Why, form.Found, form.Deficient = tick(f.Watched), f.Why, f.Found, tick(f.Deficient)
	err = v.take(&form.Faults, refused, "The assessment was not written down.", label("aide", "Aide"), label("client", "Child"), label("supervisor", "Assessed by"), label("on", "On"), label("how", "How"),
		label("watched", "Watched"), label("why", "Circumstances"), label("found", "What was found"))
	if err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) takeSupervisionBack(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.TakeSupervisionBack(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(supervisionAt, "It is taken back. It stays readable.")
}

func (s *Site) setSkilledCare(v *visit) error {
	client, err := formID[assessment.ClientID](v, "client")
	if err != nil {
		return err
	}
	answer := v.form("skilled")
	refused := mustChoose(client != "", "client", "Choose the child.")
	if refused == nil {
		refused = mustChoose(answer == "yes" || answer == "no", "skilled", "Choose one of the two.")
	}
	if refused == nil {
		refused = s.office.SetSkilledCare(v.ctx(), v.by(), client, office.SkilledCareForm{From: v.form("from"), Skilled: answer == "yes", Episodes: v.form("episodes")})
	}
	if refused == nil {
		return v.to(supervisionAt, "It is set. The days follow it.")
	}
	page, err := s.supervisionPage(v, "", "")
	if err != nil {
		return err
	}
	page.Set.Client, page.Set.From, page.Set.Skilled, page.Set.Episodes = string(client), v.form("from"), answer, v.form("episodes")
	if err := v.take(&page.Set.Faults, refused, "It was not set.", label("client", "Child"), label("from", "From"), label("skilled", "It gets"), label("episodes", "Episodes from")); err != nil {
		return err
	}
	return v.again(page)
}
