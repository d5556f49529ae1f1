package web

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

// deviceLines are devices as they are listed; revocation is where the form of each
// goes, by its id.
func deviceLines(w wording.Words, all []office.DeviceView, zone *time.Location, revocation func(id string) string) []DeviceLine {
	var lines []DeviceLine
	for _, d := range all {
		line := DeviceLine{Name: d.Name, Enrolled: w.Instant(d.EnrolledAt, zone), Revoke: revocation(string(d.ID))}
		if d.UsedAt != nil {
			line.Used = w.Instant(*d.UsedAt, zone)
		}
		if d.RevokedAt != nil {
			line.Revoked, line.Revoke = w.Say("%s by %s", w.Instant(*d.RevokedAt, zone), d.RevokedBy), ""
		}
		lines = append(lines, line)
	}
	return lines
}

// revokeDevice ends one of one's own devices.
func (s *Site) revokeDevice(v *visit) error {
	id, err := pathID[assessment.DeviceID](v, "id")
	if err != nil {
		return err
	}
	if err := s.office.RevokeDevice(v.ctx(), v.by(), id); err != nil {
		return err
	}
	return v.to("/account#devices", v.say("The device is revoked. What it has not sent yet is not taken in any more."))
}

// revokeDeviceOf ends a device of somebody else.
func (s *Site) revokeDeviceOf(v *visit) error {
	owner, err := pathID[assessment.PersonID](v, "id")
	if err != nil {
		return err
	}
	device, err := pathID[assessment.DeviceID](v, "device")
	if err != nil {
		return err
	}
	if err := s.office.RevokeDeviceOf(v.ctx(), v.by(), owner, device); err != nil {
		return err
	}
	return v.to("/people/"+string(owner)+"#devices", v.say("The device is revoked, and its owner is told."))
}
