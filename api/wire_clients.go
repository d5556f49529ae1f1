package api

import (
	"time"

	"wellshown/assessment/office"
)

// Client is a child, by code and first name. In lists it has no more than this.
type Client struct {
	ClientRef
	Since      string      `json:"since,omitempty" format:"date" doc:"First day on which the agency looks after them; left out: not said."`
	LeftOn     string      `json:"left_on,omitempty" format:"date" doc:"First day on which the agency no longer looks after them."`
	Parameters []Parameter `json:"parameters,omitempty" doc:"All values that can be ordered, with what is ordered now."`
	Equipment  []Equipment `json:"equipment,omitempty"`
	Team       []Member    `json:"team,omitempty" doc:"Who looks after them, past and planned too."`
}

// ClientForm is what is said of a child: no more than this.
type ClientForm struct {
	Code      string `json:"code" maxLength:"100" doc:"Up to 12 letters, digits and hyphens." example:"7K"`
	FirstName string `json:"first_name" maxLength:"1000"`
	Since     string `json:"since,omitempty" format:"date" doc:"First day on which the agency looks after them. Left out: not said."`
}

// ClientDeparture is the day from which the agency no longer looks after a child.
type ClientDeparture struct {
	On string `json:"on" format:"date" doc:"First day on which the agency no longer looks after them."`
}

// Parameter is one value that can be ordered for a child.
type Parameter struct {
	Name    string     `json:"name" example:"suction_depth"`
	Says    string     `json:"says" doc:"What it is, in words."`
	Set     bool       `json:"set" doc:"Whether it is ordered. Where it is not, the default counts."`
	Value   string     `json:"value,omitempty" doc:"An exact number."`
	Unit    string     `json:"unit,omitempty"`
	Words   string     `json:"words,omitempty" doc:"What is ordered in words."`
	Default string     `json:"default,omitempty" doc:"What counts where nothing is set. Left out: nothing does."`
	SetAt   *time.Time `json:"set_at,omitempty"`
	SetBy   string     `json:"set_by,omitempty"`
}

// Orders are values to be ordered for a child. What is as it was is left alone.
type Orders struct {
	Parameters []Order `json:"parameters" maxItems:"200"`
}

// Order is one value: a number with its unit, or words. Neither unsets it.
type Order struct {
	Name  string `json:"name" maxLength:"100"`
	Value string `json:"value,omitempty" maxLength:"100" doc:"An exact number, as text." example:"7"`
	Unit  string `json:"unit,omitempty" maxLength:"100" doc:"Left out: the one in which it is usually ordered." example:"cm"`
	Words string `json:"words,omitempty" maxLength:"4000"`
}

// Equipment is one kind of equipment: what the child has today and had before.
type Equipment struct {
	Kind    string            `json:"kind" example:"ventilator"`
	Type    string            `json:"type,omitempty" doc:"Today's; left out for none."`
	From    string            `json:"from,omitempty" format:"date" doc:"Since when; left out where it is still to come."`
	History []EquipmentChange `json:"history" doc:"Oldest first, planned ones too."`
}

// EquipmentChange says which type counts from a day on.
type EquipmentChange struct {
	Type string `json:"type,omitempty" doc:"Left out for none."`
	From string `json:"from" format:"date"`
}

// EquipmentForm says which type of a kind of equipment a child has from a day on.
type EquipmentForm struct {
	Kind string `json:"kind" maxLength:"1000" example:"ventilator"`
	Type string `json:"type,omitempty" maxLength:"1000" doc:"Left out: none any more."`
	From string `json:"from" format:"date"`
}

// Member is somebody who looks after a child for some days.
type Member struct {
	ID      string    `json:"id" format:"uuid" doc:"Of this stretch of days."`
	Person  PersonRef `json:"person"`
	From    string    `json:"from" format:"date"`
	Through string    `json:"through,omitempty" format:"date" doc:"Left out: until further notice."`
	Here    bool      `json:"here" doc:"Whether they look after the child today."`
}

// MemberForm puts somebody on a child's team.
type MemberForm struct {
	Person  string `json:"person" doc:"An id."`
	From    string `json:"from" format:"date"`
	Through string `json:"through,omitempty" format:"date" doc:"Left out: until further notice."`
}

// LastDay is the last day on which something counts.
type LastDay struct {
	Through string `json:"through" format:"date" doc:"Last day."`
}

func client(v office.ClientView) Client {
	c := Client{ClientRef: ClientRef{ID: string(v.ID), Code: v.Code, FirstName: v.FirstName}, LeftOn: v.LeftOn.String(), Since: v.SinceOn.String()}
	c.Parameters = each(v.Parameters, parameter)
	for _, q := range v.Equipment {
		c.Equipment = append(c.Equipment, Equipment{Kind: q.Kind, Type: q.Type, From: q.From.String(), History: each(q.History, func(h office.EquipmentChange) EquipmentChange {
			return EquipmentChange{Type: h.Type, From: h.From.String()}
		})})
	}
	for _, m := range v.Team {
		c.Team = append(c.Team, Member{ID: string(m.ID), Person: PersonRef{ID: string(m.Person), Name: m.Name, Kind: string(m.Kind), Relation: m.Relation},
			From: m.From.String(), Through: m.Through.String(), Here: m.Here})
	}
	return c
}

func parameter(v office.ParameterView) Parameter {
	p := Parameter{Name: v.Name, Says: v.Says, Set: v.Set, Value: v.Value, Unit: v.Unit, Words: v.Words, Default: v.Default, SetBy: v.SetBy}
	if v.Set {
		p.SetAt = maybeInstant(&v.SetAt)
	}
	return p
}
