package postgres

import (
	"context"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
)

// SignedSheet is a sheet that came from a device, with the public half of its key.
type SignedSheet struct {
	DemonstrationID assessment.DemonstrationID
	Sheet           string
	Signature       []byte
	PublicKey       []byte
}

// Signed goes through the sheets that came from devices and whose text is still there.
func (a Audit) Signed(ctx context.Context, look func(SignedSheet) error) error {
	rows, err := a.tx.Query(ctx, `
		select r.demonstration_id, r.sheet, r.signature, d.public_key
		from received_sheet r join device d on d.agency_id = r.agency_id and d.id = r.device_id
		where r.agency_id = $1 and r.erased_at is null
		order by r.received_at, r.demonstration_id`, a.agency)
	if err != nil {
		return err
	}
	var s SignedSheet
	_, err = pgx.ForEachRow(rows, []any{&s.DemonstrationID, &s.Sheet, &s.Signature, &s.PublicKey}, func() error { return look(s) })
	return err
}
