package web

import (
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// sayForm says what is so about a line; it has no address where that is worked out.
func sayForm(k assessment.Criterion, id, at string) SayForm {
	words := office.EvidenceWords(k.Kind)
	if len(words) == 0 {
		return SayForm{}
	}
	form := SayForm{Action: at + "/evidence", ID: id, Words: []Option{{Text: "Choose what is so"}}}
	for _, w := range words {
		form.Words = append(form.Words, Option{Value: string(w), Text: string(w)})
	}
	if k.Kind == assessment.EquipmentHome {
		form.Items = itemOptions("Choose the item", k.Items)
	}
	return form
}

func itemOptions(none string, items []string) []Option {
	options := []Option{{Text: none}}
	for _, item := range items {
		options = append(options, Option{Value: item, Text: item})
	}
	return options
}

// waivers offers to waive what is not, and to end what is.
func (c *Criterion) waivers(k assessment.Criterion, state assessment.CriterionState, waived []string, at string) {
	whole := slices.Contains(waived, "")
	if state == assessment.StateNotMet && !whole {
		c.Waive = CriterionWaiveForm{Action: at + "/waivers"}
		if len(k.Items) > 0 {
			c.Waive.Items = itemOptions("the whole line", k.Items)
		}
	}
	if len(waived) == 0 {
		return
	}
	c.End = CriterionWaiveForm{Action: at + "/waivers/end"}
	if len(k.Items) == 0 {
		return
	}
	for _, item := range waived {
		text := item
		if item == "" {
			text = "the whole line"
		}
		c.End.Items = append(c.End.Items, Option{Value: item, Text: text})
	}
}

// forms are those that add to the plan.
func (p *ReadinessPage) forms(d office.ReadinessDesk, at string) {
	if p.All() > 0 {
		p.Add = CriterionForm{Action: at + "/criteria", ID: d.CriterionID, Kinds: criterionKinds(), Skills: skillTicks(d.Skills, nil),
			Counts: true, Timed: true, Lists: true, Child: true, Sayers: sayerOptions()}
	}
	p.Plan = ShiftForm{Action: at + "/shifts", People: []Option{{Text: "Choose who takes it"}}}
	for _, c := range d.Carers {
		p.Plan.People = append(p.Plan.People, Option{Value: string(c.ID), Text: c.Name + ", " + kindOf(c)})
	}
}

func criterionKinds() []Option {
	options := []Option{{Text: "Choose how it is judged"}}
	for _, k := range assessment.CriterionKinds {
		options = append(options, Option{Value: string(k), Text: criterionWords[k]})
	}
	return options
}

func skillTicks(skills []office.SkillRef, chosen []string) []Option {
	var options []Option
	for _, k := range skills {
		options = append(options, Option{Value: k.Code, Text: k.Title, Chosen: slices.Contains(chosen, k.Code)})
	}
	return options
}

// changeForm changes a line: only what its way of judging looks at.
func changeForm(k assessment.Criterion, skills []office.SkillRef, at string) CriterionForm {
	form := CriterionForm{Action: at + "/criteria/" + string(k.ID), Title: k.Title, Child: true, By: isoDay(k.By), Responsible: k.Responsible}
	form.plan(k)
	switch k.Kind {
	case assessment.FamilyCurrent, assessment.EmergencyDrills:
		form.Skills, form.Counts, form.Count = skillTicks(skills, k.Skills), true, figure(k.Count)
	case assessment.EarlyShifts:
		form.Skills = skillTicks(skills, k.Skills)
	case assessment.CardsOnFile:
		form.Counts, form.Count = true, figure(k.Count)
	case assessment.IndependentStay, assessment.EquipmentTrial:
		form.Timed, form.Hours = true, figure(k.Hours)
	case assessment.EquipmentHome:
		form.Lists, form.Items = true, strings.Join(k.Items, "\n")
	}
	return form
}

// plan fills in what else is planned for a line.
func (f *CriterionForm) plan(k assessment.Criterion) {
	f.Spanish, f.Says, f.Licence, f.Sayers = k.Spanish, string(k.Says), k.Licence, sayerOptions()
	f.ItemsSpanish = strings.Join(k.ItemsSpanish, "\n")
}

func sayerOptions() []Option {
	var options []Option
	for _, s := range assessment.Sayers {
		options = append(options, Option{Value: string(s), Text: s.Phrase().String()})
	}
	return options
}
