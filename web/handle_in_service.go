package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const inServiceAt = "/in-service"

func (s *Site) inService(v *visit) error {
	page, err := s.inServicePage(v, assessment.PersonID(v.query("person")))
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) inServicePage(v *visit, person assessment.PersonID) (InServicePage, error) {
	d, err := s.office.InService(v.ctx(), v.by(), person)
	if err != nil {
		return InServicePage{}, err
	}
	page := InServicePage{Frame: v.frame("today"), Answer: inServiceAnswer(d), Off: !d.On, Rules: "/practice", Rule: office.HoursOf(d.Rule.Minutes) + " hours in each " + yearWords(d.Rule.Year), CSV: inServiceAt + ".csv"}
	if person != "" {
		page.All = inServiceAt
		if len(d.Lines) == 0 && d.On {
			page.Answer = "No hours are counted of this person"
		}
	}
	for _, l := range d.Lines {
		line := inServiceLine(l)
		if !l.Counted && v.may(assessment.EditPeople) {
			line.Hire = inServiceAt + "?hire=" + string(l.Person.ID) + "#hired"
		}
		page.Lines = append(page.Lines, line)
	}
	logs := v.may(assessment.LogPractice)
	for _, k := range d.Sessions {
		line := heldSession(k)
		if k.Taught {
			line.See = "/teaching/" + string(k.ID)
		} else if line.CSRF = page.CSRF; logs && !k.TakenBack {
			line.Undo = inServiceAt + "/" + string(k.ID) + "/taking-back"
		}
		page.Sessions = append(page.Sessions, line)
	}
	page.Log = SessionForm{On: isoDay(d.Today), Counts: "yes"}
	page.Hired = HiredForm{Person: v.query("hire"), People: []Option{{Text: "Choose who"}}}
	for _, p := range aidesFirst(d.People) {
		page.Log.People = append(page.Log.People, Option{Value: string(p.ID), Text: p.Name, Hint: kindOf(p)})
		page.Hired.People = append(page.Hired.People, Option{Value: string(p.ID), Text: p.Name})
	}
	if logs {
		page.Log.Action = inServiceAt
		page.Log.ID, err = s.office.NewID()
	}
	if v.may(assessment.EditPeople) {
		page.Hired.Action = inServiceAt + "/hired"
	}
	return page, err
}

// aidesFirst has those first whose hours are counted.
func aidesFirst(people []office.PersonRef) []office.PersonRef {
	people = slices.Clone(people)
	other := func(p office.PersonRef) int {
		if p.Kind == assessment.Aide {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(people, func(a, b office.PersonRef) int { return other(a) - other(b) })
	return people
}

func inServiceAnswer(d office.InServiceView) string {
	short, soon, unknown := 0, 0, 0
	for _, l := range d.Lines {
		switch {
		case !l.Counted:
			unknown++
		case l.Ends:
			soon++
			short++
		case l.Short > 0:
			short++
		}
	}
	switch {
	case !d.On:
		return "In-service hours are not counted here"
	case len(d.Lines) == 0:
		return "There is no aide whose hours are counted"
	case soon > 0:
		return spelledCount(short, "aide is", "aides are") + " short of hours, " + count(soon, "period ends", "periods end") + " within 90 days"
	case short > 0:
		return spelledCount(short, "aide is", "aides are") + " short of hours; no period ends within 90 days"
	case unknown > 0:
		return "Of " + count(unknown, "aide", "aides") + " the day of hire is not known"
	}
	return "Every aide has the hours"
}

func inServiceLine(l office.InServiceLine) InServiceLine {
	line := InServiceLine{Name: l.Person.Name, Href: "/people/" + string(l.Person.ID), Shape: "met"}
	if !l.Counted {
		line.Shape, line.Says = "open", "The day of hire is not known, so nothing can be counted."
		return line
	}
	line.Says = office.HoursOf(l.Minutes) + " of " + office.HoursOf(l.Asked) + " h, " + day(l.From) + " through " + day(l.Through)
	if l.Short > 0 {
		line.Shape, line.Says = "learning", line.Says+": short by "+office.HoursOf(l.Short)+" h"
	}
	if l.Ends {
		line.Shape = "due"
	}
	if l.Missed > 0 {
		line.Also = "In the 12 months before, " + office.HoursOf(l.Missed) + " h were missing at the end."
	}
	return line
}

func heldSession(k office.InServiceSessionView) HeldSession {
	line := HeldSession{ID: string(k.ID), Day: day(k.HeldOn), Topic: k.Topic, Says: office.HoursOf(k.Minutes) + " h by " + k.Trainer}
	if !k.Counts {
		line.Says += ", not toward in-service"
	}
	if k.Orientation {
		line.Says += ", orientation"
	}
	var names []string
	for _, p := range k.People {
		names = append(names, p.Name)
	}
	line.People = strings.Join(names, ", ")
	if k.TakenBack {
		line.Back = k.Why
	}
	return line
}

func (s *Site) addSession(v *visit) error {
	f := office.InServiceForm{ID: v.form("id"), HeldOn: v.form("held_on"), Hours: v.form("hours"), Topic: v.form("topic"), Trainer: v.form("trainer"), Counts: v.ticked("counts"), Orientation: v.ticked("orientation")}
	for _, text := range v.c.PostFormArray("people") {
		id, err := assessment.ParseID[assessment.PersonID](text)
		if err != nil {
			return err
		}
		f.People = append(f.People, id)
	}
	_, refused := s.office.AddSession(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(inServiceAt, "The session is written down.")
	}
	page, err := s.inServicePage(v, "")
	if err != nil {
		return err
	}
	form := &page.Log
	form.On, form.Hours, form.Topic, form.Trainer, form.Counts, form.Orientation = f.HeldOn, f.Hours, f.Topic, f.Trainer, tick(f.Counts), tick(f.Orientation)
	for i, o := range form.People {
		form.People[i].Chosen = slices.Contains(f.People, assessment.PersonID(o.Value))
	}
	if err := v.take(&form.Faults, refused, "The session was not written down.", label("held_on", "Held on"), label("hours", "Hours"), label("topic", "About"), label("trainer", "Given by"), label("people", "Who took part")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) takeSessionBack(v *visit) error {
	id, err := pathID[assessment.RecordID](v, "id")
	if err != nil {
		return err
	}
	refused := s.office.TakeSessionBack(v.ctx(), v.by(), id, v.form("reason"))
	if refused == nil {
		return v.to(inServiceAt, takenBack)
	}
	page, err := s.inServicePage(v, "")
	if err != nil {
		return err
	}
	for i := range page.Sessions {
		if k := &page.Sessions[i]; k.ID == string(id) {
			k.Reason = v.form("reason")
			if err := v.take(&k.Faults, refused, "Nothing was taken back.", label("reason", "Reason")); err != nil {
				return err
			}
			return v.again(page)
		}
	}
	return refused
}

func (s *Site) setHired(v *visit) error {
	person, err := formID[assessment.PersonID](v, "person")
	if err != nil {
		return err
	}
	refused := mustChoose(person != "", "person", "Choose who.")
	if refused == nil {
		refused = s.office.SetHired(v.ctx(), v.by(), person, v.form("on"))
	}
	if refused == nil {
		return v.to(inServiceAt, "The day of hire is written down.")
	}
	page, err := s.inServicePage(v, "")
	if err != nil {
		return err
	}
	page.Hired.Person, page.Hired.On = string(person), v.form("on")
	if err := v.take(&page.Hired.Faults, refused, "The day of hire was not written down.", label("person", "Who"), label("on", "Hired on")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) inServiceCSV(v *visit) error {
	body, name, err := s.opt.Papers.InServiceCSV(v.ctx(), v.by())
	if err != nil {
		return err
	}
	return file(v.c, body, name, "text/csv; charset=utf-8")
}
