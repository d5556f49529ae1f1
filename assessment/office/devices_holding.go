package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// HoldingForm is what a device says it holds that the office does not have, in sheets.
type HoldingForm struct {
	Finished int // finished and not sent yet
	Refused  int // not taken in
	Open     int // being marked
}

// HoldingView is a device that holds something, as it last said.
type HoldingView struct {
	Owner   PersonRef
	Device  string
	Holds   HoldingForm
	ToldAt  time.Time
	Revoked bool // nothing of it is taken in until it is enrolled anew
}

// mostHeld bounds what a device can say that it holds.
const mostHeld = 9999

// TellHolding notes what one of the actor's own devices holds, so that whoever plans the day
// sees that something is known at a bedside only. The newest word stands, and no record
// comes of it.
func (o *Office) TellHolding(ctx context.Context, by assessment.Actor, id assessment.DeviceID, f HoldingForm) error {
	var faults form
	for name, n := range map[string]int{"finished": f.Finished, "refused": f.Refused, "open": f.Open} {
		if n < 0 || n > mostHeld {
			faults.Add(name, "A device holds from 0 through %d sheets.", mostHeld)
		}
	}
	if err := faults.Err(); err != nil {
		return err
	}
	return o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		if _, err := ownDevice(ctx, tx, now, by, id); err != nil {
			return err
		}
		if err := tx.Devices.Tell(ctx, id, f.Finished, f.Refused, f.Open, now.At); err != nil {
			return fmt.Errorf("note what a device holds: %w", err)
		}
		return nil
	})
}

// holding lists the devices that last said they hold something.
func holding(ctx context.Context, tx *postgres.Tx) ([]HoldingView, error) {
	kept, err := tx.Devices.Holding(ctx)
	if err != nil {
		return nil, fmt.Errorf("read what devices hold: %w", err)
	}
	var all []HoldingView
	for _, d := range kept {
		all = append(all, HoldingView{Owner: PersonRef{ID: d.PersonID, Name: d.Owner}, Device: d.Name, Holds: HoldingForm{d.Finished, d.Refused, d.Opened}, ToldAt: *d.ToldAt, Revoked: d.RevokedAt != nil})
	}
	return all, nil
}
