package office

import (
	"context"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// MarkForm is what an observer puts down at one step. An empty mark with no
// reason takes back what stood there.
type MarkForm struct {
	Step          int
	Mark          string
	NotApplicable bool
	Reason        string
	Readings      map[string]postgres.Reading
	Note          string
	Seen          string // SheetView.Stands of the step when the form was drawn; empty: no matter
}

// Mark puts down what was seen at a step. A later word replaces an earlier one.
func (o *Office) Mark(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, form MarkForm) (SheetView, error) {
	return o.onSheet(ctx, by, id, func(tx *postgres.Tx, now Moment, s postgres.Sheet) error {
		v, err := o.viewSheet(ctx, tx, now, s)
		if err != nil {
			return err
		}
		mark, err := form.read(v)
		if err != nil {
			return err
		}
		if form.Seen != "" && form.Seen != v.Stands(form.Step) && !sameMark(v.Marks[form.Step], mark) {
			return fault.Of(fault.Conflict, "Step %d was changed after this page was drawn. Look at it again.", form.Step)
		}
		mark.MarkedAt = now.At
		if err := o.undoUnsafe(ctx, tx, now, by, v, mark); err != nil {
			return err
		}
		return tx.Sheets.SaveMarks(ctx, id, mark)
	})
}

// read checks one step by the same rules as the whole sheet, and every fault is
// named by its field.
func (f MarkForm) read(v SheetView) (postgres.SheetMark, error) {
	step, ok := v.Checklist.Step(f.Step)
	if !ok {
		return postgres.SheetMark{}, fault.Of(fault.NotFound, "The checklist has no step %d.", f.Step)
	}
	var faults form
	m := postgres.SheetMark{Step: f.Step, NotApplicable: f.NotApplicable, Reason: faults.words("reason", f.Reason, 2000),
		Note: faults.words("note", f.Note, 2000), Readings: map[string]postgres.Reading{}}
	if f.Mark != "" {
		mark, err := assessment.ParseMark(f.Mark)
		faults.Take("mark", err)
		m.Mark = mark
	}
	if f.NotApplicable {
		switch {
		case step.MayNotApply == "":
			faults.Add("reason", "This step always applies. Choose a mark.")
		case !assessment.Says(m.Reason):
			faults.Add("reason", "Say why it does not apply here.")
		}
	}
	f.readings(step, v, &m, &faults.Fields)
	if err := faults.Err(); err != nil {
		return m, err
	}
	return m, tryStep(step, v, m)
}

func (f MarkForm) readings(step assessment.Step, v SheetView, m *postgres.SheetMark, faults *fault.Fields) {
	for name, r := range f.Readings {
		r.Value = strings.ReplaceAll(strings.TrimSpace(r.Value), "−", "-")
		if r.Value == "" || f.NotApplicable {
			continue
		}
		if _, err := assessment.ParseNumber(r.Value); err != nil {
			faults.Take("value_"+name, err)
			continue
		}
		m.Readings[name] = r
	}
}

// tryStep scores the step alone, so that a unit that does not fit is refused now
// and not when the whole sheet is done.
func tryStep(step assessment.Step, v SheetView, m postgres.SheetMark) error {
	sheet, err := coreSheet(postgres.Sheet{}, []postgres.SheetMark{m})
	if err != nil {
		return err
	}
	_, _, err = assessment.Score(v.Checklist, v.Parameters, sheet)
	return err
}

// onSheet changes an open sheet of the actor's own and shows it again.
func (o *Office) onSheet(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, change func(*postgres.Tx, Moment, postgres.Sheet) error) (SheetView, error) {
	var v SheetView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := o.lockOwn(ctx, tx, by, id)
		if err != nil {
			return err
		}
		if err := change(tx, now, s); err != nil {
			return err
		}
		if s, err = tx.Sheets.Get(ctx, id); err != nil {
			return err
		}
		v, err = o.viewSheet(ctx, tx, now, s)
		return err
	})
	return v, err
}

func (o *Office) lockOwn(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.DemonstrationID) (postgres.Sheet, error) {
	s, err := tx.Sheets.Lock(ctx, id)
	if err != nil {
		return s, orRecorded(ctx, tx, by, id, err)
	}
	if s.ObserverID != by.Person {
		return s, notFound()
	}
	return s, nil
}
