package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// StartPlan gives a child the plan that the agency's template makes, for what family
// caregivers must hold for the child today.
func (o *Office) StartPlan(ctx context.Context, by assessment.Actor, client assessment.ClientID) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.Clients.Lock(ctx, client); err != nil {
			return err
		}
		kept, err := tx.Plans.Criteria(ctx, client)
		if err != nil {
			return err
		}
		if len(kept) > 0 {
			return fault.Of(fault.Conflict, "This child has a plan already.")
		}
		d, err := o.demands(ctx, tx, now.Today, postgres.TeamFilter{Client: client})
		if err != nil {
			return err
		}
		var skills []string
		for _, need := range d.of(assessment.Family, client) {
			skills = append(skills, need.Skill)
		}
		t, err := template(ctx, tx)
		if err != nil {
			return err
		}
		var lines []assessment.Criterion
		for _, l := range t.Lines {
			lines = append(lines, l.Criterion)
		}
		for i, c := range planFrom(lines, skills) {
			if err := o.addCriterion(ctx, tx, now, by, client, c, i+1); err != nil {
				return err
			}
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "plan", string(client))
	})
}

func (o *Office) addCriterion(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, client assessment.ClientID, c assessment.Criterion, position int) error {
	var err error
	if c.ID == "" {
		if c.ID, err = newID[assessment.CriterionID](o, now.At); err != nil {
			return err
		}
	}
	row := kept(postgres.Criterion{ID: c.ID, Client: client, Kind: c.Kind, Source: c.Source, Position: position}, c)
	if err := tx.Plans.Add(ctx, row, by.Person, now.At); err != nil {
		return fmt.Errorf("add to the plan: %w", err)
	}
	return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion", string(c.ID))
}

// kept is a row with what the rule says that can be changed.
func kept(row postgres.Criterion, c assessment.Criterion) postgres.Criterion {
	row.Title, row.Skills, row.People, row.Hours, row.Items = c.Title, c.Skills, c.Count, c.Hours, c.Items
	row.Spanish, row.ItemsSpanish, row.Says, row.Licence, row.ByOn, row.Responsible = c.Spanish, c.ItemsSpanish, c.Says, c.Licence, c.By, c.Responsible
	return row
}

// AddCriterion adds a line at the end of a child's plan. Sending the same form
// with its id twice adds one line.
func (o *Office) AddCriterion(ctx context.Context, by assessment.Actor, client assessment.ClientID, form CriterionForm) (assessment.CriterionID, error) {
	var id assessment.CriterionID
	err := o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		c, err := form.read(ctx, tx, assessment.Criterion{})
		if err != nil {
			return err
		}
		if _, err := tx.Clients.Lock(ctx, client); err != nil {
			return err
		}
		kept, err := tx.Plans.Criteria(ctx, client)
		if err != nil {
			return err
		}
		if c.ID, err = idOr[assessment.CriterionID](o, form.ID, now.At); err != nil {
			return err
		}
		id = c.ID
		last := 0
		for _, k := range kept {
			if k.ID == id {
				return nil
			}
			last = max(last, k.Position)
		}
		return o.addCriterion(ctx, tx, now, by, client, c, last+1)
	})
	return id, err
}

// heldCriterion is a line of a plan that nobody else changes meanwhile: who may say or change
// what depends on what it asks, so that is read once it is held.
func heldCriterion(ctx context.Context, tx *postgres.Tx, id assessment.CriterionID) (postgres.Criterion, error) {
	row, err := tx.Plans.Criterion(ctx, id)
	if err != nil {
		return row, err
	}
	if _, err := tx.Clients.Lock(ctx, row.Client); err != nil {
		return row, err
	}
	return tx.Plans.Criterion(ctx, id)
}

// EditCriterion changes a line: what it asks and what is planned for it. How it is
// judged stays.
func (o *Office) EditCriterion(ctx context.Context, by assessment.Actor, id assessment.CriterionID, form CriterionForm) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		row, err := heldCriterion(ctx, tx, id)
		if err != nil {
			return err
		}
		if form.Kind == "" {
			form.Kind = string(row.Kind)
		}
		before := row.Rule()
		c, err := form.read(ctx, tx, before)
		if err != nil {
			return err
		}
		if c.Kind != row.Kind {
			return faultAt("kind", "How this is judged cannot be changed. Remove the line and add another.")
		}
		if asksOther(before, c) {
			if err := mayChange(ctx, tx, now, by, before); err != nil {
				return err
			}
		}
		if err := tx.Plans.Save(ctx, kept(row, c)); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion", string(id))
	})
}

// RemoveCriterion takes a line off a child's plan.
func (o *Office) RemoveCriterion(ctx context.Context, by assessment.Actor, id assessment.CriterionID) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		row, err := heldCriterion(ctx, tx, id)
		if err != nil {
			return err
		}
		if err := mayChange(ctx, tx, now, by, row.Rule()); err != nil {
			return err
		}
		if err := tx.Plans.Remove(ctx, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion removed", string(id))
	})
}
