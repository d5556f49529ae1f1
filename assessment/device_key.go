package assessment

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"math/big"
	"strings"

	"wellshown/assessment/fault"
)

// DeviceKey is the public half of a key that was made on a device: an ECDSA key on
// the curve P-256, as a SubjectPublicKeyInfo (RFC 5480).
type DeviceKey []byte

// ReadDeviceKey reads a key as a browser exports it, as base64url. A key of another
// kind is refused, and so is another way of writing the same.
func ReadDeviceKey(sent string) (DeviceKey, error) {
	refused := fault.Of(fault.Invalid, "This is not the public half of an ECDSA key on the curve P-256. Enrol the device again, so that it makes one.")
	der, err := fromURL(sent)
	if err != nil {
		return nil, refused
	}
	key, ok := DeviceKey(der).read()
	if !ok {
		return nil, refused
	}
	if again, err := x509.MarshalPKIXPublicKey(key); err != nil || !bytes.Equal(again, der) {
		return nil, refused
	}
	return der, nil
}

func fromURL(sent string) ([]byte, error) {
	return base64.RawURLEncoding.Strict().DecodeString(strings.TrimRight(sent, "="))
}

func (k DeviceKey) read() (*ecdsa.PublicKey, bool) {
	read, err := x509.ParsePKIXPublicKey(k)
	if err != nil {
		return nil, false
	}
	key, ok := read.(*ecdsa.PublicKey)
	return key, ok && key.Curve == elliptic.P256()
}

// DeviceSignature is r and s, 32 bytes each, one after the other (IEEE P1363): what a
// browser's WebCrypto gives.
type DeviceSignature []byte

// ReadDeviceSignature reads a signature as base64url.
func ReadDeviceSignature(sent string) (DeviceSignature, error) {
	raw, err := fromURL(sent)
	if err != nil || len(raw) != 64 {
		return nil, fault.Of(fault.Invalid, "The signature of this sheet cannot be read. Send the sheet again as it is kept on the device.")
	}
	return raw, nil
}

// Signed reports whether a text was signed with the private half, by ECDSA with
// SHA-256 (FIPS 186-5).
func (k DeviceKey) Signed(text string, signature DeviceSignature) bool {
	key, ok := k.read()
	if !ok || len(signature) != 64 {
		return false
	}
	hash := sha256.Sum256([]byte(text))
	return ecdsa.Verify(key, hash[:], new(big.Int).SetBytes(signature[:32]), new(big.Int).SetBytes(signature[32:]))
}
