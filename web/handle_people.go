package web

import (
	"errors"
	"net/url"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
)

func (s *Site) people(v *visit) error {
	q := office.PeopleQuery{Find: v.query("find"), Kind: v.query("kind"), Role: v.query("role"), After: v.query("after")}
	d, err := s.office.PeopleDesk(v.ctx(), v.by(), q)
	if err != nil {
		return err
	}
	page := PeoplePage{Frame: v.frame("people"), Find: q.Find, Kind: q.Kind, Role: q.Role, Kinds: kindOptions(), Roles: []Option{{Text: "any role"}},
		Filtered: q.Find != "" || q.Kind != "" || q.Role != "", All: d.All, Trouble: d.Trouble, Pager: peoplePager(q, d.Next)}
	for _, r := range assessment.Roles {
		page.Roles = append(page.Roles, Option{Value: string(r), Text: string(r)})
	}
	for _, p := range d.People {
		page.People = append(page.People, PersonLine{Name: p.Name, Href: "/people/" + string(p.ID), Kind: kindOf(office.PersonRef{Kind: p.Kind, Relation: p.Relation}),
			Roles: roleWords(p.Roles, ""), Standing: string(p.Worst), Current: p.Current, Required: p.Required})
	}
	if v.may(assessment.EditPeople) {
		page.New = "/people/new"
	}
	page.Tokens, page.Import = v.may(assessment.GiveRoles), v.importOf(intake.People)
	return v.show(page)
}

// peoplePager leads to the next page of the same question.
func peoplePager(q office.PeopleQuery, next string) Pager {
	words := url.Values{}
	for name, word := range map[string]string{"find": q.Find, "kind": q.Kind, "role": q.Role} {
		if word != "" {
			words.Set(name, word)
		}
	}
	var p Pager
	if q.After != "" {
		p.First = "/people?" + words.Encode()
	}
	if next != "" {
		words.Set("after", next)
		p.Next = "/people?" + words.Encode()
	}
	return p
}

func (s *Site) newPerson(v *visit) error {
	id, err := s.office.NewID()
	if err != nil {
		return err
	}
	return v.show(v.personForm(office.PersonForm{ID: id, Language: "en", Roles: []string{string(assessment.Caregiver)}}))
}

// personForm draws what is said of a person, for adding them.
func (v *visit) personForm(f office.PersonForm) PersonFormPage {
	page := PersonFormPage{Frame: v.frame("people"), New: true, Action: "/people", ID: f.ID, Name: f.Name, Email: f.Email, Kind: f.Kind,
		Relation: f.Relation, Speaks: f.Language, Languages: []Option{{Value: "en", Text: "English"}, {Value: "es", Text: "Spanish"}},
		Kinds: []Option{{Text: "no caregiver"}}, Back: "/people", GivesRoles: v.may(assessment.GiveRoles)}
	for _, k := range assessment.CaregiverKinds {
		page.Kinds = append(page.Kinds, Option{Value: string(k), Text: string(k)})
	}
	chosen := map[string]bool{}
	for _, r := range f.Roles {
		chosen[r] = true
	}
	for _, r := range assessment.Roles {
		page.Roles = append(page.Roles, Option{Value: string(r), Text: string(r), Hint: roleHints[r], Chosen: chosen[string(r)]})
	}
	return page
}

// roleHints say what each role is for.
var roleHints = map[assessment.Role]string{
	assessment.Administrator: "people, roles and requirements",
	assessment.Educator:      "observes demonstrations and keeps checklists",
	assessment.Coordinator:   "people, children and who must hold what",
	assessment.Caregiver:     "sees their own record and their own children",
	assessment.Surveyor:      "reads what an administrator lets them in for; alone it opens nothing",
}

// sentPerson is the form as it was typed. Who may not give roles sends none.
func (v *visit) sentPerson() office.PersonForm {
	f := office.PersonForm{ID: v.form("id"), Name: v.form("name"), Kind: v.form("kind"), Relation: v.form("relation"), Email: v.form("email"), Language: v.form("language")}
	if v.may(assessment.GiveRoles) {
		f.Roles = append([]string{}, v.c.PostFormArray("roles")...)
	}
	return f
}

func (s *Site) addPerson(v *visit) error {
	f := v.sentPerson()
	p, err := s.office.AddPerson(v.ctx(), v.by(), f)
	if err == nil {
		return v.to("/people/"+string(p.ID), p.Name+" is added.")
	}
	if errors.Is(err, office.ErrOtherPerson) {
		// They went back to a form that was sent, and typed somebody else over it.
		if f.ID, err = s.office.NewID(); err != nil {
			return err
		}
		page := v.personForm(f)
		page.Faults = Faults{What: "Nobody was added.", Why: "Somebody else was added with this form already.", Next: "If this is another person, send it again. What you typed is still there."}
		return v.again(page)
	}
	return v.personAgain(v.personForm(f), "Nobody was added.", err)
}

func (v *visit) personAgain(page PersonFormPage, what string, err error) error {
	if f, ok := fault.As(err); ok && f.Kind == fault.Conflict && len(f.Fields) == 0 { // the address is all that can be taken
		err = &fault.Fault{Kind: f.Kind, Message: "Somebody else has it.", Fields: map[string]string{"email": f.Message}, SaidAt: map[string]phrase.Phrase{"email": f.Phrase()}}
	}
	faults, unknown := v.wrong(err, what, label("name", "Full name"), label("email", "E-mail"),
		label("kind", "Kind"), label("relation", "To the child"), label("language", "Language"), label("roles", "May act as"))
	if unknown != nil {
		return unknown
	}
	page.Faults = faults
	return v.again(page)
}

func (s *Site) editPerson(v *visit) error {
	p, err := s.personOf(v)
	if err != nil {
		return err
	}
	return v.show(v.editForm(p.ID, formOf(p), formOf(p)))
}

// personOf is the person whom the address names.
func (s *Site) personOf(v *visit) (office.PersonView, error) {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return office.PersonView{}, err
	}
	return s.office.Person(v.ctx(), v.by(), id)
}

// editForm draws what is said of a person, for changing it from what was read.
func (v *visit) editForm(id assessment.PersonID, f, was office.PersonForm) PersonFormPage {
	page := v.personForm(f)
	page.New, page.Back = false, "/people/"+string(id)
	page.Action = page.Back + "/edit"
	page.Version, page.Was = was.Version, wasFields(was)
	return page
}

func (s *Site) savePerson(v *visit) error {
	id, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	f := v.sentPerson()
	f.Version = v.form("version")
	p, err := s.office.EditPerson(v.ctx(), v.by(), id, f)
	switch {
	case err == nil:
		return v.to("/people/"+string(p.ID), "The change is saved.")
	case errors.Is(err, office.ErrPersonChanged):
		return s.changedPerson(v, f)
	}
	return v.personAgain(v.editForm(id, f, v.wasPerson()), "The change is not saved.", err)
}
