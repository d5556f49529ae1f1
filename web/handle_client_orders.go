package web

import (
	"net/url"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// queryWord makes a word fit for an address.
func queryWord(s string) string { return url.QueryEscape(s) }

// newParameter draws the form for one ordered value, with what holds now.
func (s *Site) newParameter(v *visit) error {
	page, err := s.parameterPage(v, v.query("parameter"))
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) parameterPage(v *visit, name string) (ParameterFormPage, error) {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return ParameterFormPage{}, err
	}
	c, err := s.office.Client(v.ctx(), v.by(), id)
	if err != nil {
		return ParameterFormPage{}, err
	}
	at := "/clients/" + string(id)
	page := ParameterFormPage{Frame: v.frame("children"), Action: at + "/parameters", Client: c.FirstName + ", " + c.Code, Parameter: name, Back: at,
		Parameters: []Option{{Text: "Choose what is ordered"}}, Units: []Option{{Text: "the usual one"}}}
	units := assessment.Units()
	for _, p := range c.Parameters {
		text := shortly(p.Says)
		if p.Unit != "" {
			text += ", in " + assessment.UnitInWords(p.Unit)
		}
		page.Parameters = append(page.Parameters, Option{Value: p.Name, Text: text})
		if p.Unit != "" && !slices.Contains(units, p.Unit) {
			units = append(units, p.Unit)
		}
		if p.Name == name {
			page.Unit, page.Was = p.Unit, strings.TrimSpace(p.Value+" "+assessment.UnitInWords(p.Unit))
			if p.Value == "" {
				page.Was = p.Words
			}
			if !p.Set && p.Default != "" {
				page.Was = p.Default + ", by default"
			}
		}
	}
	for _, unit := range units {
		page.Units = append(page.Units, Option{Value: unit, Text: assessment.UnitInWords(unit)})
	}
	page.ID, err = s.office.NewID()
	return page, err
}

func (s *Site) setParameter(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	form := office.ParameterForm{Name: v.form("parameter"), Value: v.form("value"), Unit: v.form("unit"), Words: v.form("words")}
	_, refused := s.office.SetParameters(v.ctx(), v.by(), id, []office.ParameterForm{form})
	if refused == nil {
		return v.to("/clients/"+string(id), "It is set. Records already made keep what they had.")
	}
	page, err := s.parameterPage(v, form.Name)
	if err != nil {
		return err
	}
	page.Value, page.Unit, page.Words = form.Value, form.Unit, form.Words
	if err := v.take(&page.Faults, atField(refused, form.Name, "value"), "Nothing was set.", label("parameter", "What"), label("value", "Value"),
		label("unit", "Unit"), label("words", "Or in words")); err != nil {
		return err
	}
	return v.again(page)
}

// atField moves what is wrong with one field to another name of it.
func atField(err error, from, to string) error {
	f, ok := fault.As(err)
	if !ok || f.Fields[from] == "" {
		return err
	}
	moved := &fault.Fault{Kind: f.Kind, Message: f.Message, Fields: map[string]string{}}
	for field, says := range f.Fields {
		if field == from {
			field = to
		}
		moved.Fields[field] = says
	}
	return moved
}

// newEquipment draws the form for a change of equipment.
func (s *Site) newEquipment(v *visit) error {
	page, err := s.equipmentPage(v)
	if err != nil {
		return err
	}
	page.Kind = v.query("kind")
	return v.show(page)
}

func (s *Site) equipmentPage(v *visit) (EquipmentFormPage, error) {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return EquipmentFormPage{}, err
	}
	c, err := s.office.ClientDesk(v.ctx(), v.by(), id)
	if err != nil {
		return EquipmentFormPage{}, err
	}
	at := "/clients/" + string(id)
	page := EquipmentFormPage{Frame: v.frame("children"), Action: at + "/equipment", Client: c.FirstName + ", " + c.Code, Kinds: []Option{{Text: "Choose the kind"}},
		From: c.Today, Back: at}
	for _, k := range c.Kinds {
		page.Kinds = append(page.Kinds, Option{Value: k, Text: k})
	}
	page.ID, err = s.office.NewID()
	return page, err
}

func (s *Site) setEquipment(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	form := office.EquipmentForm{Kind: v.form("kind"), Type: v.form("type"), From: v.form("from")}
	var changes Preview
	refused := s.refit(v, id, form, &changes)
	if refused == nil {
		return v.to("/clients/"+string(id), "The equipment is noted.")
	}
	page, err := s.equipmentPage(v)
	if err != nil {
		return err
	}
	page.Kind, page.Type, page.From, page.Preview = form.Kind, form.Type, form.From, changes
	if err := v.take(&page.Faults, refused, "Nothing was changed.", label("kind", "Kind"), label("type", "Which"), label("from", "From")); err != nil {
		return err
	}
	return v.redrawn(page, refused)
}

// refit notes a change of equipment, or shows what it would change.
func (s *Site) refit(v *visit, id assessment.ClientID, form office.EquipmentForm, changes *Preview) error {
	if v.looks() {
		p, err := s.office.PreviewEquipment(v.ctx(), v.by(), id, form)
		return look(changes, p, err)
	}
	_, err := s.office.SetEquipment(v.ctx(), v.by(), id, form)
	return err
}
