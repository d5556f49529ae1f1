package ledger

import (
	"encoding/base64"
	"errors"
	"fmt"
	"strings"

	"golang.org/x/mod/sumdb/note"
)

// SignDetached signs bytes with the newest key (Ed25519, RFC 8032), for files that say
// elsewhere what stands in the ledger. Public is the public half that verifies it. What is
// signed must tell by its own first bytes that it is no head.
func (k *Keys) SignDetached(text []byte) (public string, signature []byte, err error) {
	if strings.HasPrefix(string(text), origin) {
		return "", nil, errors.New("a head is signed by Sign alone")
	}
	if signature, err = k.signer.Sign(text); err != nil {
		return "", nil, fmt.Errorf("sign a file: %w", err)
	}
	return k.public[len(k.public)-1], signature, nil
}

// VerifyDetached holds a signature to the exact bytes that were signed and a public key in
// its one form.
func VerifyDetached(public string, text, signature []byte) error {
	if one, err := ReadPublicLine(public); err != nil || one != public {
		return ErrPublicKey
	}
	v, err := note.NewVerifier(public)
	if err != nil {
		return ErrPublicKey
	}
	if !v.Verify(text, signature) {
		return ErrSignature
	}
	return nil
}

// What does not fit of a detached signature.
var (
	ErrPublicKey = errors.New("the public key cannot be read")
	ErrSignature = errors.New("the signature is not of these bytes by this key")
)

// ReadPublicLine takes one public half as people paste it and gives it in its one form: the
// hash in it may be typed in capitals, and the last letter holds bits that mean nothing.
func ReadPublicLine(line string) (string, error) {
	line = strings.TrimSpace(line)
	v, err := note.NewVerifier(line)
	if err != nil {
		return "", ErrPublicKey
	}
	parts := strings.SplitN(line, "+", 3)
	key, err := base64.StdEncoding.DecodeString(parts[2])
	if err != nil {
		return "", ErrPublicKey
	}
	return fmt.Sprintf("%s+%08x+%s", v.Name(), v.KeyHash(), base64.StdEncoding.EncodeToString(key)), nil
}
