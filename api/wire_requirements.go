package api

import "wellshown/assessment/office"

// Requirement says who must hold a skill. What is left out is no condition.
type Requirement struct {
	ID            string   `json:"id" format:"uuid"`
	Skill         SkillRef `json:"skill"`
	Scope         string   `json:"scope" enum:"general,client-specific"`
	Kind          string   `json:"kind,omitempty" enum:"family,nurse,aide"`
	Client        *Named   `json:"client,omitempty" doc:"With the child's code as its name."`
	EquipmentKind string   `json:"equipment_kind,omitempty" doc:"Only for children who have some."`
	From          string   `json:"from" format:"date"`
	Through       string   `json:"through,omitempty" format:"date" doc:"Left out: until further notice."`
	Over          bool     `json:"over" doc:"It no longer counts today."`
}

// RequirementForm demands a skill. What is left out is no condition.
type RequirementForm struct {
	Skill         string `json:"skill" maxLength:"1000" doc:"The code."`
	Kind          string `json:"kind,omitempty" enum:"family,nurse,aide"`
	Client        string `json:"client,omitempty" doc:"The child: an id."`
	EquipmentKind string `json:"equipment_kind,omitempty" maxLength:"1000" doc:"Only for children who have some." example:"humidifier"`
	From          string `json:"from" format:"date"`
	Through       string `json:"through,omitempty" format:"date" doc:"Left out: until further notice."`
}

func requirement(v office.RequirementView) Requirement {
	return Requirement{ID: string(v.ID), Skill: SkillRef{Code: v.Skill, Title: v.Title}, Scope: string(v.Scope), Kind: string(v.Kind),
		Client: namedClient(v.Client, v.ClientCode), EquipmentKind: v.EquipmentKind, From: v.From.String(), Through: v.Through.String(), Over: v.Over}
}
