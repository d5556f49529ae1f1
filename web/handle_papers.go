package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

func (s *Site) papers(v *visit) error {
	page, err := s.papersPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) papersPage(v *visit) (PapersPage, error) {
	p, err := s.office.Printable(v.ctx(), v.by())
	if err != nil {
		return PapersPage{}, err
	}
	page := PapersPage{Frame: v.frame("papers"), On: isoDay(p.Today), Within: "90", Group: "caregiver"}
	for _, c := range p.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, c := range p.People {
		page.People = append(page.People, Option{Value: string(c.ID), Text: c.Name + ", " + kindOf(c)})
	}
	for _, r := range p.Revisions {
		text := r.Title
		if r.State == assessment.Draft {
			text += " (draft)"
		}
		page.Skills = append(page.Skills, Option{Value: string(r.ID), Text: text})
	}
	for _, t := range p.Recent {
		at := "/certificates/" + string(t.ID)
		title := t.Title + " · " + t.Person
		if t.Client != "" {
			title += " · for " + t.Client
		}
		page.Recent = append(page.Recent, PaperLine{Title: title, Day: dayIn(&t.IssuedAt, v.zone()), Page: at, PDF: at + "/certificate.pdf"})
	}
	return page, nil
}

// papersAgain shows the forms again with what was chosen in the one that could
// not be printed.
func (s *Site) papersAgain(v *visit, paper string, bad error) error {
	faults, unknown := v.wrong(bad, "This paper cannot be drawn.", label("on", "On the day"), label("within", "Ahead"), label("client", "Child"),
		label("person", "Person"), label("revision", "Checklist"))
	if unknown != nil {
		return unknown
	}
	page, err := s.papersPage(v)
	if err != nil {
		return err
	}
	page.Faults, page.Paper = faults, paper
	page.On, page.Client, page.Caregiver, page.Skill = v.query("on"), v.query("client"), v.query("person"), v.query("revision")
	if paper == "overdue" {
		page.Within, page.Group = v.query("within"), v.query("group")
	}
	return v.again(page)
}

// chosen reads an id of the address that must be given, and the day beside it.
func chosen[T ~string](v *visit, name, missing string) (T, civil.Date, error) {
	var faults fault.Fields
	on, err := v.day("on")
	faults.Take("on", err)
	id, err := assessment.ParseID[T](v.query(name))
	if err != nil {
		faults.Add(name, "%s", missing)
	}
	return id, on, faults.Err()
}

func (s *Site) chosenReadinessPDF(v *visit) error {
	client, on, err := chosen[assessment.ClientID](v, "client", "Choose the child.")
	if err != nil {
		return s.papersAgain(v, "readiness", err)
	}
	return s.drawReadiness(v, client, on)
}

func (s *Site) readinessPDF(v *visit) error {
	client, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	on, err := v.day("on")
	if err != nil {
		return err
	}
	return s.drawReadiness(v, client, on)
}

func (s *Site) drawReadiness(v *visit, client assessment.ClientID, on civil.Date) error {
	body, name, err := s.opt.Papers.Readiness(v.ctx(), v.by(), client, v.endOf(on), v.paperLanguage())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

// endOf is the last instant of a day on the agency's clocks; the zero instant,
// which is now, for no day.
func (v *visit) endOf(on civil.Date) time.Time {
	if on.IsZero() {
		return time.Time{}
	}
	return on.AddDays(1).In(v.zone()).Add(-time.Microsecond)
}

func (s *Site) transcriptPDF(v *visit) error {
	person, on, err := chosen[assessment.PersonID](v, "person", "Choose the person.")
	switch {
	case err != nil && v.may(assessment.ReadReports):
		return s.papersAgain(v, "transcript", err)
	case err != nil:
		return err
	}
	body, name, err := s.opt.Papers.Transcript(v.ctx(), v.by(), person, on, v.paperLanguage())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}

func (s *Site) chosenBlankPDF(v *visit) error {
	revision, _, err := chosen[assessment.RevisionID](v, "revision", "Choose the checklist.")
	switch {
	case err != nil && v.may(assessment.ReadReports):
		return s.papersAgain(v, "blank", err)
	case err != nil:
		return err
	}
	body, name, err := s.opt.Papers.Blank(v.ctx(), v.by(), revision)
	if err != nil {
		return err
	}
	return file(v.c, body, name, "application/pdf")
}
