package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

func (s *Site) requirements(v *visit) error {
	page, err := s.requirementsPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) requirementsPage(v *visit) (RequirementsPage, error) {
	page := RequirementsPage{Frame: v.frame("people"), Find: v.query("find"), MayAdd: v.may(assessment.EditRequirements)}
	d, err := s.office.RequirementsDesk(v.ctx(), v.by())
	if err != nil {
		return page, err
	}
	children := map[assessment.ClientID]string{}
	for _, c := range d.Clients {
		children[c.ID] = clientName(c)
	}
	for _, r := range d.Lines {
		line := RequirementLine{ID: string(r.ID), Skill: r.Title, Who: whoMust(r, children), From: day(r.From), Through: day(r.Through), Later: r.From.After(d.Today)}
		if page.MayAdd && !line.Later {
			line.End = "/requirements/" + string(r.ID) + "/end"
		}
		if holds(line.Skill+" "+line.Who, page.Find) {
			page.Lines = append(page.Lines, line)
		}
	}
	page.Skills = []Option{{Text: "Choose the skill"}}
	for _, k := range d.Skills {
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	page.Kinds, page.Clients, page.Devices = kindOptions(), clientOptions("any child", d.Clients), []Option{{Text: "whatever the child has"}}
	for _, k := range d.Kinds {
		page.Devices = append(page.Devices, Option{Value: k, Text: k})
	}
	page.From, page.Today = isoDay(d.Today), isoDay(d.Today)
	page.ID, err = s.office.NewID()
	return page, err
}

// holds reports whether a text has some words in it, whatever the case of letters.
func holds(text, words string) bool {
	return strings.Contains(strings.ToLower(text), strings.ToLower(words))
}

// whoMust says of whom a requirement asks: "each nurse on the team of Mira, 7K,
// where there is a humidifier".
func whoMust(r office.RequirementView, children map[assessment.ClientID]string) string {
	words := eachOf(wording.In(wording.English), r.Kind)
	if r.Client != "" {
		child := children[r.Client]
		if child == "" {
			child = r.ClientCode
		}
		words += " on the team of " + child
	}
	if r.EquipmentKind != "" {
		words += ", for children with: " + r.EquipmentKind
	}
	return words
}

// eachOf names everybody of a kind.
func eachOf(w wording.Words, kind assessment.CaregiverKind) string {
	switch kind {
	case "":
		return w.Say("each caregiver")
	case assessment.Family:
		return w.Say("each family caregiver")
	}
	return w.Say("each %s", kind)
}

func (s *Site) setRequirement(v *visit) error {
	client, err := formID[assessment.ClientID](v, "client")
	if err != nil {
		return err
	}
	form := office.RequirementForm{Skill: v.form("skill"), Kind: v.form("kind"), Client: client, EquipmentKind: v.form("equipment_kind"),
		From: v.form("from"), Through: v.form("through")}
	var changes Preview
	refused := s.require(v, form, &changes)
	if refused == nil {
		return v.to("/requirements", "It is required from that day on.")
	}
	page, err := s.requirementsPage(v)
	if err != nil {
		return err
	}
	page.Skill, page.Kind, page.Client, page.Device, page.From, page.Through, page.Preview = form.Skill, form.Kind, string(client), form.EquipmentKind, form.From, form.Through, changes
	if err := v.take(&page.Faults, refused, "Nothing was required.", label("skill", "Skill"), label("kind", "Asked of"), label("client", "For the child"),
		label("equipment_kind", "With equipment"), label("from", "From"), label("through", "Last day")); err != nil {
		return err
	}
	return v.redrawn(page, refused)
}

// require sets a requirement, or shows what it would change.
func (s *Site) require(v *visit, form office.RequirementForm, changes *Preview) error {
	if v.looks() {
		p, err := s.office.PreviewRequirement(v.ctx(), v.by(), form)
		return look(changes, p, err)
	}
	_, err := s.office.SetRequirement(v.ctx(), v.by(), form)
	return err
}

// end sets the last day of a requirement, or shows what that would change.
func (s *Site) end(v *visit, id assessment.RequirementID, changes *Preview) error {
	if v.looks() {
		p, err := s.office.PreviewRequirementEnd(v.ctx(), v.by(), id, v.form("through"))
		return look(changes, p, err)
	}
	return s.office.EndRequirement(v.ctx(), v.by(), id, v.form("through"))
}

func (s *Site) endRequirement(v *visit) error {
	id, err := pathID[assessment.RequirementID](v, "id")
	if err != nil {
		return err
	}
	var changes Preview
	refused := s.end(v, id, &changes)
	if refused == nil {
		return v.to("/requirements", "Today is its last day.")
	}
	page, err := s.requirementsPage(v)
	if err != nil {
		return err
	}
	if changes.Told {
		page.Preview, page.Of = changes, string(id)
		return v.show(page)
	}
	f, known := fault.As(refused)
	if !known || f.Kind == fault.NotFound {
		return refused
	}
	page.Faults = Faults{What: "It was not ended.", Why: f.Error()}
	return v.again(page)
}
