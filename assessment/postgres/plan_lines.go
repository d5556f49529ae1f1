package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// PlanLine is a line of the agency's own template of plans.
type PlanLine struct {
	ID           assessment.PlanLineID
	Kind         assessment.CriterionKind
	Title        string
	Spanish      string
	Skills       []string
	People       int
	Hours        int
	Items        []string
	ItemsSpanish []string
	Says         assessment.Sayer
	Licence      string
	Source       string
	Position     int
}

const planLineQuery = `
	select id, kind, title, title_es as spanish, skills, people, hours, items, items_es as items_spanish, says, licence, source, position
	from plan_line`

// Template lists the lines of the agency's own template in order; none: it has none.
func (p Plans) Template(ctx context.Context) ([]PlanLine, error) {
	return list[PlanLine](ctx, p.scope, planLineQuery+` where removed_at is null order by position, id`)
}

// TemplateLine is the line with this id, where it has not been removed.
func (p Plans) TemplateLine(ctx context.Context, id assessment.PlanLineID) (PlanLine, error) {
	return get[PlanLine](ctx, p.scope, planLineQuery+` where id = $1 and removed_at is null`, id)
}

// LockTemplate makes others who change the template wait.
func (p Plans) LockTemplate(ctx context.Context) error { return p.turn(ctx, "template of plans") }

// AddTemplateLine adds a line.
func (p Plans) AddTemplateLine(ctx context.Context, n PlanLine, by assessment.PersonID, at time.Time) error {
	return p.exec(ctx, `
		insert into plan_line (agency_id, id, kind, title, title_es, skills, people, hours, items, items_es, says, licence, source, position, added_at, added_by)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`,
		p.agency, n.ID, n.Kind, n.Title, n.Spanish, filled(n.Skills), n.People, n.Hours, filled(n.Items), filled(n.ItemsSpanish), n.Says, n.Licence, n.Source, n.Position, at, by)
}

// SaveTemplateLine changes a line; its kind stays.
func (p Plans) SaveTemplateLine(ctx context.Context, n PlanLine) error {
	return p.change(ctx, `
		update plan_line set title = $2, title_es = $3, skills = $4, people = $5, hours = $6, items = $7, items_es = $8, says = $9, licence = $10, source = $11
		where id = $1 and removed_at is null`,
		n.ID, n.Title, n.Spanish, filled(n.Skills), n.People, n.Hours, filled(n.Items), filled(n.ItemsSpanish), n.Says, n.Licence, n.Source)
}

// RemoveTemplateLine takes a line off the template.
func (p Plans) RemoveTemplateLine(ctx context.Context, id assessment.PlanLineID, at time.Time) error {
	return p.change(ctx, `update plan_line set removed_at = $2 where id = $1 and removed_at is null`, id, at)
}

// DropTemplate takes all lines off.
func (p Plans) DropTemplate(ctx context.Context, at time.Time) error {
	return p.exec(ctx, `update plan_line set removed_at = $1 where removed_at is null`, at)
}
