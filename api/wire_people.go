package api

import "wellshown/assessment/office"

// Person is somebody of the agency.
type Person struct {
	PersonRef
	Version            string   `json:"version" doc:"The same while all that can be edited stays the same. Whoever changes it says which one they read."`
	Email              string   `json:"email,omitempty" doc:"Left out for those who do not sign in."`
	Language           string   `json:"language" enum:"en,es"`
	Roles              []string `json:"roles"`
	LeftOn             string   `json:"left_on,omitempty" format:"date" doc:"First day on which they are no longer there."`
	MustChangePassword bool     `json:"must_change_password" doc:"Their password was set by somebody else; until they choose another they can neither act nor sign."`
}

// PersonForm is what is said of a person.
type PersonForm struct {
	Name     string   `json:"name" maxLength:"1000" doc:"As it is to be printed."`
	Kind     string   `json:"kind,omitempty" enum:"family,nurse,aide" doc:"What kind of caregiver they are; left out for who is none."`
	Relation string   `json:"relation,omitempty" maxLength:"1000" doc:"To the child."`
	Email    string   `json:"email,omitempty" maxLength:"1000" doc:"Needed to sign in."`
	Language string   `json:"language,omitempty" enum:"en,es"`
	Roles    []string `json:"roles,omitempty" maxItems:"5" enum:"administrator,educator,coordinator,caregiver,surveyor" doc:"All roles they have from now on. Left out: they stay as they are."`
}

// ChangedPerson is what is said of a person anew.
type ChangedPerson struct {
	PersonForm
	Version string `json:"version" maxLength:"200" doc:"The version of the person that the change was made from. Refused where they have another one by now."`
}

// NewPerson is a person to be added.
type NewPerson struct {
	PersonForm
	ID string `json:"id,omitempty" doc:"A UUID of your own, so that sending twice adds one person."`
}

// Departure is the day from which somebody is no longer there.
type Departure struct {
	On string `json:"on" format:"date" doc:"First day on which they are no longer there."`
}

func person(v office.PersonView) Person {
	p := Person{PersonRef: PersonRef{ID: string(v.ID), Name: v.Name, Kind: string(v.Kind), Relation: v.Relation},
		Version: v.Version, Email: v.Email, Language: v.Language, Roles: texts(v.Roles), LeftOn: v.LeftOn.String(), MustChangePassword: v.MustChange}
	return p
}

func (p PersonForm) form() office.PersonForm {
	return office.PersonForm{Name: p.Name, Kind: p.Kind, Relation: p.Relation, Email: p.Email, Language: p.Language, Roles: p.Roles}
}
