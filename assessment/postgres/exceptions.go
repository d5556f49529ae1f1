package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Exceptions keeps withdrawals, reinstatements, waivers, corrections and what was
// taught or practised: rows with an author, a time and a reason.
type Exceptions struct{ scope }

// Signed is what every exception carries.
type Signed struct {
	ID          assessment.RecordID
	At          time.Time
	Reason      string
	SignedBy    assessment.PersonID
	PrintedName string
}

// Withdrawal is a competency taken away. The client is empty for a general skill only.
type Withdrawal struct {
	Signed
	Key     assessment.CaseKey
	Until   assessment.Until
	Related bool // related skills were asked for with it

	Incident assessment.RecordID // that made it; empty: none
	Since    time.Time           // from when it acts, where it is not when it was signed
}

// AddWithdrawal adds one.
func (e Exceptions) AddWithdrawal(ctx context.Context, w Withdrawal) error {
	acts, recorded := w.At, maybe(time.Time{})
	if !w.Since.IsZero() && !w.Since.Equal(w.At) {
		acts, recorded = w.Since, &w.At
	}
	return e.exec(ctx, `
		insert into withdrawal (agency_id, id, person_id, skill_id, client_id, at, until, reason, signed_by, printed_name, related, incident_id, recorded_at)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10, $11, nullif($12, '')::uuid, $13)`,
		e.agency, w.ID, w.Key.Person, w.Key.Skill, w.Key.Client, acts, w.Until, w.Reason, w.SignedBy, w.PrintedName, w.Related, string(w.Incident), recorded)
}

// WithdrawnKey says whose competency a withdrawal took.
func (e Exceptions) WithdrawnKey(ctx context.Context, id assessment.RecordID) (assessment.CaseKey, assessment.Until, error) {
	type row struct {
		Person assessment.PersonID
		Skill  assessment.SkillID
		Client assessment.ClientID
		Until  assessment.Until
	}
	r, err := get[row](ctx, e.scope, `
		select person_id as person, skill_id as skill, coalesce(client_id::text, '') as client, until
		from withdrawal where id = $1`, id)
	return assessment.CaseKey{Person: r.Person, Skill: r.Skill, Client: r.Client}, r.Until, err
}

// AddReinstatement lifts a withdrawal.
func (e Exceptions) AddReinstatement(ctx context.Context, withdrawal assessment.RecordID, s Signed) error {
	return e.exec(ctx, `
		insert into reinstatement (agency_id, id, withdrawal_id, at, reason, signed_by, printed_name)
		values ($1, $2, $3, $4, $5, $6, $7)`,
		e.agency, s.ID, withdrawal, s.At, s.Reason, s.SignedBy, s.PrintedName)
}

// Waiver excuses somebody from a skill for some days.
type Waiver struct {
	Signed
	Key           assessment.CaseKey
	From, Through civil.Date
}

// AddWaiver adds one.
func (e Exceptions) AddWaiver(ctx context.Context, w Waiver) error {
	return e.exec(ctx, `
		insert into waiver (agency_id, id, person_id, skill_id, client_id, from_on, through_on, reason, at, signed_by, printed_name)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10, $11)`,
		e.agency, w.ID, w.Key.Person, w.Key.Skill, w.Key.Client, w.From, w.Through, w.Reason, w.At, w.SignedBy, w.PrintedName)
}

// Exposure is a skill taught, or used at work as reported.
type Exposure struct {
	ID         assessment.RecordID
	Key        assessment.CaseKey
	Kind       assessment.EntryKind // practice or teaching
	On         civil.Date
	Note       string
	RecordedAt time.Time
	RecordedBy assessment.PersonID
}

// AddExposure adds one.
func (e Exceptions) AddExposure(ctx context.Context, x Exposure) error {
	return e.exec(ctx, `
		insert into exposure (agency_id, id, person_id, skill_id, client_id, kind, on_day, note, recorded_at, recorded_by)
		values ($1, $2, $3, $4, nullif($5, '')::uuid, $6, $7, $8, $9, $10)`,
		e.agency, x.ID, x.Key.Person, x.Key.Skill, x.Key.Client, x.Kind, x.On, x.Note, x.RecordedAt, x.RecordedBy)
}

// Knows reports whether anything that is or will be part of a history has this id
// already: within one history an id must not name two things. Whoever asks for the same
// id waits until the end of the transaction, so that of two that are sent at once, for
// whomever, the second finds what the first has kept.
func (e Exceptions) Knows(ctx context.Context, id string) (bool, error) {
	if err := e.turn(ctx, "id "+id); err != nil {
		return false, err
	}
	type row struct{ Known bool }
	r, err := get[row](ctx, e.scope, `
		select exists (select from sheet where id = $1) or exists (select from demonstration where id = $1)
			or exists (select from withdrawal where id = $1)
			or exists (select from reinstatement where id = $1) or exists (select from waiver where id = $1)
			or exists (select from exposure where id = $1) or exists (select from recheck where id = $1)
			or exists (select from correction where id = $1) or exists (select from resuscitation_card where id = $1)
			or exists (select from incident where id = $1) as known`, id)
	return r.Known, err
}

// AddCorrection takes a record back.
func (e Exceptions) AddCorrection(ctx context.Context, kind assessment.EntryKind, of string, s Signed) error {
	return e.exec(ctx, `
		insert into correction (agency_id, id, of_kind, of_id, at, reason, signed_by, printed_name)
		values ($1, $2, $3, $4, $5, $6, $7, $8)`,
		e.agency, s.ID, kind, of, s.At, s.Reason, s.SignedBy, s.PrintedName)
}
