package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Practice keeps which rules of practice an agency uses, and what they ask about: since when
// people work here, training that was held, skilled care, and assessments of aides.
type Practice struct{ scope }

// PracticePack is which rules are used, and as what.
type PracticePack struct {
	ID                assessment.RecordID
	IncidentWithdraws assessment.IncidentScope
	IncidentByItself  bool
	InService         bool
	InServiceMinutes  int
	InServiceYear     assessment.InServiceYear
	OrientationCounts bool
	Supervision       bool
	SetBy             assessment.PersonID
	SetAt             time.Time
}

// Pack is the newest one; none is "not found".
func (p Practice) Pack(ctx context.Context) (PracticePack, error) {
	return get[PracticePack](ctx, p.scope, `
		select id, incident_withdraws, incident_by_itself, in_service, in_service_minutes, in_service_year, orientation_counts, supervision, set_by, set_at
		from practice_pack order by set_at desc, id desc limit 1`)
}

// SetPack sets them from now on.
func (p Practice) SetPack(ctx context.Context, n PracticePack) error {
	return p.exec(ctx, `
		insert into practice_pack (agency_id, id, incident_withdraws, incident_by_itself, in_service, in_service_minutes, in_service_year, orientation_counts, supervision, set_by, set_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
		p.agency, n.ID, n.IncidentWithdraws, n.IncidentByItself, n.InService, n.InServiceMinutes, n.InServiceYear, n.OrientationCounts, n.Supervision, n.SetBy, n.SetAt)
}

// Hired is since when somebody works here.
type Hired struct {
	Person  assessment.PersonID
	HiredOn civil.Date
	SetBy   assessment.PersonID
	SetAt   time.Time
}

// Hired lists it of all of whom it is known.
func (p Practice) Hired(ctx context.Context) ([]Hired, error) {
	return list[Hired](ctx, p.scope, `select person_id as person, hired_on, set_by, set_at from employment order by person_id`)
}

// SetHired says it from now on.
func (p Practice) SetHired(ctx context.Context, h Hired) error {
	return p.exec(ctx, `
		insert into employment (agency_id, person_id, hired_on, set_by, set_at) values ($1, $2, $3, $4, $5)
		on conflict (agency_id, person_id) do update set hired_on = excluded.hired_on, set_by = excluded.set_by, set_at = excluded.set_at`,
		p.agency, h.Person, h.HiredOn, h.SetBy, h.SetAt)
}

// InServiceSession is training that was held.
type InServiceSession struct {
	ID          assessment.RecordID
	HeldOn      civil.Date
	Minutes     int
	Topic       string
	Trainer     string
	Counts      bool // toward in-service
	Orientation bool
	WrittenBy   assessment.PersonID
	WrittenAt   time.Time
	TakenBackAt *time.Time
	Why         string
	People      []assessment.PersonID // who took part
}

const sessionQuery = `
	select s.id, s.held_on, s.minutes, s.topic, s.trainer, s.counts, s.orientation, s.written_by, s.written_at, s.taken_back_at, coalesce(s.why, '') as why,
		array(select a.person_id::text from in_service_attendance a where a.agency_id = s.agency_id and a.session_id = s.id order by 1) as people
	from in_service_session s`

// Sessions lists those held from a day on, with those taken back, the newest first.
func (p Practice) Sessions(ctx context.Context, from civil.Date) ([]InServiceSession, error) {
	return list[InServiceSession](ctx, p.scope, sessionQuery+` where s.held_on >= $1 order by s.held_on desc, s.id desc`, from)
}

// Session is the one with this id.
func (p Practice) Session(ctx context.Context, id assessment.RecordID) (InServiceSession, error) {
	return get[InServiceSession](ctx, p.scope, sessionQuery+` where s.id = $1`, id)
}

// AddSession writes one down with who took part.
func (p Practice) AddSession(ctx context.Context, s InServiceSession) error {
	if err := p.exec(ctx, `
		insert into in_service_session (agency_id, id, held_on, minutes, topic, trainer, counts, orientation, written_by, written_at)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`, p.agency, s.ID, s.HeldOn, s.Minutes, s.Topic, s.Trainer, s.Counts, s.Orientation, s.WrittenBy, s.WrittenAt); err != nil {
		return err
	}
	return p.exec(ctx, `
		insert into in_service_attendance (agency_id, session_id, person_id) select $1, $2, unnest($3::uuid[])`, p.agency, s.ID, s.People)
}

// TakeBackSession has one count for nothing from now on.
func (p Practice) TakeBackSession(ctx context.Context, id assessment.RecordID, by assessment.PersonID, at time.Time, why string) error {
	return p.change(ctx, `update in_service_session set taken_back_by = $2, taken_back_at = $3, why = $4 where id = $1 and taken_back_at is null`, id, by, at, why)
}
