package ledger

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"

	"github.com/gowebpki/jcs"
	"github.com/transparency-dev/merkle/rfc6962"
)

// HashSize is the length of every hash here, in bytes (SHA-256).
const HashSize = sha256.Size

// Leaf says that somebody did something to a record. It holds ids and a hash and
// neither names nor free text, so that it may stay when a record has to go.
type Leaf struct {
	Agency  string
	At      time.Time // kept to the microsecond
	Actor   string    // empty: the house itself
	Act     string
	Kind    string // of the record: the table that keeps it
	Subject string // key of the record among those of its kind
	Record  []byte // hash of the whole record as it was then; nil: it was deleted
}

// version tells leaves of today's form from those of a later one.
const version = 1

// Canonical is the leaf as it is hashed: canonical JSON (RFC 8785).
func (l Leaf) Canonical() ([]byte, error) {
	text, err := json.Marshal(map[string]any{
		"v": version, "agency": l.Agency, "at": l.At.UTC().Truncate(time.Microsecond).Format("2006-01-02T15:04:05.000000Z"),
		"actor": l.Actor, "act": l.Act, "kind": l.Kind, "subject": l.Subject, "record": hex.EncodeToString(l.Record),
	})
	if err != nil {
		return nil, fmt.Errorf("write the leaf of %s %s: %w", l.Kind, l.Subject, err)
	}
	return Canonical(text)
}

// Hash is the leaf's hash in the tree (RFC 6962, section 2.1).
func (l Leaf) Hash() ([]byte, error) {
	text, err := l.Canonical()
	if err != nil {
		return nil, err
	}
	return LeafHash(text), nil
}

// LeafHash is the hash in the tree of a leaf in its canonical form.
func LeafHash(canonical []byte) []byte { return rfc6962.DefaultHasher.HashLeaf(canonical) }

// Canonical brings JSON into the one form of RFC 8785. Text that is not JSON, or
// that names a member twice, is an error.
func Canonical(text []byte) ([]byte, error) {
	canonical, err := jcs.Transform(text)
	if err != nil {
		return nil, fmt.Errorf("bring JSON into canonical form: %w", err)
	}
	return canonical, nil
}

// RecordHash is the hash of a record given as JSON in any form.
func RecordHash(record []byte) ([]byte, error) {
	canonical, err := Canonical(record)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(canonical)
	return sum[:], nil
}
