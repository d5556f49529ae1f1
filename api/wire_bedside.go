package api

import (
	"time"

	"wellshown/assessment/office"
)

// DeviceForm is a device as it asks to be enrolled.
type DeviceForm struct {
	ID        string `json:"id" maxLength:"100" doc:"Made by the device: a UUID of version 7 (RFC 9562)." example:"0197a1d0-0000-7000-8000-0000000000d1"`
	Name      string `json:"name" maxLength:"200" doc:"By which its owner knows it." example:"The ward's grey tablet"`
	PublicKey string `json:"public_key" maxLength:"400" doc:"The public half of an ECDSA key on the curve P-256 that was made on the device: SubjectPublicKeyInfo (RFC 5480), as base64url."`
}

// Device is a device that signs sheets at the bedside.
type Device struct {
	ID         string     `json:"id" format:"uuid"`
	Name       string     `json:"name"`
	Person     string     `json:"person" format:"uuid" doc:"Whose it is."`
	EnrolledAt time.Time  `json:"enrolled_at"`
	UsedAt     *time.Time `json:"used_at,omitempty" doc:"When it last took a pack or sent a sheet. Left out: never."`
	RevokedAt  *time.Time `json:"revoked_at,omitempty" doc:"Since when no sheet of it is taken in. Left out: it is not revoked."`
	RevokedBy  string     `json:"revoked_by,omitempty" doc:"The name."`
}

func device(v office.DeviceView) Device {
	return Device{ID: string(v.ID), Name: v.Name, Person: string(v.Owner), EnrolledAt: v.EnrolledAt.UTC(), UsedAt: maybeInstant(v.UsedAt),
		RevokedAt: maybeInstant(v.RevokedAt), RevokedBy: v.RevokedBy}
}
