package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Learning keeps what people chose for learning plans: a day to be ready by, who teaches
// what, days of single skills, and how many days the agency plans for each.
type Learning struct{ scope }

// LearningTarget is by when somebody is to have learnt what they need.
type LearningTarget struct {
	ID       assessment.RecordID
	Person   assessment.PersonID
	Goal     assessment.LearningGoal
	TargetOn civil.Date // zero: as the plan for going home or the roster has it
	SetBy    assessment.PersonID
	SetAt    time.Time
}

// Target is what counts for somebody; none is "not found".
func (l Learning) Target(ctx context.Context, person assessment.PersonID) (LearningTarget, error) {
	return get[LearningTarget](ctx, l.scope, `
		select id, person_id as person, goal, target_on, set_by, set_at from learning_target where person_id = $1 order by set_at desc, id desc limit 1`, person)
}

// SetTarget sets it from now on.
func (l Learning) SetTarget(ctx context.Context, t LearningTarget) error {
	return l.exec(ctx, `
		insert into learning_target (agency_id, id, person_id, goal, target_on, set_by, set_at) values ($1, $2, $3, $4, $5, $6, $7)`,
		l.agency, t.ID, t.Person, t.Goal, t.TargetOn, t.SetBy, t.SetAt)
}

// LearningChoice is who teaches somebody a skill, and by which day instead of the one that
// is worked out.
type LearningChoice struct {
	ID      assessment.RecordID
	Person  assessment.PersonID
	Skill   assessment.SkillID
	Client  assessment.ClientID // empty for a general skill
	Teacher assessment.PersonID // empty: nobody was chosen
	By      civil.Date          // zero: as it is worked out
	SetBy   assessment.PersonID
	SetAt   time.Time
}

// Choices lists what counts for somebody.
func (l Learning) Choices(ctx context.Context, person assessment.PersonID) ([]LearningChoice, error) {
	return list[LearningChoice](ctx, l.scope, `
		select distinct on (skill_id, client_id) id, person_id as person, skill_id as skill, coalesce(client_id::text, '') as client,
			coalesce(teacher_id::text, '') as teacher, by_on as by, set_by, set_at
		from learning_choice where person_id = $1 order by skill_id, client_id, set_at desc, id desc`, person)
}

// Choose keeps a choice from now on.
func (l Learning) Choose(ctx context.Context, c LearningChoice) error {
	return l.exec(ctx, `
		insert into learning_choice (agency_id, id, person_id, skill_id, client_id, teacher_id, by_on, set_by, set_at)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, nullif($6, '')::uuid, $7, $8, $9)`,
		l.agency, c.ID, c.Person, c.Skill, string(c.Client), string(c.Teacher), c.By, c.SetBy, c.SetAt)
}

// LearningDays is how many days the agency plans for a skill.
type LearningDays struct {
	Skill assessment.SkillID
	Days  int
}

// Days lists those that count, of the skills for which any were set.
func (l Learning) Days(ctx context.Context) ([]LearningDays, error) {
	return list[LearningDays](ctx, l.scope, `
		select distinct on (skill_id) skill_id as skill, days from learning_days order by skill_id, set_at desc, id desc`)
}

// SetDays plans them from now on.
func (l Learning) SetDays(ctx context.Context, id assessment.RecordID, d LearningDays, by assessment.PersonID, at time.Time) error {
	return l.exec(ctx, `
		insert into learning_days (agency_id, id, skill_id, days, set_by, set_at) values ($1, $2, $3, $4, $5, $6)`, l.agency, id, d.Skill, d.Days, by, at)
}
