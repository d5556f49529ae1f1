package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
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
		for _, form := range forms {
			mark, err := form.read(v)
			if err != nil {
				return fmt.Errorf("mark step %d: %w", form.Step, err)
			}
			mark.MarkedAt = now.At
			marks = append(marks, mark)
		}
		return tx.Sheets.SaveMarks(ctx, id, marks...)
	})
}
