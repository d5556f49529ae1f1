package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TemplateView is what a child's plan begins with in the agency.
type TemplateView struct {
	Own    bool // the agency's own; else the standard one, whose lines have no ids
	Lines  []TemplateLine
	Skills []SkillRef // to choose from
	LineID string     // that a new line will have
}

// TemplateLine is a line of the template.
type TemplateLine struct {
	ID assessment.PlanLineID
	assessment.Criterion
}

// PlanTemplate shows the template.
func (o *Office) PlanTemplate(ctx context.Context, by assessment.Actor) (TemplateView, error) {
	var v TemplateView
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, now Moment) (err error) {
		if v, err = template(ctx, tx); err != nil {
			return err
		}
		skills, err := tx.Checklists.Skills(ctx)
		if err != nil {
			return fmt.Errorf("read skills: %w", err)
		}
		for _, s := range skills {
			v.Skills = append(v.Skills, SkillRef{ID: s.ID, Code: s.Code, Title: s.Title})
		}
		v.LineID, err = newID[string](o, now.At)
		return err
	})
	return v, err
}

func template(ctx context.Context, tx *postgres.Tx) (TemplateView, error) {
	kept, err := tx.Plans.Template(ctx)
	if err != nil {
		return TemplateView{}, fmt.Errorf("read the template of plans: %w", err)
	}
	v := TemplateView{Own: len(kept) > 0}
	for _, k := range kept {
		v.Lines = append(v.Lines, TemplateLine{k.ID, ruleOf(k)})
	}
	if !v.Own {
		for _, c := range StandardTemplate() {
			v.Lines = append(v.Lines, TemplateLine{Criterion: c})
		}
	}
	return v, nil
}

func ruleOf(k postgres.PlanLine) assessment.Criterion {
	return assessment.Criterion{Kind: k.Kind, Title: k.Title, Spanish: k.Spanish, Skills: k.Skills, Count: k.People, Hours: k.Hours, Items: k.Items,
		ItemsSpanish: k.ItemsSpanish, Says: k.Says, Licence: k.Licence, Source: k.Source}
}

func lineOf(id assessment.PlanLineID, c assessment.Criterion, position int) postgres.PlanLine {
	return postgres.PlanLine{ID: id, Kind: c.Kind, Title: c.Title, Spanish: c.Spanish, Skills: c.Skills, People: c.Count, Hours: c.Hours, Items: c.Items,
		ItemsSpanish: c.ItemsSpanish, Says: c.Says, Licence: c.Licence, Source: c.Source, Position: position}
}

// templateForChange is the template while nobody else changes it.
func templateForChange(ctx context.Context, tx *postgres.Tx) (TemplateView, error) {
	if err := tx.Plans.LockTemplate(ctx); err != nil {
		return TemplateView{}, err
	}
	return template(ctx, tx)
}

// OwnTemplate makes the standard template the agency's own, to be changed.
func (o *Office) OwnTemplate(ctx context.Context, by assessment.Actor) error {
	return o.as(ctx, by, assessment.EditTemplate, func(tx *postgres.Tx, now Moment) error {
		v, err := templateForChange(ctx, tx)
		switch {
		case err != nil:
			return err
		case v.Own:
			return fault.Of(fault.Conflict, "Your agency has a template of its own already.")
		}
		for i, l := range v.Lines {
			if l.ID, err = newID[assessment.PlanLineID](o, now.At); err != nil {
				return err
			}
			if err := tx.Plans.AddTemplateLine(ctx, lineOf(l.ID, l.Criterion, i+1), by.Person, now.At); err != nil {
				return err
			}
		}
		return o.note(ctx, tx, now, by, assessment.EditTemplate, "template", "")
	})
}

// DropTemplate goes back to the standard template. No child's plan changes.
func (o *Office) DropTemplate(ctx context.Context, by assessment.Actor) error {
	return o.as(ctx, by, assessment.EditTemplate, func(tx *postgres.Tx, now Moment) error {
		v, err := templateForChange(ctx, tx)
		switch {
		case err != nil:
			return err
		case !v.Own:
			return fault.Of(fault.Refused, "Your agency uses the standard template already.")
		}
		if err := tx.Plans.DropTemplate(ctx, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditTemplate, "template dropped", "")
	})
}
