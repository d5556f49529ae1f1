package web

import (
	"errors"
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

func (s *Site) start(v *visit) error {
	chosen := startForm{learner: v.query("learner"), skill: v.query("skill"), client: v.query("client")}
	page, err := s.startPage(v, chosen)
	if err != nil {
		return err
	}
	return v.show(page)
}

// startForm is what was chosen or typed, as it is sent.
type startForm struct{ id, learner, skill, client, setting, purpose, place, at, paper, printed string }

func sentStart(v *visit) startForm {
	return startForm{v.form("id"), v.form("learner"), v.form("skill"), v.form("client"), v.form("setting"), v.form("purpose"), v.form("place"), v.form("performed_at"),
		v.form("from_paper"), v.form("paper_revision")}
}

// startPage draws the form with what is chosen. What cannot be an id is not chosen.
func (s *Site) startPage(v *visit, f startForm) (StartPage, error) {
	learner, _ := assessment.ParseID[assessment.PersonID](f.learner)
	client, _ := assessment.ParseID[assessment.ClientID](f.client)
	b, err := s.office.BeforeOpening(v.ctx(), v.by(), office.Chosen{Learner: learner, Skill: f.skill, Client: client})
	if err != nil {
		return StartPage{}, err
	}
	page := StartPage{Frame: v.frame("start"), ID: string(b.ID), Learner: string(learner), Skill: f.skill, Client: string(client), Setting: f.setting,
		Purpose: f.purpose, Place: f.place, PerformedAt: f.at, Observer: v.by().Name, MayNot: b.MayNot,
		FromPaper: f.paper, Printed: f.printed}
	if f.id != "" { // the same form again is the same demonstration
		page.ID = f.id
	}
	page.Learners, page.Skills = []Option{{Text: "Choose who shows it"}}, []Option{{Text: "Choose the skill"}}
	for _, p := range b.Learners {
		page.Learners = append(page.Learners, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	for _, k := range b.Skills {
		text := k.Title
		if !k.Specific {
			text += ", for every child"
		}
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: text})
		if k.Code == f.skill && k.ManikinOnly && page.Setting == "" {
			page.Setting = "simulation"
		}
	}
	page.Clients = []Option{{Text: "no child"}}
	for _, c := range b.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	if b.Caution != "" {
		page.Cautions = []string{b.Caution}
	}
	return page, nil
}

// open begins a demonstration. A second click finds the one that the first began.
func (s *Site) open(v *visit) error {
	f := sentStart(v)
	form, err := f.read()
	var sheet office.SheetView
	if err == nil {
		sheet, err = s.office.Open(v.ctx(), v.by(), form)
	}
	switch {
	case err == nil:
		return v.to(demonstrationAt(sheet.ID)+"/marks", "")
	case errors.Is(err, office.ErrRecorded):
		return v.to("/demonstrations/"+form.ID, recordedAlready)
	}
	faults, unknown := v.wrong(err, "The demonstration was not begun.", label("learner", "Learner"), label("skill", "Skill"), label("client", "For the child"),
		label("setting", "Shown on"), label("purpose", "It is"), label("place", "Place"), label("performed_at", "When"), label("paper_revision", "Revision on the paper"))
	if unknown != nil {
		return unknown
	}
	page, err := s.startPage(v, f)
	if err != nil {
		return err
	}
	page.Faults, page.Cautions = faults, nil
	return v.again(page)
}

// read turns the two choices of the form, which have no default, into what the
// office asks.
func (f startForm) read() (office.OpenForm, error) {
	var faults fault.Fields
	form := office.OpenForm{ID: f.id, Skill: f.skill, Place: f.place, When: f.at, Real: f.setting == "real", Formal: f.purpose == "formal", FromPaper: f.paper != ""}
	if f.setting != "real" && f.setting != "simulation" {
		faults.Add("setting", "Say on whom or what it is shown.")
	}
	if f.purpose != "formal" && f.purpose != "practice" {
		faults.Add("purpose", "Say whether it counts or is practice.")
	}
	var err error
	if form.FromPaper && f.printed != "" {
		if form.PaperRevision, err = strconv.Atoi(f.printed); err != nil || form.PaperRevision < 1 {
			faults.Add("paper_revision", "This is a whole number, such as 4.")
		}
	}
	if f.learner != "" {
		form.Learner, err = assessment.ParseID[assessment.PersonID](f.learner)
		faults.Take("learner", err)
	} else {
		faults.Add("learner", "Choose who shows the skill.")
	}
	if f.client != "" {
		form.Client, err = assessment.ParseID[assessment.ClientID](f.client)
		faults.Take("client", err)
	}
	if f.skill == "" {
		faults.Add("skill", "Choose the skill.")
	}
	if f.place == "" {
		faults.Add("place", "Say where it is shown, such as: at home, skills room.")
	}
	return form, faults.Err()
}

const recordedAlready = "It has been recorded already: here is the record."

func demonstrationAt(id assessment.DemonstrationID) string { return "/demonstrations/" + string(id) }
