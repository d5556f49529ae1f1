package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// An open sheet may be mended: a finger slips. But a stop for safety or an unsafe
// step that is taken back leaves its trace in the journal and in the record, and
// the sheet can no longer be thrown away.

// TakenBack is a stop for safety (no step) or a step marked unsafe that stood on
// the open sheet and was taken back.
type TakenBack struct {
	At     time.Time
	Step   int
	Reason string // given with the stop
}

func takenBackOf(kept []bodyUndone) ([]TakenBack, error) {
	var all []TakenBack
	for _, u := range kept {
		at, err := time.Parse(instantForm, u.At)
		if err != nil {
			return nil, fmt.Errorf("read when something was taken back: %w", err)
		}
		all = append(all, TakenBack{at, u.Step, u.Reason})
	}
	return all, nil
}

// Words says it in one English sentence, with the time on the clocks of a zone.
func (t TakenBack) Words(zone *time.Location) string { return t.Phrase(zone).String() }

// Phrase says it for the person who reads it, with the time on the clocks of a zone.
func (t TakenBack) Phrase(zone *time.Location) phrase.Phrase {
	at := t.At.In(zone).Format("15:04")
	if t.Step > 0 {
		return phrase.Of("Step %d was marked unsafe; at %s that was taken back.", t.Step, at)
	}
	if t.Reason != "" {
		return phrase.Of("It was stopped for safety (%s); at %s that was taken back.", t.Reason, at)
	}
	return phrase.Of("It was stopped for safety; at %s that was taken back.", at)
}

// undo keeps that the stop (step 0) or an unsafe step was taken back.
func (o *Office) undo(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, sheet assessment.DemonstrationID, step int, reason string) error {
	id, err := newID[string](o, now.At)
	if err != nil {
		return err
	}
	if err := tx.Sheets.AddUndone(ctx, sheet, postgres.Undone{ID: id, At: now.At, Step: step, Reason: reason}); err != nil {
		return fmt.Errorf("keep what was taken back: %w", err)
	}
	what := "stop taken back"
	if step > 0 {
		what = "unsafe mark taken back"
	}
	return o.note(ctx, tx, now, by, assessment.Observe, what, string(sheet))
}

// undoUnsafe is undo for each mark that replaces an unsafe one.
func (o *Office) undoUnsafe(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, v SheetView, marks ...postgres.SheetMark) error {
	for _, m := range marks {
		if v.Marks[m.Step].Mark != assessment.Unsafe || m.Mark == assessment.Unsafe {
			continue
		}
		if err := o.undo(ctx, tx, now, by, v.ID, m.Step, ""); err != nil {
			return err
		}
	}
	return nil
}

// Stop ends the performance for safety, or takes that back while the sheet is open.
func (o *Office) Stop(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, stopped bool, reason string) (SheetView, error) {
	return o.onSheet(ctx, by, id, func(tx *postgres.Tx, now Moment, s postgres.Sheet) error {
		var f form
		reason := f.words("reason", reason, 2000)
		if err := f.Err(); err != nil {
			return err
		}
		switch {
		case s.Stopped && !stopped:
			if err := o.undo(ctx, tx, now, by, id, 0, s.StopReason); err != nil {
				return err
			}
		case !s.Stopped && stopped:
			if err := o.note(ctx, tx, now, by, assessment.Observe, "stop", string(id)); err != nil {
				return err
			}
		}
		return tx.Sheets.Stop(ctx, id, stopped, reason)
	})
}

// Discard throws an open sheet away. What was recorded cannot be discarded, nor
// what was unsafe or ended for safety: that has happened and is recorded.
func (o *Office) Discard(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) error {
	return o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := o.lockOwn(ctx, tx, by, id)
		if err != nil {
			return err
		}
		if err := mayDiscard(ctx, tx, s); err != nil {
			return err
		}
		if err := tx.Sheets.Remove(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.Observe, "sheet discarded", string(id))
	})
}

func mayDiscard(ctx context.Context, tx *postgres.Tx, s postgres.Sheet) error {
	switch {
	case s.Stopped:
		return fault.Of(fault.Refused, "This was ended for safety. Record it: it cannot be thrown away.")
	case s.Undone > 0:
		return fault.Of(fault.Refused, "A stop for safety or an unsafe step stood here and was taken back. Record it as it is now: it cannot be thrown away.")
	}
	marks, err := tx.Sheets.Marks(ctx, s.ID)
	if err != nil {
		return err
	}
	for _, m := range marks {
		if m.Mark == assessment.Unsafe {
			return fault.Of(fault.Refused, "Step %d was unsafe. Record it, ended for safety if it was not finished: it cannot be thrown away.", m.Step)
		}
	}
	return nil
}
