package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Requirements keeps who must hold what.
type Requirements struct{ scope }

// Requirement is one as it is kept, with its skill.
type Requirement struct {
	ID            assessment.RequirementID
	SkillID       assessment.SkillID
	Skill         string // code
	Scope         assessment.Scope
	Kind          assessment.CaregiverKind
	Client        assessment.ClientID // empty: every client
	ClientCode    string
	EquipmentKind string
	FromOn        civil.Date
	ThroughOn     civil.Date // zero: until further notice
}

// Rule is the requirement as the core knows it.
func (r Requirement) Rule() assessment.Requirement {
	return assessment.Requirement{ID: r.ID, Skill: r.Skill, Kind: r.Kind, Client: r.Client,
		EquipmentKind: r.EquipmentKind, From: r.FromOn, Through: r.ThroughOn}
}

const requirementQuery = `
	select r.id, r.skill_id, s.code as skill, s.scope, r.kind, coalesce(r.client_id::text, '') as client,
		coalesce(c.code, '') as client_code, r.equipment_kind, r.from_on, r.through_on
	from requirement r
	join skill s on s.agency_id = r.agency_id and s.id = r.skill_id
	left join client c on c.agency_id = r.agency_id and c.id = r.client_id`

const allRequirements = requirementQuery + `
	order by s.position, s.code, r.kind, client_code, r.equipment_kind, r.from_on, r.id`

// List lists all requirements, past ones too, in teaching order.
func (r Requirements) List(ctx context.Context) ([]Requirement, error) {
	return list[Requirement](ctx, r.scope, allRequirements)
}

// Get is the requirement with this id.
func (r Requirements) Get(ctx context.Context, id assessment.RequirementID) (Requirement, error) {
	return get[Requirement](ctx, r.scope, requirementQuery+` where r.id = $1`, id)
}

// Add adds one.
func (r Requirements) Add(ctx context.Context, n Requirement, by assessment.PersonID, at time.Time) error {
	return r.exec(ctx, `
		insert into requirement (agency_id, id, skill_id, kind, client_id, equipment_kind, from_on, through_on, set_at, set_by)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10)`,
		r.agency, n.ID, n.SkillID, n.Kind, string(n.Client), n.EquipmentKind, n.FromOn, n.ThroughOn, at, by)
}

// End sets the last day of one.
func (r Requirements) End(ctx context.Context, id assessment.RequirementID, through civil.Date) error {
	return r.change(ctx, `update requirement set through_on = $2 where id = $1`, id, through)
}
