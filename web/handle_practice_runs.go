package web

import (
	"net/url"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// practise is the checklist of a skill to practise by.
func (s *Site) practise(v *visit) error {
	page, err := s.practisePage(v, v.query("what"))
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) practisePage(v *visit, what string) (PractisePage, error) {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return PractisePage{}, err
	}
	skill, client, _ := strings.Cut(what, " ")
	d, err := s.office.BeforePractice(v.ctx(), v.by(), id, skill, assessment.ClientID(client))
	if err != nil {
		return PractisePage{}, err
	}
	page := PractisePage{Frame: v.frame("people"), Name: d.Person.Name, Back: learningAt(id), Own: id == v.by().Person, Skill: d.List.RevisionView.Title, Action: learningAt(id) + "/practice?what=" + url.QueryEscape(what), ID: d.ID, Revision: string(d.List.ID), What: what, Client: client, On: isoDay(d.Today), Clients: []Option{{Text: v.say("no child")}}}
	if page.Own {
		page.Frame, page.Back = v.ownFrame(), "/plan"
	} else {
		page.Helpers = personOptions("nobody: alone", d.Helpers)
	}
	for _, c := range d.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, step := range d.List.Steps() {
		page.Steps = append(page.Steps, PracticeStep{Field: "step-" + strconv.Itoa(step.No), No: step.No, Text: step.Text, How: wentOptions(v.words(), page.Own)})
	}
	return page, nil
}

// ownFrame is that of a page which somebody reads about themselves.
func (v *visit) ownFrame() Frame {
	if v.whole(assessment.ReadLearning) {
		return v.frame("people")
	}
	return v.frame("home")
}

// wentOptions are how a step can have gone. Whoever practised with nobody there had no help.
func wentOptions(w wording.Words, own bool) []Option {
	all := []Option{{Text: w.Say("not tried")}, {Value: string(assessment.WentAlone), Text: w.Say("alone")}}
	if !own {
		all = append(all, Option{Value: string(assessment.WentWithHelp), Text: w.Say("with help")})
	}
	return append(all, Option{Value: string(assessment.WentNotYet), Text: w.Say("not yet")})
}

func (s *Site) logPracticeRun(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	page, err := s.practisePage(v, v.form("what"))
	if err != nil {
		return err
	}
	f := office.PracticeRunForm{ID: v.form("id"), Person: id, DoneOn: v.form("done_on"), Note: v.form("note"), Marks: map[int]assessment.PracticeMark{}}
	if f.Revision, err = formID[assessment.RevisionID](v, "revision"); err != nil {
		return err
	}
	if f.Client, err = formID[assessment.ClientID](v, "client"); err != nil {
		return err
	}
	if f.Helper, err = formID[assessment.PersonID](v, "helper"); err != nil {
		return err
	}
	for i, step := range page.Steps {
		if page.Steps[i].Went = v.form(step.Field); page.Steps[i].Went != "" {
			f.Marks[i+1] = assessment.PracticeMark(page.Steps[i].Went)
		}
	}
	made, refused := s.office.LogPracticeRun(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to("/practice-runs/"+string(made), v.say("The practice is written down. It counts for no skill."))
	}
	page.On, page.Client, page.Helper, page.Note = f.DoneOn, string(f.Client), string(f.Helper), f.Note
	if err := v.take(&page.Faults, refused, v.say("The practice was not written down."), label("done_on", v.say("Done on")), label("helper", "Who helped"), label("marks", v.say("Steps")), label("note", v.say("Note"))); err != nil {
		return err
	}
	return v.again(page)
}

// practiceRun is one practice run.
func (s *Site) practiceRun(v *visit) error {
	page, err := s.practiceRunPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) practiceRunPage(v *visit) (PracticeRunPage, error) {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return PracticeRunPage{}, err
	}
	d, err := s.office.PracticeRun(v.ctx(), v.by(), id)
	if err != nil {
		return PracticeRunPage{}, err
	}
	page := PracticeRunPage{Frame: v.ownFrame(), Name: d.Who.Name, Back: learningAt(d.Person), Entry: practiceEntry(d, v.words()), Note: d.Note}
	for _, l := range d.Lines {
		went := ""
		switch l.Went {
		case assessment.WentAlone:
			went = v.say("alone")
		case assessment.WentWithHelp:
			went = v.say("with help")
		case assessment.WentNotYet:
			went = v.say("not yet")
		}
		page.Steps = append(page.Steps, PracticeStepLine{l.No, l.Text, went})
	}
	if v.may(assessment.NotePractice) && d.PracticeRun.Back == "" && (d.Person != v.by().Person || d.ByMyself()) {
		page.Undo = "/practice-runs/" + string(id) + "/taking-back"
	}
	return page, nil
}

func (s *Site) takePracticeBack(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	refused := s.office.TakeBackPractice(v.ctx(), v.by(), id, v.form("reason"))
	if refused == nil {
		return v.to("/practice-runs/"+string(id), v.say("It is taken back. It stays readable, with your reason."))
	}
	page, err := s.practiceRunPage(v)
	if err != nil {
		return err
	}
	page.Reason = v.form("reason")
	if err := v.take(&page.Faults, refused, v.say("Nothing was taken back."), label("reason", v.say("Reason"))); err != nil {
		return err
	}
	return v.again(page)
}
