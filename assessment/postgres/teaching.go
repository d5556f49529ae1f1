package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Teaching keeps sessions in which skills were taught.
type Teaching struct{ scope }

// TeachingSession is teaching that was held.
type TeachingSession struct {
	ID         assessment.RecordID
	Client     assessment.ClientID // empty: of no child
	HeldOn     civil.Date
	Minutes    int
	Trainer    assessment.PersonID
	Note       string
	InService  bool                // counts toward in-service hours
	Corrects   assessment.RecordID // in whose place it stands; empty: none
	Why        string              // it was corrected
	WrittenBy  assessment.PersonID
	WrittenAt  time.Time
	Corrected  assessment.RecordID // stands in its place; empty: none
	Skills     []assessment.SkillID
	LearnerIDs []assessment.PersonID
	Ways       []string // of each learner in turn: letters of what happened, as teachingWays has them
}

const teachingQuery = `
	select s.id, coalesce(s.client_id::text, '') as client, s.held_on, s.minutes, s.trainer_id as trainer, s.note, s.in_service,
		coalesce(s.corrects::text, '') as corrects, s.why, s.written_by, s.written_at, coalesce(c.id::text, '') as corrected,
		array(select k.skill_id::text from teaching_session_skill k where k.agency_id = s.agency_id and k.session_id = s.id order by 1) as skills,
		array(select l.person_id::text from teaching_session_learner l where l.agency_id = s.agency_id and l.session_id = s.id order by l.person_id) as learner_ids,
		array(select case when l.shown then 's' else '' end || case when l.explained then 'e' else '' end || case when l.practised then 'p' else '' end || case when l.taught_back then 't' else '' end
			from teaching_session_learner l where l.agency_id = s.agency_id and l.session_id = s.id order by l.person_id) as ways
	from teaching_session s left join teaching_session c on c.agency_id = s.agency_id and c.corrects = s.id`

// Learner is somebody who was taught, and how.
type Learner struct {
	Person assessment.PersonID
	assessment.TaughtHow
}

// Learners are those who were taught, by id.
func (s TeachingSession) Learners() []Learner {
	var all []Learner
	for i, id := range s.LearnerIDs {
		l := Learner{Person: id}
		for _, way := range s.Ways[i] {
			switch way {
			case 's':
				l.Shown = true
			case 'e':
				l.Explained = true
			case 'p':
				l.Practised = true
			case 't':
				l.TaughtBack = true
			}
		}
		all = append(all, l)
	}
	return all
}

// Of lists the sessions in which somebody was taught, corrected ones too, the newest first.
func (t Teaching) Of(ctx context.Context, person assessment.PersonID) ([]TeachingSession, error) {
	return list[TeachingSession](ctx, t.scope, teachingQuery+`
		where exists (select from teaching_session_learner l where l.agency_id = s.agency_id and l.session_id = s.id and l.person_id = $1)
		order by s.held_on desc, s.written_at desc, s.id desc`, person)
}

// InService lists the sessions from a day on that count toward in-service hours and were
// not corrected.
func (t Teaching) InService(ctx context.Context, from civil.Date) ([]TeachingSession, error) {
	return list[TeachingSession](ctx, t.scope, teachingQuery+`
		where s.in_service and c.id is null and s.held_on >= $1 order by s.held_on desc, s.id desc`, from)
}

// Get is the session with this id.
func (t Teaching) Get(ctx context.Context, id assessment.RecordID) (TeachingSession, error) {
	return get[TeachingSession](ctx, t.scope, teachingQuery+` where s.id = $1`, id)
}

// Add writes one down with what was taught, to whom and how.
func (t Teaching) Add(ctx context.Context, s TeachingSession, learners []Learner) error {
	if err := t.exec(ctx, `
		insert into teaching_session (agency_id, id, client_id, held_on, minutes, trainer_id, note, in_service, corrects, why, written_by, written_at)
		values ($1, $2, nullif($3, '')::uuid, $4, $5, $6, $7, $8, nullif($9, '')::uuid, $10, $11, $12)`,
		t.agency, s.ID, string(s.Client), s.HeldOn, s.Minutes, s.Trainer, s.Note, s.InService, string(s.Corrects), s.Why, s.WrittenBy, s.WrittenAt); err != nil {
		return err
	}
	if err := t.exec(ctx, `insert into teaching_session_skill (agency_id, session_id, skill_id) select $1, $2, unnest($3::uuid[])`, t.agency, s.ID, s.Skills); err != nil {
		return err
	}
	for _, l := range learners {
		if err := t.exec(ctx, `
			insert into teaching_session_learner (agency_id, session_id, person_id, shown, explained, practised, taught_back) values ($1, $2, $3, $4, $5, $6, $7)`,
			t.agency, s.ID, l.Person, l.Shown, l.Explained, l.Practised, l.TaughtBack); err != nil {
			return err
		}
	}
	return nil
}

// Wrote says what a session wrote into a history.
func (t Teaching) Wrote(ctx context.Context, session, exposure assessment.RecordID) error {
	return t.exec(ctx, `insert into teaching_entry (agency_id, session_id, exposure_id) values ($1, $2, $3)`, t.agency, session, exposure)
}

// Standing lists what a session wrote into histories and nobody has taken back.
func (t Teaching) Standing(ctx context.Context, session assessment.RecordID) ([]assessment.RecordID, error) {
	type row struct{ ID assessment.RecordID }
	rows, err := list[row](ctx, t.scope, `
		select e.exposure_id as id from teaching_entry e where e.session_id = $1
			and not exists (select from correction k where k.agency_id = e.agency_id and k.of_kind = 'teaching' and k.of_id = e.exposure_id) order by 1`, session)
	var all []assessment.RecordID
	for _, r := range rows {
		all = append(all, r.ID)
	}
	return all, err
}
