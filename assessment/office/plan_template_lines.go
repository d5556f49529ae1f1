package office

import (
	"context"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TemplateLineForm is a line of the agency's template. No skills: those that the family
// must hold for the child on the day that a plan begins.
type TemplateLineForm struct {
	CriterionForm        // its day and who sees to it are a child's, and left out
	Source        string // as published; empty: the agency's own
}

func (f TemplateLineForm) read(ctx context.Context, tx *postgres.Tx, before assessment.Criterion) (assessment.Criterion, error) {
	if f.Plan != nil {
		own := *f.Plan
		own.By, own.Responsible, f.Plan = "", "", &own
	}
	c, err := f.CriterionForm.read(ctx, tx, before)
	if err != nil {
		return c, err
	}
	var faults form
	c.Source = faults.maybe("source", f.Source, 300)
	return c, faults.Err()
}

// own refuses to change a template that is not the agency's own.
func (v TemplateView) own() error {
	if v.Own {
		return nil
	}
	return fault.Of(fault.Refused, "This is the standard template. Make it your agency’s own first, then change it.")
}

// AddTemplateLine adds a line at the end of the template. Sending the same form with its
// id twice adds one line.
func (o *Office) AddTemplateLine(ctx context.Context, by assessment.Actor, f TemplateLineForm) (assessment.PlanLineID, error) {
	var id assessment.PlanLineID
	err := o.as(ctx, by, assessment.EditTemplate, func(tx *postgres.Tx, now Moment) error {
		c, err := f.read(ctx, tx, assessment.Criterion{})
		if err != nil {
			return err
		}
		v, err := templateForChange(ctx, tx)
		if err != nil {
			return err
		}
		if err := v.own(); err != nil {
			return err
		}
		if id, err = idOr[assessment.PlanLineID](o, f.ID, now.At); err != nil {
			return err
		}
		if slices.ContainsFunc(v.Lines, func(l TemplateLine) bool { return l.ID == id }) {
			return nil
		}
		kept, err := tx.Plans.Template(ctx)
		if err != nil {
			return err
		}
		if err := tx.Plans.AddTemplateLine(ctx, lineOf(id, c, kept[len(kept)-1].Position+1), by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditTemplate, "template line", string(id))
	})
	return id, err
}

// EditTemplateLine changes a line of the template; how it is judged stays. No child's
// plan changes.
func (o *Office) EditTemplateLine(ctx context.Context, by assessment.Actor, id assessment.PlanLineID, f TemplateLineForm) error {
	return o.as(ctx, by, assessment.EditTemplate, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Plans.LockTemplate(ctx); err != nil {
			return err
		}
		kept, err := tx.Plans.TemplateLine(ctx, id)
		if err != nil {
			return err
		}
		f.Kind = string(kept.Kind)
		before := ruleOf(kept)
		c, err := f.read(ctx, tx, before)
		if err != nil {
			return err
		}
		if asksOther(before, c) {
			if err := mayChange(ctx, tx, now, by, before); err != nil {
				return err
			}
		}
		if err := tx.Plans.SaveTemplateLine(ctx, lineOf(id, c, kept.Position)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditTemplate, "template line", string(id))
	})
}

// RemoveTemplateLine takes a line off the template. No child's plan changes.
func (o *Office) RemoveTemplateLine(ctx context.Context, by assessment.Actor, id assessment.PlanLineID) error {
	return o.as(ctx, by, assessment.EditTemplate, func(tx *postgres.Tx, now Moment) error {
		v, err := templateForChange(ctx, tx)
		if err != nil {
			return err
		}
		kept, err := tx.Plans.TemplateLine(ctx, id)
		if err != nil {
			return err
		}
		if err := mayChange(ctx, tx, now, by, ruleOf(kept)); err != nil {
			return err
		}
		if len(v.Lines) == 1 {
			return fault.Of(fault.Refused, "This is the last line of the template. Without it new plans would be empty. Go back to the standard template instead.")
		}
		if err := tx.Plans.RemoveTemplateLine(ctx, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditTemplate, "template line removed", string(id))
	})
}
