package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// PlanDays are the days of a child's way home; zero ones are not set.
type PlanDays struct {
	ID        assessment.RecordID
	Client    assessment.ClientID
	MeetingOn civil.Date
	HomeOn    civil.Date
	SetAt     time.Time
	SetBy     assessment.PersonID
}

// Days are the days of some clients' ways home as they were set by an instant, at most
// one row a client.
func (p Plans) Days(ctx context.Context, by time.Time, clients ...assessment.ClientID) ([]PlanDays, error) {
	return list[PlanDays](ctx, p.scope, `
		select distinct on (client_id) id, client_id as client, meeting_on, home_on, set_at, set_by
		from plan_day where client_id = any($1::uuid[]) and set_at <= $2 order by client_id, set_at desc, id desc`, clients, by)
}

// SetDays adds the days as they are from now on.
func (p Plans) SetDays(ctx context.Context, d PlanDays) error {
	return p.exec(ctx, `insert into plan_day (agency_id, id, client_id, meeting_on, home_on, set_at, set_by) values ($1, $2, $3, $4, $5, $6, $7)`,
		p.agency, d.ID, d.Client, d.MeetingOn, d.HomeOn, d.SetAt, d.SetBy)
}

// PlanSignature is a clinician's signature under a whole plan.
type PlanSignature struct {
	ID          assessment.RecordID
	Client      assessment.ClientID
	Body        string
	BodySHA256  []byte
	Meaning     string
	Licence     string
	At          time.Time
	SignedBy    assessment.PersonID
	PrintedName string
}

const planSignatureColumns = `id, client_id as client, body, body_sha256, meaning, licence, at, signed_by, printed_name`

// Signatures are the newest signature under each of some clients' plans by an instant.
func (p Plans) Signatures(ctx context.Context, by time.Time, clients ...assessment.ClientID) ([]PlanSignature, error) {
	return list[PlanSignature](ctx, p.scope, `
		select distinct on (client_id) `+planSignatureColumns+`
		from plan_signature where client_id = any($1::uuid[]) and at <= $2 order by client_id, at desc, id desc`, clients, by)
}

// SignedBefore lists the signatures with an id: one or none.
func (p Plans) SignedBefore(ctx context.Context, id assessment.RecordID) ([]PlanSignature, error) {
	return list[PlanSignature](ctx, p.scope, `select `+planSignatureColumns+` from plan_signature where id = $1`, id)
}

// Sign adds a signature.
func (p Plans) Sign(ctx context.Context, s PlanSignature) error {
	return p.exec(ctx, `
		insert into plan_signature (agency_id, id, client_id, body, body_sha256, meaning, licence, at, signed_by, printed_name)
		values ($1, $2, $3, $4, sha256(convert_to($4, 'UTF8')), $5, $6, $7, $8, $9)`,
		p.agency, s.ID, s.Client, s.Body, s.Meaning, s.Licence, s.At, s.SignedBy, s.PrintedName)
}
