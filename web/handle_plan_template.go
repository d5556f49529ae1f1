package web

import (
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

const templateAt = "/plan-template"

func (s *Site) planTemplate(v *visit) error {
	page, err := s.planTemplatePage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) planTemplatePage(v *visit) (PlanTemplatePage, error) {
	d, err := s.office.PlanTemplate(v.ctx(), v.by())
	if err != nil {
		return PlanTemplatePage{}, err
	}
	page := PlanTemplatePage{Frame: v.frame("children"), Own: d.Own}
	may := v.may(assessment.EditTemplate)
	for _, l := range d.Lines {
		line := PlanLine{ID: string(l.ID), Name: l.Title, Spanish: l.Spanish, Asks: planAsks(l.Criterion, d.Skills), Source: l.Source}
		if len(office.EvidenceWords(l.Kind)) > 0 {
			line.SaidBy = l.SaidBy().String()
		}
		if may && d.Own {
			line.Change = changeForm(l.Criterion, d.Skills, templateAt)
			line.Change.Action, line.Change.Child, line.Change.Source = templateAt+"/lines/"+line.ID, false, l.Source
			line.Remove = line.Change.Action + "/removal"
		}
		page.Lines = append(page.Lines, line)
	}
	switch {
	case may && d.Own:
		page.Drop = templateAt + "/standard"
		page.Add = CriterionForm{Action: templateAt + "/lines", ID: d.LineID, Kinds: criterionKinds(), Skills: skillTicks(d.Skills, nil), Counts: true, Timed: true, Lists: true, Sayers: sayerOptions()}
	case may:
		page.Take = templateAt
	}
	return page, nil
}

// planAsks says how a line is judged, and how much it asks for.
func planAsks(c assessment.Criterion, skills []office.SkillRef) string {
	asks := []string{criterionWords[c.Kind]}
	var titles []string
	for _, k := range skillTicks(skills, c.Skills) {
		if k.Chosen {
			titles = append(titles, k.Text)
		}
	}
	switch c.Kind {
	case assessment.FamilyCurrent, assessment.EmergencyDrills, assessment.EarlyShifts:
		if len(titles) == 0 {
			titles = []string{"what the family must hold for the child"}
		}
		asks = append(asks, listed(titles))
	}
	if c.Count > 0 {
		asks = append(asks, count(c.Count, "family caregiver", "family caregivers"))
	}
	switch {
	case c.Hours > 0:
		asks = append(asks, count(c.Hours, "hour", "hours"))
	case c.Kind == assessment.IndependentStay:
		asks = append(asks, "the team plans the hours for each child")
	}
	if len(c.Items) > 0 {
		asks = append(asks, listed(c.Items))
	}
	return strings.Join(asks, " · ")
}

// onTemplate does something about the template. Where that is refused the page is drawn
// again, with the form as typed.
func (s *Site) onTemplate(v *visit, done string, do func() error, again func(*PlanTemplatePage, error) error) error {
	refused := do()
	if refused == nil {
		return v.to(templateAt, done)
	}
	page, err := s.planTemplatePage(v)
	if err != nil {
		return err
	}
	if err := again(&page, refused); err != nil {
		return err
	}
	return v.again(page)
}

func (s *Site) ownTemplate(v *visit) error {
	return s.onTemplate(v, "The template is your agency’s own now. Change each line.", func() error { return s.office.OwnTemplate(v.ctx(), v.by()) },
		func(page *PlanTemplatePage, err error) error {
			return v.take(&page.Faults, err, "Nothing was changed.")
		})
}

func (s *Site) dropTemplate(v *visit) error {
	return s.onTemplate(v, "New plans begin with the standard template again.", func() error { return s.office.DropTemplate(v.ctx(), v.by()) },
		func(page *PlanTemplatePage, err error) error {
			return v.take(&page.Faults, err, "Nothing was changed.")
		})
}

func (s *Site) addTemplateLine(v *visit) error {
	typed, form, bad := v.sentCriterion()
	return s.onTemplate(v, "The line is on the template.", func() error {
		if bad != nil {
			return bad
		}
		_, err := s.office.AddTemplateLine(v.ctx(), v.by(), office.TemplateLineForm{CriterionForm: form, Source: typed.Source})
		return err
	}, func(page *PlanTemplatePage, err error) error {
		page.Add.typedAgain(typed, form.Skills)
		return v.take(&page.Add.Faults, err, "No line was added.", criterionLabels...)
	})
}

func (s *Site) changeTemplateLine(v *visit) error {
	id, err := pathID[assessment.PlanLineID](v, "line")
	if err != nil {
		return err
	}
	typed, form, bad := v.sentCriterion()
	return s.onTemplate(v, "The line is changed. No child’s plan has changed.", func() error {
		if bad != nil {
			return bad
		}
		return s.office.EditTemplateLine(v.ctx(), v.by(), id, office.TemplateLineForm{CriterionForm: form, Source: typed.Source})
	}, func(page *PlanTemplatePage, err error) error {
		for i := range page.Lines {
			if page.Lines[i].ID == string(id) {
				page.Lines[i].Change.typedAgain(typed, form.Skills)
				return v.take(&page.Lines[i].Change.Faults, err, "The line was not changed.", criterionLabels...)
			}
		}
		return v.take(&page.Faults, err, "The line was not changed.")
	})
}

func (s *Site) removeTemplateLine(v *visit) error {
	id, err := pathID[assessment.PlanLineID](v, "line")
	if err != nil {
		return err
	}
	return s.onTemplate(v, "The line is off the template. No child’s plan has changed.", func() error { return s.office.RemoveTemplateLine(v.ctx(), v.by(), id) },
		func(page *PlanTemplatePage, err error) error {
			return v.take(&page.Faults, err, "The line was not taken off.")
		})
}
