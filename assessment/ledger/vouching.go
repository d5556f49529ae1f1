package ledger

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
)

// Written is what one transaction of an agency entered into the ledger: enough to
// vouch for all of it at once.
type Written struct {
	Agency string // id
	In     string // the transaction, as the database numbers it; empty: none wrote it
	Digest []byte // SHA-256 over all its entries in their order
}

func (w Written) text() []byte {
	return []byte("wellshown entries\n" + w.Agency + "\n" + w.In + "\n" + hex.EncodeToString(w.Digest) + "\n")
}

// vouchingKey is a key of its own for vouching, made from the secret half of a key
// that signs heads.
func vouchingKey(secret string) []byte {
	mac := hmac.New(sha256.New, []byte(secret))
	mac.Write([]byte("wellshown vouching"))
	return mac.Sum(nil)
}

// Vouch says that the program wrote it, with the newest key: HMAC-SHA-256 (RFC 2104).
func (k *Keys) Vouch(w Written) []byte { return tag(k.vouching[len(k.vouching)-1], w) }

// Vouched reports whether one of the keys vouches for it.
func (k *Keys) Vouched(w Written, given []byte) bool {
	for _, key := range k.vouching {
		if hmac.Equal(tag(key, w), given) {
			return true
		}
	}
	return false
}

func tag(key []byte, w Written) []byte {
	mac := hmac.New(sha256.New, key)
	mac.Write(w.text())
	return mac.Sum(nil)
}
