package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// SkillsDays keeps days on which many show skills: stations, and who comes.
type SkillsDays struct{ scope }

// SkillsDay is a day on which many show skills at stations.
type SkillsDay struct {
	ID        assessment.SkillsDayID
	HeldOn    civil.Date
	Name      string
	Place     string
	PlannedBy assessment.PersonID
	Planner   string
	PlannedAt time.Time
	EndedAt   *time.Time
	Ender     string
	Stations  int // how many there are
	Learners  int
}

const skillsDayQuery = `
	select d.id, d.held_on, d.name, d.place, d.planned_by, p.name as planner, d.planned_at, d.ended_at, coalesce(e.name, '') as ender,
		(select count(*) from skills_day_station s where s.agency_id = d.agency_id and s.day_id = d.id)::int as stations,
		(select count(*) from skills_day_learner l where l.agency_id = d.agency_id and l.day_id = d.id)::int as learners
	from skills_day d
		join person p on p.agency_id = d.agency_id and p.id = d.planned_by
		left join person e on e.agency_id = d.agency_id and e.id = d.ended_by`

// List lists the days, the newest first.
func (s SkillsDays) List(ctx context.Context) ([]SkillsDay, error) {
	return list[SkillsDay](ctx, s.scope, skillsDayQuery+` order by d.held_on desc, lower(d.name), d.id`)
}

// From lists those of a day and of all days after it, the earliest first.
func (s SkillsDays) From(ctx context.Context, day civil.Date) ([]SkillsDay, error) {
	return list[SkillsDay](ctx, s.scope, skillsDayQuery+` where d.held_on >= $1 order by d.held_on, lower(d.name), d.id`, day)
}

// On lists those of one day that have not been ended.
func (s SkillsDays) On(ctx context.Context, day civil.Date) ([]SkillsDay, error) {
	return list[SkillsDay](ctx, s.scope, skillsDayQuery+` where d.held_on = $1 and d.ended_at is null order by lower(d.name), d.id`, day)
}

// Get is the day with this id.
func (s SkillsDays) Get(ctx context.Context, id assessment.SkillsDayID) (SkillsDay, error) {
	return get[SkillsDay](ctx, s.scope, skillsDayQuery+` where d.id = $1`, id)
}

// Lock is Get, with others who lock the day kept waiting until the end of the
// transaction: one changes it at a time, and nobody moves meanwhile.
func (s SkillsDays) Lock(ctx context.Context, id assessment.SkillsDayID) (SkillsDay, error) {
	return get[SkillsDay](ctx, s.scope, skillsDayQuery+` where d.id = $1 for no key update of d`, id)
}

// Add plans a day.
func (s SkillsDays) Add(ctx context.Context, n SkillsDay) error {
	return s.exec(ctx, `
		insert into skills_day (agency_id, id, held_on, name, place, planned_by, planned_at)
		values ($1, $2, $3, $4, $5, $6, $7)`, s.agency, n.ID, n.HeldOn, n.Name, n.Place, n.PlannedBy, n.PlannedAt)
}

// Save changes when and where it is, and what it is called.
func (s SkillsDays) Save(ctx context.Context, n SkillsDay) error {
	return s.change(ctx, `update skills_day set held_on = $2, name = $3, place = $4 where id = $1`, n.ID, n.HeldOn, n.Name, n.Place)
}

// End closes a day.
func (s SkillsDays) End(ctx context.Context, id assessment.SkillsDayID, by assessment.PersonID, at time.Time) error {
	return s.change(ctx, `update skills_day set ended_by = $2, ended_at = $3 where id = $1`, id, by, at)
}

// Station is one table of a day: a skill, who observes it, and the child whose values
// it is judged by.
type Station struct {
	No         int
	SkillID    assessment.SkillID
	Code       string
	ObserverID assessment.PersonID
	ClientID   assessment.ClientID // empty: none
}

// Stations lists the stations of a day by number.
func (s SkillsDays) Stations(ctx context.Context, id assessment.SkillsDayID) ([]Station, error) {
	return list[Station](ctx, s.scope, `
		select t.no::int, t.skill_id, k.code, t.observer_id, coalesce(t.client_id::text, '') as client_id
		from skills_day_station t join skill k on k.agency_id = t.agency_id and k.id = t.skill_id
		where t.day_id = $1 order by t.no`, id)
}

// SaveStation puts a station there, or changes the one with its number.
func (s SkillsDays) SaveStation(ctx context.Context, id assessment.SkillsDayID, n Station) error {
	return s.exec(ctx, `
		insert into skills_day_station (agency_id, day_id, no, skill_id, observer_id, client_id)
		values ($1, $2, $3, $4, $5, nullif($6, '')::uuid)
		on conflict (agency_id, day_id, no) do update
		set skill_id = excluded.skill_id, observer_id = excluded.observer_id, client_id = excluded.client_id`,
		s.agency, id, n.No, n.SkillID, n.ObserverID, string(n.ClientID))
}

// RemoveStation takes a station away; whoever was there is at none.
func (s SkillsDays) RemoveStation(ctx context.Context, id assessment.SkillsDayID, no int) error {
	if err := s.exec(ctx, `update skills_day_learner set station = null where day_id = $1 and station = $2`, id, no); err != nil {
		return err
	}
	return s.change(ctx, `delete from skills_day_station where day_id = $1 and no = $2`, id, no)
}

// DayLearner is somebody who comes, and where they are.
type DayLearner struct {
	PersonID assessment.PersonID
	Name     string
	Kind     assessment.CaregiverKind
	Relation string
	LeftOn   civil.Date
	Station  int        // 0: at none
	MovedAt  *time.Time // when they came there; nil: they have not moved yet
}

// Learners lists who comes, by name.
func (s SkillsDays) Learners(ctx context.Context, id assessment.SkillsDayID) ([]DayLearner, error) {
	return list[DayLearner](ctx, s.scope, `
		select l.person_id, p.name, p.kind, p.relation, p.left_on, coalesce(l.station, 0)::int as station, l.moved_at
		from skills_day_learner l join person p on p.agency_id = l.agency_id and p.id = l.person_id
		where l.day_id = $1 order by lower(p.name), p.id`, id)
}

// AddLearner puts somebody on the list.
func (s SkillsDays) AddLearner(ctx context.Context, id assessment.SkillsDayID, who assessment.PersonID) error {
	return s.exec(ctx, `insert into skills_day_learner (agency_id, day_id, person_id) values ($1, $2, $3)`, s.agency, id, who)
}

// RemoveLearner takes somebody off the list.
func (s SkillsDays) RemoveLearner(ctx context.Context, id assessment.SkillsDayID, who assessment.PersonID) error {
	return s.change(ctx, `delete from skills_day_learner where day_id = $1 and person_id = $2`, id, who)
}

// Move says at which station somebody is; 0: at none.
func (s SkillsDays) Move(ctx context.Context, id assessment.SkillsDayID, who assessment.PersonID, station int, at time.Time) error {
	return s.change(ctx, `update skills_day_learner set station = nullif($3, 0), moved_at = $4 where day_id = $1 and person_id = $2`, id, who, station, at)
}

// Shown is a demonstration as a skills day tells of it.
type Shown struct {
	ID          assessment.DemonstrationID
	LearnerID   assessment.PersonID
	SkillID     assessment.SkillID
	ClientID    assessment.ClientID
	Outcome     assessment.Outcome
	Formal      bool
	PerformedAt time.Time
	Observer    string
	Corrected   bool // taken back since
	ByObserver  bool // signed
	ByLearner   bool
}

// Shown lists what some people showed from an instant up to another, oldest first.
func (s SkillsDays) Shown(ctx context.Context, people []assessment.PersonID, from, to time.Time) ([]Shown, error) {
	return list[Shown](ctx, s.scope, `
		select d.id, d.learner_id, d.skill_id, coalesce(d.client_id::text, '') as client_id, d.outcome, d.formal, d.performed_at, o.name as observer,
			exists (select from correction k where k.agency_id = d.agency_id and k.of_id = d.id) as corrected,
			exists (select from signature g where g.agency_id = d.agency_id and g.demonstration_id = d.id and g.part = 'observer') as by_observer,
			exists (select from signature g where g.agency_id = d.agency_id and g.demonstration_id = d.id and g.part = 'learner') as by_learner
		from demonstration d join person o on o.agency_id = d.agency_id and o.id = d.observer_id
		where d.learner_id = any($1::uuid[]) and d.performed_at >= $2 and d.performed_at < $3
		order by d.performed_at, d.id`, people, from, to)
}
