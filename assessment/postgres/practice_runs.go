package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// PracticeRuns keeps what was done to practise. No history reads it.
type PracticeRuns struct{ scope }

// PracticeRun is a checklist that somebody did to practise.
type PracticeRun struct {
	ID        assessment.RecordID
	Person    assessment.PersonID
	Skill     assessment.SkillID
	Revision  assessment.RevisionID
	Client    assessment.ClientID // empty: of no child
	DoneOn    civil.Date
	Alone     bool
	Helper    assessment.PersonID // empty: alone
	Note      string
	WrittenBy assessment.PersonID
	WrittenAt time.Time
	Back      string // why it was taken back; empty: it stands
	Steps     []int
	Went      []assessment.PracticeMark // of each step in turn
}

// ByMyself reports whether whoever practised wrote it down: nobody else saw it.
func (r PracticeRun) ByMyself() bool { return r.WrittenBy == r.Person }

const practiceRunQuery = `
	select r.id, r.person_id as person, r.skill_id as skill, r.revision_id as revision, coalesce(r.client_id::text, '') as client, r.done_on, r.alone,
		coalesce(r.helper_id::text, '') as helper, r.note, r.written_by, r.written_at, coalesce(b.reason, '') as back,
		array(select m.step from practice_mark m where m.agency_id = r.agency_id and m.run_id = r.id order by m.step) as steps,
		array(select m.went from practice_mark m where m.agency_id = r.agency_id and m.run_id = r.id order by m.step) as went
	from practice_run r left join practice_run_back b on b.agency_id = r.agency_id and b.run_id = r.id`

// Of lists somebody's, also those that were taken back, the newest first.
func (p PracticeRuns) Of(ctx context.Context, person assessment.PersonID) ([]PracticeRun, error) {
	return list[PracticeRun](ctx, p.scope, practiceRunQuery+` where r.person_id = $1 order by r.done_on desc, r.written_at desc, r.id desc`, person)
}

// Get is the run with this id.
func (p PracticeRuns) Get(ctx context.Context, id assessment.RecordID) (PracticeRun, error) {
	return get[PracticeRun](ctx, p.scope, practiceRunQuery+` where r.id = $1`, id)
}

// Add writes one down with its marks.
func (p PracticeRuns) Add(ctx context.Context, r PracticeRun) error {
	if err := p.exec(ctx, `
		insert into practice_run (agency_id, id, person_id, skill_id, revision_id, client_id, done_on, alone, helper_id, note, written_by, written_at)
		values ($1, $2, $3, $4, $5, nullif($6, '')::uuid, $7, $8, nullif($9, '')::uuid, $10, $11, $12)`,
		p.agency, r.ID, r.Person, r.Skill, r.Revision, string(r.Client), r.DoneOn, r.Alone, string(r.Helper), r.Note, r.WrittenBy, r.WrittenAt); err != nil {
		return err
	}
	return p.exec(ctx, `
		insert into practice_mark (agency_id, run_id, step, went) select $1, $2, m.step, m.went from unnest($3::int[], $4::text[]) as m (step, went)`, p.agency, r.ID, r.Steps, r.Went)
}

// TakeBack says that one was written down by mistake.
func (p PracticeRuns) TakeBack(ctx context.Context, id assessment.RecordID, why string, by assessment.PersonID, at time.Time) error {
	return p.exec(ctx, `insert into practice_run_back (agency_id, run_id, reason, by_id, at) values ($1, $2, $3, $4, $5)`, p.agency, id, why, by, at)
}
