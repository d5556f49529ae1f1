package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
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
	Plan   *PlanForm
}

// PlanForm is what else is planned for a line. A form without it leaves all of this as
// it is.
type PlanForm struct {
	Spanish      string   // the title in Spanish
	ItemsSpanish []string // in the order of Items
	Says         string   // one of assessment.Sayers
	Licence      string   // kind, such as RRT
	By           string   // YYYY-MM-DD; empty: the day of the plan
	Responsible  string   // who sees to it
}

// readPlan reads what else is planned, or keeps what was.
func (c CriterionForm) readPlan(f *form, n *assessment.Criterion, before assessment.Criterion) {
	if c.Plan == nil {
		n.Says, n.Licence, n.By, n.Responsible = before.Says, before.Licence, before.By, before.Responsible
		if n.Title == before.Title { // else it would say something else in Spanish
			n.Spanish = before.Spanish
		}
		for _, item := range n.Items {
			n.ItemsSpanish = append(n.ItemsSpanish, before.Item(item).Spanish)
		}
		n.ItemsSpanish = trimmed(n.ItemsSpanish)
		return
	}
	n.Spanish = f.maybe("spanish", c.Plan.Spanish, 200)
	n.Says, n.Licence = assessment.Sayer(strings.TrimSpace(c.Plan.Says)), f.maybe("licence", c.Plan.Licence, 40)
	if !slices.Contains(assessment.Sayers, n.Says) {
		f.Add("says", "Choose who may say that it is so.")
	}
	n.ItemsSpanish = c.spanishItems(f, n.Items)
	n.By, n.Responsible = f.maybeDay("by", c.Plan.By), f.maybe("responsible", c.Plan.Responsible, 100)
}

// spanishItems are the items in Spanish, each on the line on which it stands in English.
func (c CriterionForm) spanishItems(f *form, items []string) []string {
	typed := trimmed(c.Plan.ItemsSpanish)
	if len(typed) > len(c.Items) {
		f.Add("items_spanish", "These are more than the items in English. Write each on the line that it has there.")
	}
	said := make([]string, len(items))
	for i, line := range c.Items {
		at := slices.Index(items, strings.Join(strings.Fields(line), " "))
		if at >= 0 && i < len(typed) && said[at] == "" {
			said[at] = f.maybe("items_spanish", typed[i], 100)
		}
	}
	return trimmed(said)
}

// trimmed leaves out what is empty at the end.
func trimmed(words []string) []string {
	for len(words) > 0 && strings.TrimSpace(words[len(words)-1]) == "" {
		words = words[:len(words)-1]
	}
	return words
}

// asksOther reports whether a line asks something else now, or of somebody else.
func asksOther(before, after assessment.Criterion) bool {
	return before.Title != after.Title || before.Count != after.Count || before.Hours != after.Hours || before.Says != after.Says || before.Licence != after.Licence ||
		!slices.Equal(before.Skills, after.Skills) || !slices.Equal(before.Items, after.Items)
}

func (c CriterionForm) read(ctx context.Context, tx *postgres.Tx, before assessment.Criterion) (assessment.Criterion, error) {
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
	c.readPlan(&f, &n, before)
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
