package ledger

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"golang.org/x/mod/sumdb/note"
)

// Keys are what heads are signed with (Ed25519, RFC 8032). The last one signs; all
// before it only say that what they signed is genuine. They live in a file outside
// the database.
type Keys struct {
	signer    note.Signer
	verifiers []note.Verifier
	public    []string
	vouching  [][]byte // keys that vouch for entries, made from the secret halves
}

const keysHeader = "# Keys of the ledger. Keep this file secret and keep a copy: whoever has it can sign heads, and without it\n" +
	"# none can be signed. One key on two lines, the public half first; the last key signs.\n"

// NewKey makes a key and returns the lines of the key file that hold it. The name
// tells it from others and holds neither spaces nor plus signs.
func NewKey(random io.Reader, name string) (lines string, err error) {
	secret, public, err := note.GenerateKey(random, name)
	if err != nil {
		return "", fmt.Errorf("make a key: %w", err)
	}
	return public + "\n" + secret + "\n", nil
}

// KeyFile is a whole key file of one new key.
func KeyFile(random io.Reader, name string) (string, error) {
	lines, err := NewKey(random, name)
	return keysHeader + lines, err
}

// ReadKeys reads a key file.
func ReadKeys(text string) (*Keys, error) {
	k := &Keys{}
	public := ""
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case public == "":
			public = line
		default:
			if err := k.add(public, line); err != nil {
				return nil, fmt.Errorf("line %d of the key file: %w", i+1, err)
			}
			public = ""
		}
	}
	if public != "" || k.signer == nil {
		return nil, errors.New("the key file does not hold a whole key: each is a public line followed by a secret one")
	}
	return k, nil
}

// add never shows a key in an error.
func (k *Keys) add(public, secret string) error {
	verifier, err := note.NewVerifier(public)
	if err != nil {
		return errors.New("the public half cannot be read")
	}
	signer, err := note.NewSigner(secret)
	if err != nil {
		return errors.New("the secret half cannot be read")
	}
	const probe = "probe\n"
	signed, err := note.Sign(&note.Note{Text: probe}, signer)
	if err != nil {
		return fmt.Errorf("try the key: %w", err)
	}
	if _, err := note.Open(signed, note.VerifierList(verifier)); err != nil {
		return errors.New("the two halves are of different keys")
	}
	k.signer, k.verifiers, k.public = signer, append(k.verifiers, verifier), append(k.public, public)
	k.vouching = append(k.vouching, vouchingKey(secret))
	return nil
}

// Signer is the key that signs.
func (k *Keys) Signer() note.Signer { return k.signer }

// Verifiers know all keys.
func (k *Keys) Verifiers() note.Verifiers { return note.VerifierList(k.verifiers...) }

// Rank is the place of the key that a signed head was signed with, in the order of
// the file: a later key has a higher one. -1: none of them signed it.
func (k *Keys) Rank(signed []byte) int {
	for i := len(k.verifiers) - 1; i >= 0; i-- {
		if _, err := note.Open(signed, note.VerifierList(k.verifiers[i])); err == nil {
			return i
		}
	}
	return -1
}

// Public are the public halves, the signing one last. They are no secret.
func (k *Keys) Public() []string { return k.public }

// ReadPublic makes verifiers out of public halves.
func ReadPublic(lines ...string) (note.Verifiers, error) {
	var all []note.Verifier
	for _, line := range lines {
		v, err := note.NewVerifier(strings.TrimSpace(line))
		if err != nil {
			return nil, fmt.Errorf("read a public key: %w", err)
		}
		all = append(all, v)
	}
	return note.VerifierList(all...), nil
}
