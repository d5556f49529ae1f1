package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Undone is what stood on an open sheet against the learner and was taken back
// before it was recorded: the stop, or a step marked unsafe.
type Undone struct {
	ID     string
	At     time.Time // when it was taken back
	Step   int       // 0: the stop
	Reason string    // given with the stop
}

// AddUndone keeps one.
func (s Sheets) AddUndone(ctx context.Context, id assessment.DemonstrationID, u Undone) error {
	return s.exec(ctx, `
		insert into sheet_undone (agency_id, id, sheet_id, at, step, reason) values ($1, $2, $3, $4, nullif($5, 0), $6)`,
		s.agency, u.ID, id, u.At, u.Step, u.Reason)
}

// Undone lists what was taken back on a sheet, oldest first.
func (s Sheets) Undone(ctx context.Context, id assessment.DemonstrationID) ([]Undone, error) {
	return list[Undone](ctx, s.scope, `
		select id, at, coalesce(step, 0) as step, reason from sheet_undone where sheet_id = $1 order by at, id`, id)
}
