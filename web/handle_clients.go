package web

import (
	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
)

func (s *Site) clients(v *visit) error {
	page := ClientsPage{Frame: v.frame("children"), Find: v.query("find"), Own: !v.whole(assessment.ReadClients)}
	children, err := s.office.ClientsDesk(v.ctx(), v.by(), page.Find)
	if err != nil {
		return err
	}
	for _, c := range children {
		at := "/clients/" + string(c.Client.ID)
		page.Clients = append(page.Clients, ClientLine{Code: c.Client.Code, Name: c.Client.FirstName, Href: at, Readiness: at + "/readiness",
			Ready: c.Ready, Signed: c.Signed, Left: c.Left, All: c.All, Team: c.Team})
		if c.All > 0 && !c.Signed { // which stands only where all is in place
			page.GoingHome++
		}
	}
	if v.may(assessment.EditClients) {
		page.New = "/clients/new"
	}
	page.Import = v.importOf(intake.Clients)
	return v.show(page)
}

func (s *Site) newClient(v *visit) error {
	id, err := s.office.NewID()
	if err != nil {
		return err
	}
	return v.show(ClientFormPage{Frame: v.frame("children"), New: true, Action: "/clients", ID: id, Back: "/clients"})
}

func (s *Site) addClient(v *visit) error {
	form := office.ClientForm{Code: v.form("code"), FirstName: v.form("first_name"), Since: v.form("since")}
	c, err := s.office.AddClient(v.ctx(), v.by(), form)
	if err == nil {
		return v.to("/clients/"+string(c.ID), c.FirstName+" is added. Now the numbers, the equipment and the team.")
	}
	page := ClientFormPage{Frame: v.frame("children"), New: true, Action: "/clients", ID: v.form("id"), Code: form.Code, Name: form.FirstName, Since: form.Since, Back: "/clients"}
	return v.clientAgain(page, "No child was added.", err)
}

func (v *visit) clientAgain(page ClientFormPage, what string, err error) error {
	if f, ok := fault.As(err); ok && f.Kind == fault.Conflict && len(f.Fields) == 0 { // the code is all that can be taken
		err = &fault.Fault{Kind: f.Kind, Message: "The code is taken.", Fields: map[string]string{"code": f.Message}}
	}
	if err := v.take(&page.Faults, err, what, label("code", "Code"), label("first_name", "First name"), label("since", "With the agency from")); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) editClient(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	c, err := s.office.Client(v.ctx(), v.by(), id)
	if err != nil {
		return err
	}
	at := "/clients/" + string(id)
	return v.show(ClientFormPage{Frame: v.frame("children"), Action: at + "/edit", ID: string(id), Code: c.Code, Name: c.FirstName, Since: isoDay(c.SinceOn), Back: at})
}

func (s *Site) saveClient(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	at, form := "/clients/"+string(id), office.ClientForm{Code: v.form("code"), FirstName: v.form("first_name"), Since: v.form("since")}
	_, err = s.office.EditClient(v.ctx(), v.by(), id, form)
	if err == nil {
		return v.to(at, "The change is saved.")
	}
	page := ClientFormPage{Frame: v.frame("children"), Action: at + "/edit", ID: string(id), Code: form.Code, Name: form.FirstName, Since: form.Since, Back: at}
	return v.clientAgain(page, "The change is not saved.", err)
}
