package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// usualEntries is how many entries are listed unless told otherwise.
const usualEntries = 100

// Entries lists a page of what the ledger has, newest first: up to limit, 100 for 0,
// after the place that the page before gave.
func (o *Office) Entries(ctx context.Context, by assessment.Actor, after string, limit int) (postgres.Page[postgres.EntryBy], error) {
	var page postgres.Page[postgres.EntryBy]
	err := o.as(ctx, by, assessment.ReadEntries, func(tx *postgres.Tx, _ Moment) (err error) {
		if limit <= 0 {
			limit = usualEntries
		}
		page, err = tx.Ledger.Lately(ctx, after, limit)
		return err
	})
	return page, err
}
