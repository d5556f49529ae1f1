package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// ErasureView is an erasure as people see it.
type ErasureView struct {
	postgres.Erasure
	MayCarryOut bool // whoever looks may carry it out or refuse it: they have not asked for it
	MayTakeBack bool // they have asked for it
}

// Erasable is somebody who has left, or a child who is no longer served.
type Erasable struct {
	postgres.Ended
	KeptThrough civil.Date // last day on which it is kept; zero: for ever
	Now         bool       // an erasure may be asked for today
}

// ErasuresDesk is all there is to know about how long records are kept and what was
// erased.
type ErasuresDesk struct {
	Retention RetentionView
	Erasures  []ErasureView // newest first
	Over      []Erasable    // whose time runs or has run out, by that day; none where everything is kept for ever
}

// Erasures is the desk of erasures.
func (o *Office) Erasures(ctx context.Context, by assessment.Actor) (ErasuresDesk, error) {
	var d ErasuresDesk
	err := o.as(ctx, by, assessment.ReadErasures, func(tx *postgres.Tx, now Moment) (err error) {
		d = ErasuresDesk{}
		if d.Retention, err = retention(ctx, tx); err != nil {
			return err
		}
		all, err := tx.Erasures.All(ctx)
		if err != nil {
			return err
		}
		open := map[string]bool{}
		for _, e := range all {
			d.Erasures = append(d.Erasures, viewErasure(by, e))
			open[string(e.PersonID)+string(e.ClientID)] = open[string(e.PersonID)+string(e.ClientID)] || e.Verdict == ""
		}
		if d.Retention.Years == 0 {
			return nil
		}
		over, err := tx.Erasures.Over(ctx)
		for _, x := range over {
			if !open[string(x.PersonID)+string(x.ClientID)] {
				d.Over = append(d.Over, Erasable{x, d.Retention.Through(x.LastOn), d.Retention.MayErase(x.LastOn, now.Today)})
			}
		}
		return err
	})
	return d, err
}

// Erasure is one erasure.
func (o *Office) Erasure(ctx context.Context, by assessment.Actor, id assessment.ErasureID) (ErasureView, error) {
	var v ErasureView
	err := o.as(ctx, by, assessment.ReadErasures, func(tx *postgres.Tx, _ Moment) error {
		e, err := tx.Erasures.Get(ctx, id)
		v = viewErasure(by, e)
		return err
	})
	return v, err
}

func viewErasure(by assessment.Actor, e postgres.Erasure) ErasureView {
	open := e.Verdict == ""
	return ErasureView{Erasure: e, MayCarryOut: open && by.Person != e.AskedBy && by.May(assessment.EraseHeld) == nil,
		MayTakeBack: open && by.Person == e.AskedBy && by.May(assessment.AskErasure) == nil}
}
