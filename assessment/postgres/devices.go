package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
)

// Devices keeps the public halves of the keys that sign sheets at the bedside.
type Devices struct{ scope }

// Device is one device of a person.
type Device struct {
	ID         assessment.DeviceID
	PersonID   assessment.PersonID
	Owner      string // name
	Name       string
	PublicKey  []byte // SubjectPublicKeyInfo
	EnrolledAt time.Time
	RevokedAt  *time.Time
	RevokedBy  assessment.PersonID // empty: nobody
	Revoker    string              // name
	UsedAt     *time.Time          // nil: never
	Finished   int                 // as it last said; all 0 where it never did
	Refused    int
	Opened     int
	ToldAt     *time.Time // nil: never
}

const devices = `
	select d.id, d.person_id, p.name as owner, d.name, d.public_key, d.enrolled_at, d.revoked_at, coalesce(d.revoked_by::text, '') as revoked_by,
		coalesce(r.name, '') as revoker, u.used_at,
		coalesce(u.finished, 0) as finished, coalesce(u.refused, 0) as refused, coalesce(u.opened, 0) as opened, u.told_at
	from device d
	join person p on p.agency_id = d.agency_id and p.id = d.person_id
	left join person r on r.agency_id = d.agency_id and r.id = d.revoked_by
	left join device_use u on u.agency_id = d.agency_id and u.device_id = d.id`

// Get is the device with this id.
func (d Devices) Get(ctx context.Context, id assessment.DeviceID) (Device, error) {
	return get[Device](ctx, d.scope, devices+` where d.id = $1`, id)
}

// Hold is Get, with whoever would revoke the device kept waiting until the end of
// the transaction.
func (d Devices) Hold(ctx context.Context, id assessment.DeviceID) (Device, error) {
	return get[Device](ctx, d.scope, devices+` where d.id = $1 for share of d`, id)
}

// Of lists a person's devices: those that were not revoked first, then the newest.
func (d Devices) Of(ctx context.Context, person assessment.PersonID) ([]Device, error) {
	return list[Device](ctx, d.scope, devices+` where d.person_id = $1 order by d.revoked_at is not null, d.enrolled_at desc, d.id desc`, person)
}

// Lock makes those who enrol devices of one person take turns until the end of the
// transaction.
func (d Devices) Lock(ctx context.Context, person assessment.PersonID) error {
	return d.turn(ctx, "devices "+string(person))
}

// Add keeps a new device.
func (d Devices) Add(ctx context.Context, n Device) error {
	return d.exec(ctx, `
		insert into device (agency_id, id, person_id, name, public_key, enrolled_at) values ($1, $2, $3, $4, $5, $6)`,
		d.agency, n.ID, n.PersonID, n.Name, n.PublicKey, n.EnrolledAt)
}

// Revoke ends a person's device. One that is not there or was revoked before is not
// found.
func (d Devices) Revoke(ctx context.Context, person assessment.PersonID, id assessment.DeviceID, by assessment.PersonID, at time.Time) error {
	return d.change(ctx, `update device set revoked_at = $3, revoked_by = $4 where id = $1 and person_id = $2 and revoked_at is null`, id, person, at, by)
}

// Touch notes that a device was used.
func (d Devices) Touch(ctx context.Context, id assessment.DeviceID, at time.Time) error {
	return d.exec(ctx, `
		insert into device_use (agency_id, device_id, used_at) values ($1, $2, $3)
		on conflict (agency_id, device_id) do update set used_at = greatest(device_use.used_at, excluded.used_at)`, d.agency, id, at)
}

// Tell notes what a device says that it holds.
func (d Devices) Tell(ctx context.Context, id assessment.DeviceID, finished, refused, opened int, at time.Time) error {
	return d.exec(ctx, `
		insert into device_use (agency_id, device_id, used_at, finished, refused, opened, told_at) values ($1, $2, $6, $3, $4, $5, $6)
		on conflict (agency_id, device_id) do update set used_at = greatest(device_use.used_at, excluded.used_at),
			finished = excluded.finished, refused = excluded.refused, opened = excluded.opened, told_at = excluded.told_at
		where device_use.told_at is null or device_use.told_at <= excluded.told_at`, d.agency, id, finished, refused, opened, at)
}

// Holding lists the devices that last said they hold something, the oldest word first.
func (d Devices) Holding(ctx context.Context) ([]Device, error) {
	return list[Device](ctx, d.scope, devices+` where u.finished + u.refused + u.opened > 0 order by u.told_at, d.id`)
}
