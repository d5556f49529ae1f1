package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Checklists keeps skills and the revisions of their checklists. Revisions are
// only ever added; a draft may be changed until it is in force.
type Checklists struct{ scope }

// Skill is something to be shown, titled by its revision in force, else by its
// newest one.
type Skill struct {
	ID       assessment.SkillID
	Code     string
	Scope    assessment.Scope
	Position int
	Title    string
	InForce  int // number of the revision in force; 0 for none
}

const skillQuery = `
	select s.id, s.code, s.scope, s.position, coalesce(r.title, s.code) as title,
		case when r.state = 'in force' then r.number else 0 end as in_force
	from skill s
	left join lateral (
		select title, state, number from revision
		where agency_id = s.agency_id and skill_id = s.id
		order by (state = 'in force') desc, number desc
		limit 1) r on true`

const allSkills = skillQuery + ` order by s.position, s.code`

// Skills lists all skills in teaching order.
func (c Checklists) Skills(ctx context.Context) ([]Skill, error) {
	return list[Skill](ctx, c.scope, allSkills)
}

// SkillByCode is the skill with this code.
func (c Checklists) SkillByCode(ctx context.Context, code string) (Skill, error) {
	return get[Skill](ctx, c.scope, skillQuery+` where s.code = $1`, code)
}

// Skill is the skill with this id.
func (c Checklists) Skill(ctx context.Context, id assessment.SkillID) (Skill, error) {
	return get[Skill](ctx, c.scope, skillQuery+` where s.id = $1`, id)
}

// AddSkill adds a skill at the end of the teaching order.
func (c Checklists) AddSkill(ctx context.Context, s Skill, at time.Time) error {
	return c.exec(ctx, `
		insert into skill (agency_id, id, code, scope, position, created_at)
		select $1, $2, $3, $4, coalesce(max(position), 0) + 1, $5 from skill`,
		c.agency, s.ID, s.Code, s.Scope, at)
}

// Revision is one version of a checklist as it is kept, without its body.
type Revision struct {
	ID        assessment.RevisionID
	SkillID   assessment.SkillID
	Code      string
	Number    int
	State     assessment.State
	Title     string
	SHA256    []byte // of its body
	DraftedAt time.Time
	DraftedBy string // printed name
	InForceAt *time.Time
	InForceBy string
	Statement string
	RetiredAt *time.Time
}

const revisionQuery = `
	select r.id, r.skill_id, s.code, r.number, r.state, r.title, r.body_sha256 as sha256, r.drafted_at,
		coalesce(d.name, '') as drafted_by, r.in_force_at, coalesce(f.name, '') as in_force_by,
		coalesce(r.statement, '') as statement, r.retired_at
	from revision r
	join skill s on s.agency_id = r.agency_id and s.id = r.skill_id
	left join person d on d.agency_id = r.agency_id and d.id = r.drafted_by
	left join person f on f.agency_id = r.agency_id and f.id = r.in_force_by`

const everInForce = `
	select id, skill_id, number, state, body_sha256 as sha256, in_force_at
	from revision where in_force_at is not null order by skill_id, number`

// Revisions lists the revisions of a skill, or of all skills for the empty id.
func (c Checklists) Revisions(ctx context.Context, skill assessment.SkillID) ([]Revision, error) {
	return list[Revision](ctx, c.scope, revisionQuery+`
		where ($1 = '' or r.skill_id = nullif($1, '')::uuid)
		order by s.position, s.code, r.number`, string(skill))
}

// Revision is the one with this id.
func (c Checklists) Revision(ctx context.Context, id assessment.RevisionID) (Revision, error) {
	return get[Revision](ctx, c.scope, revisionQuery+` where r.id = $1`, id)
}

// Body is the whole text of a revision, as it is hashed.
func (c Checklists) Body(ctx context.Context, id assessment.RevisionID) (string, error) {
	r, err := get[struct{ Body string }](ctx, c.scope, `select body from revision where id = $1`, id)
	return r.Body, err
}

// LockSkill keeps others from changing the skill's revisions until the end of
// the transaction. It does not keep others from referring to the skill, which
// whoever writes the index does.
func (c Checklists) LockSkill(ctx context.Context, id assessment.SkillID) error {
	_, err := get[struct{ ID assessment.SkillID }](ctx, c.scope, `select id from skill where id = $1 for no key update`, id)
	return err
}

// AddDraft adds a revision as a draft.
func (c Checklists) AddDraft(ctx context.Context, r Revision, body string, by assessment.PersonID) error {
	return c.exec(ctx, `
		insert into revision (agency_id, id, skill_id, number, state, title, body, body_sha256, drafted_at, drafted_by)
		values ($1, $2, $3, $4, 'draft', $5, $6, sha256(convert_to($6, 'UTF8')), $7, $8)`,
		c.agency, r.ID, r.SkillID, r.Number, r.Title, body, r.DraftedAt, by)
}

// SaveDraft changes a draft.
func (c Checklists) SaveDraft(ctx context.Context, id assessment.RevisionID, title, body string, at time.Time, by assessment.PersonID) error {
	return c.exec(ctx, `
		update revision
		set title = $2, body = $3, body_sha256 = sha256(convert_to($3, 'UTF8')), drafted_at = $4, drafted_by = $5
		where id = $1`, id, title, body, at, by)
}

// DiscardDraft deletes a draft.
func (c Checklists) DiscardDraft(ctx context.Context, id assessment.RevisionID) error {
	return c.exec(ctx, `delete from revision where id = $1`, id)
}

// PutInForce retires the revision in force, if there is one, and puts this one in
// its place.
func (c Checklists) PutInForce(ctx context.Context, r Revision, by assessment.PersonID, statement string, at time.Time) error {
	err := c.exec(ctx, `
		update revision set state = 'retired', retired_at = $2, retired_by = $3
		where skill_id = $1 and state = 'in force'`, r.SkillID, at, by)
	if err != nil {
		return err
	}
	return c.exec(ctx, `
		update revision set state = 'in force', in_force_at = $2, in_force_by = $3, statement = $4
		where id = $1 and state = 'draft'`, r.ID, at, by, statement)
}

// Retire takes a revision out of force with none in its place.
func (c Checklists) Retire(ctx context.Context, id assessment.RevisionID, by assessment.PersonID, at time.Time) error {
	return c.exec(ctx, `
		update revision set state = 'retired', retired_at = $2, retired_by = $3
		where id = $1`, id, at, by)
}

// Recheck demands that everybody has shown a revision, or a newer one, by a day.
type Recheck struct {
	ID          assessment.RecordID
	SkillID     assessment.SkillID
	Revision    int
	By          string // YYYY-MM-DD
	AnnouncedAt time.Time
}

// AddRecheck adds a recheck.
func (c Checklists) AddRecheck(ctx context.Context, k Recheck, by assessment.PersonID) error {
	return c.exec(ctx, `
		insert into recheck (agency_id, id, skill_id, revision, by_on, announced_at, announced_by)
		values ($1, $2, $3, $4, $5::text::date, $6, $7)`, c.agency, k.ID, k.SkillID, k.Revision, k.By, k.AnnouncedAt, by)
}
