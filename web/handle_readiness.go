package web

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

func (s *Site) readiness(v *visit) error {
	id, err := pathID[assessment.ClientID](v, "id")
	if err != nil {
		return err
	}
	on, err := v.day("on")
	if err != nil {
		return err
	}
	page, err := s.readinessPage(v, id, on)
	if err != nil {
		return err
	}
	return v.show(page)
}

// readinessPage answers for a child on a day; forms are offered for today only.
func (s *Site) readinessPage(v *visit, id assessment.ClientID, on civil.Date) (ReadinessPage, error) {
	d, err := s.office.ReadinessDesk(v.ctx(), v.by(), id, on)
	if err != nil {
		return ReadinessPage{}, err
	}
	at := "/clients/" + string(id)
	page := ReadinessPage{Frame: v.frame("children"), ID: string(id), Client: d.Client.FirstName, Code: d.Client.Code, On: isoDay(d.On), Day: longDay(d.On),
		Today: d.On == d.Today, Ready: d.Ready, Back: at}
	page.MayEdit = page.Today && v.may(assessment.EditReadiness)
	if len(d.Lines) > 0 {
		page.PDF = at + "/readiness.pdf"
		if !page.Today {
			page.PDF += "?on=" + page.On
		}
	} else if page.MayEdit {
		page.Start = at + "/readiness"
	}
	for _, l := range d.Lines {
		page.add(page.criterion(l, d, v, at+"/readiness"), l.State)
	}
	for i, shift := range d.Shifts {
		page.Shifts = append(page.Shifts, page.shift(shift, d.Lacks[i], at))
	}
	if page.MayEdit {
		page.forms(d, at+"/readiness")
	}
	return page, nil
}

func (p *ReadinessPage) add(c Criterion, state assessment.CriterionState) {
	switch state {
	case assessment.StateMet:
		p.Met = append(p.Met, c)
	case assessment.StateWaived:
		p.Waived = append(p.Waived, c)
	default:
		p.Left = append(p.Left, c)
	}
}

// criterion is one line of the plan with what this reader may do about it.
func (p *ReadinessPage) criterion(l assessment.Line, d office.ReadinessDesk, v *visit, at string) Criterion {
	k := l.Criterion
	c := Criterion{ID: string(k.ID), Name: k.Title, Left: inEnglish(l.Left), Flags: inEnglish(l.Flags), Evidence: inEnglish(l.Evidence)}
	switch k.Kind {
	case assessment.FamilyCurrent, assessment.EmergencyDrills, assessment.EarlyShifts:
		c.Standing = string(assessment.Learning)
		if v.may(assessment.ReadReports) {
			c.Act = Link{"See who holds what", "/standings?client=" + p.ID}
		}
	}
	if p.MayEdit {
		c.Say = sayForm(k, d.EvidenceID, at)
		c.Change = changeForm(k, d.Skills, at)
		c.Remove = at + "/criteria/" + c.ID + "/removal"
	}
	if p.Today && v.may(assessment.WaiveCriterion) {
		c.waivers(k, l.State, d.Waived[k.ID], at)
	}
	return c
}

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

// shift is a planned shift, "Fri 4 Dec 2026, 19:00 to 07:00 MST".
func (p *ReadinessPage) shift(s office.ShiftView, lacks office.ShiftLack, at string) Shift {
	line := Shift{Name: s.Name, When: s.Starts.Format("Mon 2 Jan 2006, 15:04") + " to " + s.Ends.Format("15:04 MST"), Lacks: inEnglish(lacks)}
	if s.Ends.Sub(s.Starts) >= 24*time.Hour || s.Ends.YearDay() != s.Starts.YearDay() && s.Ends.Hour() > s.Starts.Hour() {
		line.When = s.Starts.Format("Mon 2 Jan 2006, 15:04") + " to " + s.Ends.Format("Mon 2 Jan, 15:04 MST")
	}
	if p.MayEdit {
		line.Remove = at + "/readiness/shifts/" + string(s.ID) + "/removal"
	}
	return line
}

// forms are those that add to the plan.
func (p *ReadinessPage) forms(d office.ReadinessDesk, at string) {
	if p.All() > 0 {
		p.Add = CriterionForm{Action: at + "/criteria", ID: d.CriterionID, Kinds: criterionKinds(), Skills: skillTicks(d.Skills, nil),
			Counts: true, Timed: true, Lists: true}
	}
	p.Plan = ShiftForm{Action: at + "/shifts", People: []Option{{Text: "Choose who takes it"}}}
	for _, c := range d.Carers {
		p.Plan.People = append(p.Plan.People, Option{Value: string(c.ID), Text: c.Name + ", " + kindOf(c)})
	}
}

// criterionWords say how a line of the plan is judged.
var criterionWords = map[assessment.CriterionKind]string{
	assessment.FamilyCurrent: "skills that family caregivers are current in", assessment.EmergencyDrills: "emergency skills that family caregivers are current in",
	assessment.CardsOnFile: "resuscitation cards of the family", assessment.IndependentStay: "hours of care by the family alone",
	assessment.EquipmentTrial: "hours on the home equipment", assessment.EquipmentHome: "equipment delivered and checked",
	assessment.EarlyShifts: "who takes the early shifts", assessment.Attested: "somebody’s word",
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
	form := CriterionForm{Action: at + "/criteria/" + string(k.ID), Title: k.Title}
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

// inEnglish says some sentences.
func inEnglish[S fmt.Stringer](said []S) []string {
	var all []string
	for _, s := range said {
		all = append(all, s.String())
	}
	return all
}
