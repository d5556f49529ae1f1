package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// MarkAll puts down what was seen at several steps at once, as when a whole sheet
// is sent or copied from paper: all of it or, where one step is refused, nothing.
func (o *Office) MarkAll(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, forms []MarkForm) (SheetView, error) {
	return o.onSheet(ctx, by, id, func(tx *postgres.Tx, now Moment, s postgres.Sheet) error {
		v, err := o.viewSheet(ctx, tx, now, s)
		if err != nil {
			return err
		}
		var marks []postgres.SheetMark
		seen := map[int]bool{}
		for _, form := range forms {
			if seen[form.Step] {
				return fault.Of(fault.Invalid, "Step %d is there twice. Nothing has been put down: say which of the two it is.", form.Step)
			}
			seen[form.Step] = true
			mark, err := form.read(v)
			if err != nil {
				return fmt.Errorf("mark step %d: %w", form.Step, err)
			}
			mark.MarkedAt = now.At
			marks = append(marks, mark)
		}
		if err := o.undoUnsafe(ctx, tx, now, by, v, marks...); err != nil {
			return err
		}
		return tx.Sheets.SaveMarks(ctx, id, marks...)
	})
}
