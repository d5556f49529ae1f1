package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const accessAt = "/survey-access"

// access shows administrators which surveyors were let in, and the form for it.
func (s *Site) access(v *visit) error {
	page, err := s.accessPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) accessPage(v *visit) (AccessPage, error) {
	d, err := s.office.Access(v.ctx(), v.by())
	page := AccessPage{Frame: v.frame("people"), Longest: assessment.LongestSurvey, From: d.Today}
	letIn := map[assessment.PersonID]bool{}
	for _, a := range d.Given {
		line := v.accessLine(a)
		if a.Over {
			page.Past = append(page.Past, line)
			continue
		}
		letIn[a.PersonID] = true
		line.End = accessAt + "/" + a.ID + "/end"
		page.Open = append(page.Open, line)
	}
	page.LetIn = len(letIn)
	page.Surveyors = []Option{{Text: "Choose who is let in"}}
	for _, p := range d.Surveyors {
		page.Surveyors = append(page.Surveyors, Option{Value: string(p.ID), Text: p.Name})
	}
	for _, p := range d.People {
		page.People = append(page.People, Option{Value: string(p.ID), Text: p.Name, Hint: whatIs(p)})
	}
	for _, c := range d.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: c.Code + ", " + c.FirstName})
	}
	return page, err
}

func (v *visit) accessLine(a office.AccessView) AccessLine {
	line := AccessLine{Who: a.Person, Reason: a.Reason, Now: a.Open, Times: "From " + v.instant(a.FromAt) + " until " + v.instant(a.ToAt),
		Given: a.Giver + ", " + v.instant(a.GivenAt)}
	if a.EndedAt != nil {
		line.Ended = a.Ender + ", " + v.instant(*a.EndedAt)
	}
	if a.Whole {
		line.What = "the whole agency"
		return line
	}
	for _, n := range a.Named {
		one := Link{Text: n.Person.Name, Href: "/people/" + string(n.Person.ID)}
		if n.Client.ID != "" {
			one = Link{Text: n.Client.FirstName + ", " + n.Client.Code, Href: "/clients/" + string(n.Client.ID)}
		}
		line.Named = append(line.Named, one)
	}
	return line
}

// letIn lets a surveyor in, or shows the form again as it was filled in.
func (s *Site) letIn(v *visit) error {
	f, refused := v.accessForm()
	if refused == nil {
		var given office.AccessView
		if given, refused = s.office.GiveAccess(v.ctx(), v.by(), f); refused == nil {
			told := given.Person + " is let in. The ledger keeps who let them in, to what and why."
			if given.Wider {
				told = given.Person + " is let in, and may still look at the whole agency too: end that below if it was not meant."
			}
			return v.to(accessAt, told)
		}
	}
	page, err := s.accessPage(v)
	if err != nil {
		return err
	}
	page.Whole, page.Reason, page.From, page.Through = f.Whole, f.Reason, f.From, f.Through
	page.Chosen = v.form("person")
	choose(page.People, v.c.PostFormArray("people")...)
	page.PeopleOpen = len(f.People) > 0
	choose(page.Clients, v.c.PostFormArray("clients")...)
	if err := v.take(&page.Faults, refused, "Nobody is let in.", label("person", "Surveyor"), label("whole", "The whole agency"), label("people", "People"),
		label("clients", "Children"), label("reason", "Why"), label("from", "First day"), label("through", "Last day")); err != nil {
		return err
	}
	return v.again(page)
}

func choose(options []Option, values ...string) {
	for i := range options {
		options[i].Chosen = slices.Contains(values, options[i].Value)
	}
}

func (v *visit) accessForm() (office.AccessForm, error) {
	f := office.AccessForm{Whole: v.ticked("whole"), Reason: v.form("reason"), From: v.form("from"), Through: v.form("through")}
	var err error
	if f.Person, err = formID[assessment.PersonID](v, "person"); err != nil {
		return f, err
	}
	for _, text := range v.c.PostFormArray("people") {
		id, err := assessment.ParseID[assessment.PersonID](text)
		if err != nil {
			return f, err
		}
		f.People = append(f.People, id)
	}
	for _, text := range v.c.PostFormArray("clients") {
		id, err := assessment.ParseID[assessment.ClientID](text)
		if err != nil {
			return f, err
		}
		f.Clients = append(f.Clients, id)
	}
	return f, nil
}

// endAccess ends one access at once.
func (s *Site) endAccess(v *visit) error {
	id, err := pathID[string](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.EndAccess(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to(accessAt, "The access is ended. They see nothing more by it.")
}

// mySurvey tells a surveyor what they may look at, and until when.
func (s *Site) mySurvey(v *visit) error {
	d, err := s.office.MySurvey(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := SurveyAccessPage{Frame: v.frame("survey"), Surveyor: d.Survey != nil, Wait: strings.TrimSpace(d.Wait)}
	for _, a := range d.Given {
		line := v.accessLine(a)
		if a.Open {
			page.Open = append(page.Open, line)
			continue
		}
		for i := range line.Named {
			line.Named[i].Href = "" // it would lead nowhere
		}
		page.Past = append(page.Past, line)
	}
	return v.show(page)
}
