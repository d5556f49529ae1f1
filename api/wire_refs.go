package api

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// PersonRef names a person.
type PersonRef struct {
	ID       string `json:"id" format:"uuid"`
	Name     string `json:"name"`
	Kind     string `json:"kind,omitempty" enum:"family,nurse,aide" doc:"What kind of caregiver they are; left out for who is none."`
	Relation string `json:"relation,omitempty" doc:"To the child." example:"mother"`
}

// SkillRef names a skill.
type SkillRef struct {
	ID    string `json:"id,omitempty" format:"uuid"`
	Code  string `json:"code" example:"suction"`
	Title string `json:"title"`
}

// ClientRef names a child, by code and first name and nothing else.
type ClientRef struct {
	ID        string `json:"id" format:"uuid"`
	Code      string `json:"code" example:"7K"`
	FirstName string `json:"first_name"`
}

// Named is something with its id and its name as it is printed.
type Named struct {
	ID   string `json:"id" format:"uuid"`
	Name string `json:"name"`
}

func personRef(p office.PersonRef) PersonRef {
	return PersonRef{ID: string(p.ID), Name: p.Name, Kind: string(p.Kind), Relation: p.Relation}
}

func skillRef(s office.SkillRef) SkillRef {
	return SkillRef{ID: string(s.ID), Code: s.Code, Title: s.Title}
}

// clientRef is nil for skills that are held for every child.
func clientRef(c office.ClientRef) *ClientRef {
	if c.ID == "" {
		return nil
	}
	return &ClientRef{ID: string(c.ID), Code: c.Code, FirstName: c.FirstName}
}

// namedClient is nil for no child.
func namedClient(id assessment.ClientID, name string) *Named {
	if id == "" {
		return nil
	}
	return &Named{string(id), name}
}
