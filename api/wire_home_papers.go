package api

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/phrase"
)

// HomePapers is what a child's papers for home say.
type HomePapers struct {
	Client            ClientRef       `json:"client"`
	Version           string          `json:"version" doc:"Of what can be set here, to be sent back with a change. Empty: nothing was set yet."`
	Tube              string          `json:"tube_mm,omitempty" doc:"Inner diameter, an exact number. Left out: not on record, here and below."`
	SmallTube         string          `json:"small_tube_mm,omitempty"`
	Catheter          string          `json:"catheter_fr,omitempty"`
	SmallCatheter     string          `json:"small_catheter_fr,omitempty"`
	CatheterRatio     string          `json:"catheter_ratio,omitempty" doc:"Outer diameter of the catheter over the inner one of the tube, an exact fraction." example:"2/3"`
	SmallCatheterPart string          `json:"small_catheter_ratio,omitempty" doc:"The same of the catheter for the smaller tube."`
	NoSmallerPlan     string          `json:"no_smaller_plan,omitempty"`
	Call              string          `json:"call,omitempty" doc:"When help is called, as the child's plan has it."`
	Air               string          `json:"air,omitempty" doc:"Whether air can pass through mouth and nose, as ordered."`
	KitPlace          *InLanguages    `json:"kit_place,omitempty"`
	Contacts          []HomeContact   `json:"contacts" doc:"In the order in which they are called; those that are called in no emergency come last."`
	Equipment         []HomeEquipment `json:"equipment"`
	Papers            []HomePaper     `json:"papers"`
}

// HomePaper is one of the papers with what is left open on it.
type HomePaper struct {
	Paper   string   `json:"paper" example:"emergency-card"`
	Missing []string `json:"missing" doc:"In words; each is a line to fill in by hand."`
}

// InLanguages is an agency's own words.
type InLanguages struct {
	English string `json:"english,omitempty" maxLength:"500"`
	Spanish string `json:"spanish,omitempty" maxLength:"500"`
}

// HomeContact is an office that a child's family calls.
type HomeContact struct {
	Office    string `json:"office" enum:"emergency number,home-care agency,equipment company,hospital team,power company,fire service"`
	Name      string `json:"name,omitempty" maxLength:"500"`
	Telephone string `json:"telephone,omitempty" maxLength:"500"`
	Turn      int    `json:"turn,omitempty" minimum:"0" maximum:"9" doc:"In which turn it is called in an emergency, from 1. Left out: not said."`
}

// HomeSupplier is who supplies a kind of equipment, and who checks it how often.
type HomeSupplier struct {
	Kind        string `json:"kind" maxLength:"500" example:"ventilator"`
	Supplier    string `json:"supplier,omitempty" maxLength:"500"`
	Telephone   string `json:"telephone,omitempty" maxLength:"500"`
	CheckedBy   string `json:"checked_by,omitempty" maxLength:"100" example:"family"`
	CheckedWhen string `json:"checked_when,omitempty" maxLength:"100" example:"each day"`
}

// HomeEquipment is a kind of equipment that the child has today.
type HomeEquipment struct {
	HomeSupplier
	Type string `json:"type"`
}

// HomeRecord is what the papers say besides what is ordered.
type HomeRecord struct {
	Version   string         `json:"version,omitempty" maxLength:"200" doc:"As it was read. Left out: nothing was set yet."`
	KitPlace  *InLanguages   `json:"kit_place,omitempty" doc:"Where the emergency kit is kept. Left out: not said."`
	Contacts  []HomeContact  `json:"contacts,omitempty" maxItems:"20" doc:"One without name and telephone is forgotten."`
	Suppliers []HomeSupplier `json:"suppliers,omitempty" maxItems:"50"`
}

func homePapers(v office.HomeView) HomePapers {
	exact := func(n *assessment.Number) string {
		if n == nil {
			return ""
		}
		return n.String()
	}
	ratio := func(french, tube *assessment.Number) string {
		if french == nil || tube == nil {
			return ""
		}
		return assessment.CatheterRatio(*french, *tube).Fraction()
	}
	h := HomePapers{Client: ClientRef{ID: string(v.Client.ID), Code: v.Code, FirstName: v.FirstName}, Version: v.Version, Tube: exact(v.Tube), SmallTube: exact(v.SmallTube), Catheter: exact(v.Catheter),
		SmallCatheter: exact(v.SmallCatheter), CatheterRatio: ratio(v.Catheter, v.Tube), SmallCatheterPart: ratio(v.SmallCatheter, v.SmallTube), NoSmallerPlan: v.NoSmallerPlan, Call: v.CallWords, Air: v.AirWords,
		Contacts: []HomeContact{}, Equipment: []HomeEquipment{}}
	if v.KitPlace != (phrase.Own{}) {
		h.KitPlace = &InLanguages{v.KitPlace.English, v.KitPlace.Spanish}
	}
	for _, c := range append(v.Calls(), v.Contact(assessment.PowerCompany), v.Contact(assessment.FireService)) {
		h.Contacts = append(h.Contacts, HomeContact{string(c.Role), c.Name, c.Telephone, c.Place})
	}
	for _, e := range v.Equipment {
		h.Equipment = append(h.Equipment, HomeEquipment{HomeSupplier{e.Kind, e.Supplier, e.Telephone, string(e.CheckedBy), string(e.CheckedWhen)}, e.Type})
	}
	for _, which := range assessment.HomePapers {
		line := HomePaper{Paper: string(which), Missing: []string{}}
		for _, m := range v.Missing(which) {
			line.Missing = append(line.Missing, m.String())
		}
		h.Papers = append(h.Papers, line)
	}
	return h
}
