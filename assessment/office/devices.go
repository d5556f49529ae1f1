package office

import (
	"bytes"
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// DeviceForm is a device as it asks to be enrolled.
type DeviceForm struct {
	ID        string // made by the device: a UUID of version 7
	Name      string // by which its owner knows it
	PublicKey string // SubjectPublicKeyInfo of an ECDSA key on P-256, base64url
}

// DeviceView is a device as it is listed.
type DeviceView struct {
	ID         assessment.DeviceID
	Owner      assessment.PersonID
	Name       string
	EnrolledAt time.Time
	UsedAt     *time.Time // nil: never
	RevokedAt  *time.Time
	RevokedBy  string // name; empty: nobody
}

// mostDevices bounds how many devices one person can have enrolled at a time.
const mostDevices = 20

// Words of the journal for what happens to a device; its owner is told.
const (
	deviceEnrolled = "device enrolled"
	deviceRevoked  = "device revoked"
)

// EnrolDevice keeps the public half of a key that was made on the actor's device. The
// same, sent again, is harmless.
func (o *Office) EnrolDevice(ctx context.Context, by assessment.Actor, f DeviceForm) (DeviceView, error) {
	var v DeviceView
	n, err := f.read(by)
	if err != nil {
		return v, err
	}
	err = o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Devices.Lock(ctx, by.Person); err != nil {
			return err
		}
		kept, err := tx.Devices.Get(ctx, n.ID)
		switch {
		case err == nil && (kept.PersonID != by.Person || !bytes.Equal(kept.PublicKey, n.PublicKey)):
			return fault.Of(fault.Conflict, "There is another device under this id. Enrol this one again: it then makes an id and a key of its own.")
		case err == nil:
			v = viewDevice(kept)
			return nil
		case fault.KindOf(err) != fault.NotFound:
			return err
		}
		if err := roomForDevice(ctx, tx, by.Person); err != nil {
			return err
		}
		n.EnrolledAt = now.At
		if err := tx.Devices.Add(ctx, n); err != nil {
			return err
		}
		v = viewDevice(n)
		return o.note(ctx, tx, now, by, assessment.OwnAccount, deviceEnrolled, string(by.Person))
	})
	return v, err
}

func (f DeviceForm) read(by assessment.Actor) (postgres.Device, error) {
	var faults form
	n := postgres.Device{ID: assessment.DeviceID(f.ID), PersonID: by.Person, Name: faults.line("name", f.Name, 60, "Give the device a name by which you know it.")}
	_, err := assessment.MadeAt(f.ID)
	faults.Take("id", err)
	n.PublicKey, err = assessment.ReadDeviceKey(f.PublicKey)
	faults.Take("public_key", err)
	return n, faults.Err()
}

func roomForDevice(ctx context.Context, tx *postgres.Tx, person assessment.PersonID) error {
	all, err := tx.Devices.Of(ctx, person)
	if err != nil {
		return err
	}
	open := 0
	for _, d := range all {
		if d.RevokedAt == nil {
			open++
		}
	}
	if open >= mostDevices {
		return fault.Of(fault.Refused, "You have %d devices enrolled. Revoke one that you no longer use first, on the page of your account.", open)
	}
	return nil
}

// Devices lists one's own devices, those that are not revoked first.
func (o *Office) Devices(ctx context.Context, by assessment.Actor) ([]DeviceView, error) {
	var all []DeviceView
	err := o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, _ Moment) error {
		var err error
		all, err = devicesOf(ctx, tx, by.Person)
		return err
	})
	return all, err
}

func devicesOf(ctx context.Context, tx *postgres.Tx, person assessment.PersonID) ([]DeviceView, error) {
	kept, err := tx.Devices.Of(ctx, person)
	var all []DeviceView
	for _, d := range kept {
		all = append(all, viewDevice(d))
	}
	return all, err
}

func viewDevice(d postgres.Device) DeviceView {
	return DeviceView{ID: d.ID, Owner: d.PersonID, Name: d.Name, EnrolledAt: d.EnrolledAt, UsedAt: d.UsedAt, RevokedAt: d.RevokedAt, RevokedBy: d.Revoker}
}

// RevokeDevice ends one of one's own devices at once: it gets no pack any more, and no
// sheet of it is taken in.
func (o *Office) RevokeDevice(ctx context.Context, by assessment.Actor, id assessment.DeviceID) error {
	return o.as(ctx, by, assessment.OwnAccount, func(tx *postgres.Tx, now Moment) error {
		return o.revokeDevice(ctx, tx, now, by, assessment.OwnAccount, by.Person, id)
	})
}

// RevokeDeviceOf is RevokeDevice for a device of somebody else, such as a lost one.
func (o *Office) RevokeDeviceOf(ctx context.Context, by assessment.Actor, owner assessment.PersonID, id assessment.DeviceID) error {
	return o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.EditPeople, owner, false); err != nil {
			return err
		}
		return o.revokeDevice(ctx, tx, now, by, assessment.EditPeople, owner, id)
	})
}

func (o *Office) revokeDevice(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act, owner assessment.PersonID, id assessment.DeviceID) error {
	err := tx.Devices.Revoke(ctx, owner, id, by.Person, now.At)
	if postgres.None(err) {
		return revokedBefore(ctx, tx, owner, id)
	}
	if err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, act, deviceRevoked, string(owner))
}

// revokedBefore is nil where there is nothing left to do: the second of two clicks.
func revokedBefore(ctx context.Context, tx *postgres.Tx, owner assessment.PersonID, id assessment.DeviceID) error {
	kept, err := tx.Devices.Get(ctx, id)
	if err == nil && (kept.PersonID != owner || kept.RevokedAt == nil) {
		return notFound()
	}
	return err
}
