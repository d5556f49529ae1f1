package migrations

import (
	"crypto/hmac"
	"crypto/pbkdf2"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
)

// scramRounds is PostgreSQL's own default and the least that RFC 7677 allows. More would slow each connection and add
// nothing here: the password is 256 bits that nobody can guess.
const scramRounds = 4096

// scramVerifier is what PostgreSQL keeps of a password, in the form its documentation of pg_authid gives:
// SCRAM-SHA-256$<rounds>:<salt>$<stored key>:<server key>.
func scramVerifier(password string) (string, error) {
	salt := make([]byte, 16)
	rand.Read(salt)
	stored, server, err := scramKeys(password, salt, scramRounds)
	if err != nil {
		return "", err
	}
	b64 := base64.StdEncoding.EncodeToString
	return fmt.Sprintf("SCRAM-SHA-256$%d:%s$%s:%s", scramRounds, b64(salt), b64(stored), b64(server)), nil
}

// scramKeys follows RFC 5802 section 3 with SHA-256 (RFC 7677). The password must be ASCII, so that no Unicode
// preparation is needed.
func scramKeys(password string, salt []byte, rounds int) (stored, server []byte, err error) {
	salted, err := pbkdf2.Key(sha256.New, password, salt, rounds, sha256.Size)
	if err != nil {
		return nil, nil, fmt.Errorf("derive the salted password: %w", err)
	}
	client := sha256.Sum256(mac(salted, "Client Key"))
	return client[:], mac(salted, "Server Key"), nil
}

func mac(key []byte, text string) []byte {
	m := hmac.New(sha256.New, key)
	m.Write([]byte(text))
	return m.Sum(nil)
}
