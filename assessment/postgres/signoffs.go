package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// SignOffs keeps signatures. A signature is never taken back; a record is corrected.
type SignOffs struct{ scope }

// Signature is one of the two that make a demonstration count.
type Signature struct {
	DemonstrationID assessment.DemonstrationID
	Part            string // observer or learner
	PersonID        assessment.PersonID
	PrintedName     string
	Licence         string
	Meaning         string
	SignedAt        time.Time
	Zone            string
	BodySHA256      []byte
}

// Of lists the signatures on a record, the observer's first.
func (s SignOffs) Of(ctx context.Context, id assessment.DemonstrationID) ([]Signature, error) {
	return list[Signature](ctx, s.scope, `
		select demonstration_id, part, person_id, printed_name, licence, meaning, signed_at, zone, body_sha256
		from signature where demonstration_id = $1 order by part desc`, id)
}

// OfAll lists the signatures on some records, the observer's before the learner's.
func (s SignOffs) OfAll(ctx context.Context, ids []assessment.DemonstrationID) ([]Signature, error) {
	return list[Signature](ctx, s.scope, `
		select demonstration_id, part, person_id, printed_name, licence, meaning, signed_at, zone, body_sha256
		from signature where demonstration_id = any($1::uuid[]) order by demonstration_id, part desc`, ids)
}

// Add signs a record. The schema refuses a hash that is not that of the record.
func (s SignOffs) Add(ctx context.Context, n Signature) error {
	return s.exec(ctx, `
		insert into signature (agency_id, demonstration_id, part, person_id, printed_name, licence, meaning, signed_at, zone, body_sha256)
		values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
		s.agency, n.DemonstrationID, n.Part, n.PersonID, n.PrintedName, n.Licence, n.Meaning, n.SignedAt, n.Zone, n.BodySHA256)
}
