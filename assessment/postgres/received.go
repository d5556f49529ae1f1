package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Received keeps sheets as they were signed on a device.
type Received struct{ scope }

// ReceivedSheet is one sheet, with what the device made of it.
type ReceivedSheet struct {
	DemonstrationID assessment.DemonstrationID
	DeviceID        assessment.DeviceID
	Sheet           string // the exact text
	SheetSHA256     []byte
	Signature       []byte // r and s, 32 bytes each
	FinishedAt      time.Time
	SentAt          time.Time
	ReceivedAt      time.Time
	Outcome         assessment.Outcome
	Score           *string
	Differs         bool // the office's answer is another one
	ErasedAt        *time.Time
}

// Of is the sheet that a record was made from.
func (r Received) Of(ctx context.Context, id assessment.DemonstrationID) (ReceivedSheet, error) {
	return get[ReceivedSheet](ctx, r.scope, `
		select demonstration_id, device_id, sheet, sheet_sha256, signature, finished_at, sent_at, received_at, outcome, score, differs, erased_at
		from received_sheet where demonstration_id = $1`, id)
}

// Add keeps a sheet.
func (r Received) Add(ctx context.Context, n ReceivedSheet) error {
	return r.exec(ctx, `
		insert into received_sheet (agency_id, demonstration_id, device_id, sheet, sheet_sha256, signature, finished_at, sent_at, received_at,
			outcome, score, differs)
		values ($1, $2, $3, $4, sha256(convert_to($4, 'UTF8')), $5, $6, $7, $8, $9, $10, $11)`,
		r.agency, n.DemonstrationID, n.DeviceID, n.Sheet, n.Signature, n.FinishedAt, n.SentAt, n.ReceivedAt, n.Outcome, n.Score, n.Differs)
}
