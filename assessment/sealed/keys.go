// Package sealed keeps secrets so that a copy of the database alone does not give
// them away: AES-256-GCM (NIST SP 800-38D) with keys that live in a file outside
// the database. What is sealed for one person and one purpose opens for no other.
package sealed

import (
	"crypto/aes"
	"crypto/cipher"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
)

// Keys are what secrets are sealed with. The last one of the file seals; all open
// what they have sealed.
type Keys struct {
	last string
	byID map[string]cipher.AEAD
}

const keyBytes = 32

var (
	idForm   = regexp.MustCompile(`^[A-Za-z0-9-]{1,40}$`)
	encoding = base64.StdEncoding.Strict()
)

const fileHeader = "# Keys that secrets in the database are sealed with. Keep this file secret and keep a copy: whoever has it and the\n" +
	"# database can read them, and without it nobody can. One key a line; the last one seals, all of them open.\n"

// NewKey makes a key and returns the line of the key file that holds it. The id
// tells it from others.
func NewKey(random io.Reader, id string) (line string, err error) {
	if !idForm.MatchString(id) {
		return "", errors.New("a key is named by letters, digits and hyphens, at most 40")
	}
	key := make([]byte, keyBytes)
	if _, err := io.ReadFull(random, key); err != nil {
		return "", fmt.Errorf("draw a key: %w", err)
	}
	return id + " " + encoding.EncodeToString(key) + "\n", nil
}

// KeyFile is a whole key file of one new key.
func KeyFile(random io.Reader, id string) (string, error) {
	line, err := NewKey(random, id)
	return fileHeader + line, err
}

// ReadKeys reads a key file. No error shows any of a key.
func ReadKeys(text string) (*Keys, error) {
	k := &Keys{byID: map[string]cipher.AEAD{}}
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if err := k.add(line); err != nil {
			return nil, fmt.Errorf("line %d of the key file: %w", i+1, err)
		}
	}
	if k.last == "" {
		return nil, errors.New("the key file holds no key")
	}
	return k, nil
}

func (k *Keys) add(line string) error {
	id, text, _ := strings.Cut(line, " ")
	key, err := encoding.DecodeString(strings.TrimSpace(text))
	switch {
	case !idForm.MatchString(id):
		return errors.New("it does not begin with the name of a key")
	case err != nil || len(key) != keyBytes:
		return errors.New("the key is not 32 bytes in base64")
	case k.byID[id] != nil:
		return fmt.Errorf("there is another key named %s", id)
	}
	block, err := aes.NewCipher(key)
	if err != nil {
		return fmt.Errorf("take the key: %w", err)
	}
	if k.byID[id], err = cipher.NewGCM(block); err != nil {
		return fmt.Errorf("take the key: %w", err)
	}
	k.last = id
	return nil
}
