package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Receive takes in a sheet that was finished and signed on a device of the actor. The
// rules are asked again, and what they say here stands; what the device made of it is
// kept beside it. The same text, sent again, gets the same answer; what is refused leaves
// nothing here.
func (o *Office) Receive(ctx context.Context, by assessment.Actor, f ReceiveForm) (DemonstrationView, error) {
	var v DemonstrationView
	in, err := f.read()
	if err != nil {
		return v, err
	}
	err = o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		// Whoever sends for the same learner waits, so that of two that are sent at once
		// the second finds what came of the first.
		if err := tx.History.Lock(ctx, in.learner); err != nil {
			return err
		}
		known, err := o.receivedBefore(ctx, tx, by, in)
		if err == nil && !known {
			err = o.receive(ctx, tx, now, by, in)
		}
		if err != nil {
			return err
		}
		kept, err := tx.Demonstrations.Get(ctx, in.ID)
		if err != nil {
			return err
		}
		v, err = o.viewDemonstration(ctx, tx, now, kept)
		return err
	})
	return v, err
}

// receivedBefore reports whether this very text was taken in before. Anything else
// under its id is in its way.
func (o *Office) receivedBefore(ctx context.Context, tx *postgres.Tx, by assessment.Actor, in incoming) (bool, error) {
	kept, err := tx.Demonstrations.Get(ctx, in.ID)
	if fault.KindOf(err) == fault.NotFound {
		return false, o.nothingUnder(ctx, tx, by, in.ID)
	}
	if err != nil {
		return false, err
	}
	if kept.ObserverID != by.Person {
		return false, fault.Of(fault.Conflict, "There is another demonstration under this id.")
	}
	r, err := tx.Received.Of(ctx, in.ID)
	switch {
	case fault.KindOf(err) == fault.NotFound:
		return false, ErrRecorded
	case err != nil:
		return false, err
	case string(r.SheetSHA256) != string(in.sha256[:]):
		return false, fault.Of(fault.Conflict, "Another text of this sheet was taken in before, and that one stands. If it is wrong, correct it on its record.")
	}
	return true, nil
}

// nothingUnder refuses an id that is an open sheet's, or any other record's.
func (o *Office) nothingUnder(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.DemonstrationID) error {
	s, err := tx.Sheets.Get(ctx, id)
	switch {
	case err == nil && s.ObserverID == by.Person:
		return ErrOpen
	case err == nil:
		return fault.Of(fault.Conflict, "There is another demonstration under this id.")
	case fault.KindOf(err) != fault.NotFound:
		return err
	}
	return o.idIsFree(ctx, tx, string(id))
}

func (o *Office) receive(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, in incoming) error {
	device, err := ownDevice(ctx, tx, now, by, in.Device)
	if err != nil {
		return err
	}
	if !assessment.DeviceKey(device.PublicKey).Signed(in.Sheet, in.signature) {
		return fault.Of(fault.Refused, "This sheet was not signed by the key of this device, or its text was changed afterwards. It stays on the device. Enrol the device again, sign the sheet again there, and send it.")
	}
	in.clocks.Received = now.At
	s, list, err := o.sheetReceived(ctx, tx, now, by, in)
	if err != nil {
		return err
	}
	if err := o.incidentsReach(ctx, tx, now, by, caseOfSheet(s), in.clocks.Instants()[0]); err != nil { // the earliest at which it may have been performed
		return err
	}
	judged, err := o.judgeReceived(ctx, tx, now, in, s, list)
	if err != nil {
		return err
	}
	return o.keepReceived(ctx, tx, now, by, in, device, judged)
}

// keepReceived writes the record, and what it was made from.
func (o *Office) keepReceived(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, in incoming, device postgres.Device, j judgedReceived) error {
	differs := in.differs(j.result)
	from := bodyOfDevice(in, device, differs)
	kept, err := o.kept(ctx, tx, now, j.view, j.result, in.undone(), &from)
	if err != nil {
		return err
	}
	if err := tx.Demonstrations.Add(ctx, kept); err != nil {
		return err
	}
	err = tx.Received.Add(ctx, postgres.ReceivedSheet{DemonstrationID: in.ID, DeviceID: device.ID, Sheet: in.Sheet, Signature: in.signature,
		FinishedAt: in.clocks.Finished, SentAt: in.clocks.Sent, ReceivedAt: now.At, Outcome: in.outcome, Score: in.text.Outcome.Score, Differs: differs})
	if err != nil {
		return fmt.Errorf("keep a sheet as it was received: %w", err)
	}
	if err := tx.Devices.Touch(ctx, device.ID, now.At); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.Observe, "demonstration", string(in.ID))
}
