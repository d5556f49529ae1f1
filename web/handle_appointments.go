package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) appointments(v *visit) error {
	page, err := s.appointmentsPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) appointmentsPage(v *visit) (AppointmentsPage, error) {
	page := AppointmentsPage{Frame: v.frame("people"), MayAdd: v.may(assessment.Appoint)}
	d, err := s.office.AppointmentsDesk(v.ctx(), v.by())
	if err != nil {
		return page, err
	}
	titles := map[string]string{}
	for _, k := range d.Skills {
		titles[k.Code] = k.Title
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	observers := map[assessment.PersonID]bool{}
	for _, a := range d.All {
		line := v.appointmentLine(a, titles, d.Licences[a.Person])
		switch {
		case a.Pending:
			page.Proposed = append(page.Proposed, line)
		case a.Open:
			page.Agreed, observers[a.Person] = append(page.Agreed, line), true
		default:
			page.Ended = append(page.Ended, line)
		}
	}
	page.Observers = len(observers)
	page.People = []Option{{Text: "Choose who is to observe"}}
	for _, p := range d.People {
		page.People = append(page.People, Option{Value: string(p.ID), Text: p.Name})
	}
	page.From, page.Through = isoDay(d.Today), isoDay(d.Today.AddMonths(12).AddDays(-1))
	page.ID, err = s.office.NewID()
	return page, err
}

func (v *visit) appointmentLine(a office.AppointmentView, titles map[string]string, licences []office.LicenceView) AppointmentLine {
	line := AppointmentLine{ID: string(a.ID), Name: a.Name, Href: "/people/" + string(a.Person), Skills: skillsOf(a.Skills, titles), Founding: a.Founding,
		Evidence: a.Evidence, From: day(a.From), Through: day(a.Through), Licence: "no licence on file that holds today"}
	for _, l := range licences {
		if l.Current {
			line.Licence = l.Kind + " " + l.Number
			break
		}
	}
	line.Signed = append(line.Signed, Signature{Name: a.ProposedBy, As: "proposed by", At: day(a.ProposedOn)})
	if a.AgreedBy != "" {
		line.Signed = append(line.Signed, Signature{Name: a.AgreedBy, As: "agreed by", At: day(a.AgreedOn)})
	}
	switch {
	case !a.EndedOn.IsZero():
		line.Ended = "Ended on " + day(a.EndedOn) + ": " + sentence(a.EndReason)
	case !a.Pending && !a.Open:
		line.Ended = "Its last day has passed."
		if a.AgreedBy == "" {
			line.Ended = "Nobody agreed before its last day."
		}
	case v.may(assessment.Appoint):
		line.End = "/appointments/" + line.ID + "/end"
		line.agreeable(a, v.by().Person)
	}
	return line
}

// skillsOf names the skills of an appointment; all that there are in short.
func skillsOf(codes []string, titles map[string]string) string {
	if len(codes) > 1 && len(codes) == len(titles) {
		return "all " + count(len(codes), "skill", "skills")
	}
	return named(codes, titles)
}

// agreeable offers the second signature to who may give it.
func (l *AppointmentLine) agreeable(a office.AppointmentView, reader assessment.PersonID) {
	switch {
	case !a.Pending:
	case a.Person == reader:
		l.MayNot = "It is your own: somebody else agrees to it."
	case a.Proposed == reader:
		l.MayNot = "You proposed it: somebody else agrees to it."
	default:
		l.Agree = "/appointments/" + l.ID + "/agreement"
	}
}

func (s *Site) proposeAppointment(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	form := office.AppointmentForm{Person: person, Skills: v.c.PostFormArray("skills"), From: v.form("from"), Through: v.form("through"),
		Founding: v.ticked("founding"), Evidence: v.form("evidence")}
	_, refused := s.office.ProposeAppointment(v.ctx(), v.by(), form)
	if refused == nil || fault.KindOf(refused) == fault.Conflict {
		return v.to("/appointments", "It is proposed. It counts once a second person has agreed.")
	}
	page, err := s.appointmentsPage(v)
	if err != nil {
		return err
	}
	page.Observer, page.Founding, page.Evidence, page.From, page.Through = string(person), form.Founding, form.Evidence, form.From, form.Through
	for i := range page.Skills {
		for _, code := range form.Skills {
			page.Skills[i].Chosen = page.Skills[i].Chosen || page.Skills[i].Value == code
		}
	}
	if err := v.take(&page.Faults, refused, "Nobody was proposed.", label("person", "Person"), label("skills", "May observe"),
		label("evidence", "Evidence"), label("from", "From"), label("through", "Last day")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) agreeAppointment(v *visit) error {
	return s.onAppointment(v, "You have agreed. It counts from its first day.", "You have not agreed.", func(id assessment.AppointmentID) error {
		_, err := s.office.AgreeAppointment(v.ctx(), v.by(), id)
		return err
	})
}

func (s *Site) endAppointment(v *visit) error {
	return s.onAppointment(v, "It has ended. From today on it does not count.", "It has not ended.", func(id assessment.AppointmentID) error {
		_, err := s.office.EndAppointment(v.ctx(), v.by(), id, v.form("reason"))
		return err
	})
}

// onAppointment does something to an appointment; a refusal stands beside its line.
func (s *Site) onAppointment(v *visit, done, what string, do func(assessment.AppointmentID) error) error {
	id, err := pathID[assessment.AppointmentID](v, "id")
	if err != nil {
		return err
	}
	refused := do(id)
	if refused == nil {
		return v.to("/appointments", done)
	}
	page, err := s.appointmentsPage(v)
	if err != nil {
		return err
	}
	for _, lines := range [][]AppointmentLine{page.Proposed, page.Agreed, page.Ended} {
		for i := range lines {
			if lines[i].ID != string(id) {
				continue
			}
			lines[i].Reason = v.form("reason")
			if err := v.take(&lines[i].Faults, refused, what, label("reason", "Reason")); err != nil {
				return err
			}
			return v.again(page)
		}
	}
	return refused
}
