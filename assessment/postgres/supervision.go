package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// SkilledCare says from a day on whether a child gets skilled care.
type SkilledCare struct {
	ID           assessment.RecordID
	Client       assessment.ClientID
	FromOn       civil.Date
	Skilled      bool
	EpisodesFrom civil.Date // zero: not known
	SetBy        assessment.PersonID
	SetAt        time.Time
}

// SkilledCare lists every setting, oldest first; of two for one day the later counts.
func (p Practice) SkilledCare(ctx context.Context) ([]SkilledCare, error) {
	return list[SkilledCare](ctx, p.scope, `
		select id, client_id as client, from_on, skilled, episodes_from, set_by, set_at from skilled_care order by from_on, set_at, id`)
}

// SetSkilledCare sets it.
func (p Practice) SetSkilledCare(ctx context.Context, c SkilledCare) error {
	return p.exec(ctx, `
		insert into skilled_care (agency_id, id, client_id, from_on, skilled, episodes_from, set_by, set_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`, p.agency, c.ID, c.Client, c.FromOn, c.Skilled, c.EpisodesFrom, c.SetBy, c.SetAt)
}

// SupervisoryVisit is an assessment of an aide's services with a child.
type SupervisoryVisit struct {
	ID          assessment.RecordID
	Client      assessment.ClientID
	Aide        assessment.PersonID
	Supervisor  assessment.PersonID
	MadeOn      civil.Date
	How         assessment.SupervisionHow
	Watched     bool
	Why         string
	Found       string
	Deficient   bool
	WrittenBy   assessment.PersonID
	WrittenAt   time.Time
	TakenBackAt *time.Time
}

const supervisedQuery = `
	select v.id, v.client_id as client, v.person_id as aide, v.supervisor_id as supervisor, v.made_on, v.how, v.watched, v.why, v.found, v.deficient,
		v.written_by, v.written_at, v.taken_back_at
	from supervisory_visit v`

// Supervised lists all of them, with those taken back, the newest first.
func (p Practice) Supervised(ctx context.Context) ([]SupervisoryVisit, error) {
	return list[SupervisoryVisit](ctx, p.scope, supervisedQuery+` order by v.made_on desc, v.id desc`)
}

// SupervisedOnce is the one with this id.
func (p Practice) SupervisedOnce(ctx context.Context, id assessment.RecordID) (SupervisoryVisit, error) {
	return get[SupervisoryVisit](ctx, p.scope, supervisedQuery+` where v.id = $1`, id)
}

// AddSupervised writes one down.
func (p Practice) AddSupervised(ctx context.Context, v SupervisoryVisit) error {
	return p.exec(ctx, `
		insert into supervisory_visit (agency_id, id, client_id, person_id, supervisor_id, made_on, how, watched, why, found, deficient, written_by, written_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
		p.agency, v.ID, v.Client, v.Aide, v.Supervisor, v.MadeOn, v.How, v.Watched, v.Why, v.Found, v.Deficient, v.WrittenBy, v.WrittenAt)
}

// TakeBackSupervised has one count for nothing from now on.
func (p Practice) TakeBackSupervised(ctx context.Context, id assessment.RecordID, by assessment.PersonID, at time.Time) error {
	return p.change(ctx, `update supervisory_visit set taken_back_by = $2, taken_back_at = $3 where id = $1 and taken_back_at is null`, id, by, at)
}

// Lock has whoever writes assessments down take turns.
func (p Practice) Lock(ctx context.Context) error { return p.turn(ctx, "supervision") }
