package ward

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"encoding/hex"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Device is a device that somebody has enrolled, with the private half of its key.
type Device struct {
	ID    assessment.DeviceID
	Owner assessment.Actor
	Key   *ecdsa.PrivateKey
}

// Device enrols a new device of somebody.
func (w *Ward) Device(owner assessment.Actor) Device {
	w.tb.Helper()
	d := Device{ID: assessment.DeviceID(NewID(w.Now())), Owner: owner, Key: must(ecdsa.GenerateKey(elliptic.P256(), rand.Reader))(w.tb)}
	must(w.Office.EnrolDevice(w.tb.Context(), owner, office.DeviceForm{ID: string(d.ID), Name: "The grey tablet", PublicKey: d.Public()}))(w.tb)
	return d
}

// Public is the public half of the key as a browser exports it.
func (d Device) Public() string {
	der, err := x509.MarshalPKIXPublicKey(&d.Key.PublicKey)
	if err != nil {
		panic(err)
	}
	return base64.RawURLEncoding.EncodeToString(der)
}

// Sign signs a text as WebCrypto does: r and s, one after the other.
func (d Device) Sign(text string) string {
	hash := sha256.Sum256([]byte(text))
	r, s, err := ecdsa.Sign(rand.Reader, d.Key, hash[:])
	if err != nil {
		panic(err)
	}
	raw := make([]byte, 64)
	r.FillBytes(raw[:32])
	s.FillBytes(raw[32:])
	return base64.RawURLEncoding.EncodeToString(raw)
}

// NewID is an id as a device makes it: a UUID of version 7 (RFC 9562, section 5.7).
func NewID(at time.Time) string {
	var b [16]byte
	rand.Read(b[:]) // never fails (crypto/rand)
	for i, ms := 0, uint64(at.UnixMilli()); i < 6; i++ {
		b[i] = byte(ms >> (40 - 8*i))
	}
	b[6], b[8] = b[6]&0x0f|0x70, b[8]&0x3f|0x80
	h := hex.EncodeToString(b[:])
	return h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]
}
