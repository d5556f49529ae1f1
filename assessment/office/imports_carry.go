package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/intake"
	"wellshown/assessment/postgres"
)

// ImportForm brings a file in as its preview showed it.
type ImportForm struct {
	ID           assessment.RecordID
	Version      string         // of the preview that was read
	Answers      map[int]string // by the row that asks: the id of who is meant, or AnotherPerson
	LettersRight bool           // where the file does not say in which letters it is: the names read right
}

// Imported says what an import did.
type Imported struct {
	Kind       intake.Kind
	New, There int
}

// CarryOutImport brings a file in, all of it or nothing. Where a row has a fault or asks something, the
// refusal comes with the preview as it is now.
func (o *Office) CarryOutImport(ctx context.Context, by assessment.Actor, f ImportForm) (Imported, ImportView, error) {
	d, t, err := o.listSent(ctx, by, f.ID)
	if err != nil {
		return Imported{}, ImportView{}, err
	}
	var v ImportView
	var done Imported
	err = o.as(ctx, by, assessment.BringIn, func(tx *postgres.Tx, now Moment) error {
		if err := tx.ImportDrafts.Lock(ctx); err != nil {
			return fmt.Errorf("have imports take turns: %w", err)
		}
		if t.Kind == intake.Shifts {
			if err := tx.Roster.Lock(ctx); err != nil {
				return fmt.Errorf("lock the roster: %w", err)
			}
		}
		p, err := o.planImport(ctx, tx, now, by, d, t, f.Answers)
		if err != nil {
			return err
		}
		v = p.ImportView
		if err := v.ready(f); err != nil {
			return err
		}
		for _, keep := range p.keep {
			if err := keep(); err != nil {
				return err
			}
		}
		done = Imported{v.Kind, v.New, v.There}
		if err := tx.ImportDrafts.Remove(ctx, d.ID); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.BringIn, string(v.Kind)+" brought in", string(d.ID))
	})
	return done, v, err
}

// ready refuses to bring in what has faults, asks something, or is not what was read.
func (v ImportView) ready(f ImportForm) error {
	switch {
	case f.Version != v.Version:
		return ErrOtherImport
	case len(v.Faults) > 0:
		return fault.Of(fault.Refused, "%s to be mended in the file first. Nothing was brought in.", thingsNeed(len(v.Faults)+v.More))
	case slices.ContainsFunc(v.Rows, func(r ImportRow) bool { return r.Ask != nil && r.Ask.Answer == "" }):
		return fault.Of(fault.Refused, "Say of each name that is like another whether it is the same person. Nothing was brought in.")
	case v.Guessed && !f.LettersRight:
		return faultAt("letters", "Look at the names and say that they read right. If not, save the file as CSV in UTF-8 and send it again.")
	}
	return nil
}

func thingsNeed(n int) string {
	if n == 1 {
		return "One thing needs"
	}
	return fmt.Sprintf("%d things need", n)
}
