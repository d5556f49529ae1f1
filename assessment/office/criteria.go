package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CriterionForm is one line of a child's plan.
type CriterionForm struct {
	ID     string // made by whoever sends it, so that adding twice is harmless; empty: made here
	Kind   string // one of assessment.CriterionKinds; cannot be changed later
	Title  string
	Skills []string // codes
	Count  int      // family caregivers, 0 to 20
	Hours  int      // planned, 0 to 2000; 0 is not set
	Items  []string // of equipment
}

// StartPlan gives a child the standard plan, for what family caregivers must hold
// for the child today.
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
		for i, c := range StandardPlan(skills) {
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
	row := postgres.Criterion{ID: c.ID, Client: client, Kind: c.Kind, Title: c.Title, Skills: c.Skills, People: c.Count, Hours: c.Hours, Items: c.Items, Position: position}
	if err := tx.Plans.Add(ctx, row, by.Person, now.At); err != nil {
		return fmt.Errorf("add to the plan: %w", err)
	}
	return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion", string(c.ID))
}

// AddCriterion adds a line at the end of a child's plan. Sending the same form
// with its id twice adds one line.
func (o *Office) AddCriterion(ctx context.Context, by assessment.Actor, client assessment.ClientID, form CriterionForm) (assessment.CriterionID, error) {
	var id assessment.CriterionID
	err := o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		c, err := form.read(ctx, tx)
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

func (c CriterionForm) read(ctx context.Context, tx *postgres.Tx) (assessment.Criterion, error) {
	var f form
	n := assessment.Criterion{Kind: assessment.CriterionKind(c.Kind), Title: f.line("title", c.Title, 200, "Say what must be met, in a short line."), Count: c.Count, Hours: c.Hours}
	if !slices.Contains(assessment.CriterionKinds, n.Kind) {
		f.Add("kind", "Choose how this is judged.")
	}
	if c.Count < 0 || c.Count > 20 {
		f.Add("count", "The number of family caregivers lies between 0 and 20.")
	}
	if c.Hours < 0 || c.Hours > 2000 {
		f.Add("hours", "The planned hours lie between 0 and 2000.")
	}
	for _, item := range c.Items {
		if item = f.maybe("items", item, 100); item != "" && !slices.Contains(n.Items, item) {
			n.Items = append(n.Items, item)
		}
	}
	if len(n.Items) > 100 {
		f.Add("items", "These are more than 100 items.")
	}
	skills, err := tx.Checklists.Skills(ctx)
	if err != nil {
		return n, fmt.Errorf("read skills: %w", err)
	}
	for _, code := range c.Skills {
		code = strings.TrimSpace(code)
		if !slices.ContainsFunc(skills, func(s postgres.Skill) bool { return s.Code == code }) {
			f.Add("skills", "There is no skill with the code %q.", code)
		}
		if !slices.Contains(n.Skills, code) {
			n.Skills = append(n.Skills, code)
		}
	}
	return n, f.Err()
}

// EditCriterion changes a line: its title, skills, count, hours and items. How it
// is judged stays.
func (o *Office) EditCriterion(ctx context.Context, by assessment.Actor, id assessment.CriterionID, form CriterionForm) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		kept, err := tx.Plans.Criterion(ctx, id)
		if err != nil {
			return err
		}
		if form.Kind == "" {
			form.Kind = string(kept.Kind)
		}
		c, err := form.read(ctx, tx)
		if err != nil {
			return err
		}
		if c.Kind != kept.Kind {
			return faultAt("kind", "How this is judged cannot be changed. Remove the line and add another.")
		}
		kept.Title, kept.Skills, kept.People, kept.Hours, kept.Items = c.Title, c.Skills, c.Count, c.Hours, c.Items
		if err := tx.Plans.Save(ctx, kept); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion", string(id))
	})
}

// RemoveCriterion takes a line off a child's plan.
func (o *Office) RemoveCriterion(ctx context.Context, by assessment.Actor, id assessment.CriterionID) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Plans.Remove(ctx, id, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "criterion removed", string(id))
	})
}
