package ledger

import (
	"encoding/hex"
	"encoding/json"
	"fmt"

	"golang.org/x/mod/sumdb/note"
)

// Receipt proves to somebody without the database that a record is in the ledger:
// the leaf, where it stands in the tree, the path to the root and the signed head.
// It is a wire form; all of it is text.
type Receipt struct {
	Leaf     json.RawMessage `json:"leaf"`             // canonical JSON
	Position int64           `json:"position"`         // of the leaf, from 0
	Path     [][]byte        `json:"path"`             // hashes from the leaf up to the root
	Head     string          `json:"head"`             // as it was signed
	Record   json.RawMessage `json:"record,omitempty"` // what the leaf holds the hash of; left out where it changed since
}

// Proven is what a receipt that holds says.
type Proven struct {
	Head Head
	Leaf struct {
		Agency, At, Actor, Act, Kind, Subject, Record string
	}
}

// Check checks everything that a receipt claims, against public keys alone.
func (r Receipt) Check(keys note.Verifiers) (Proven, error) {
	var p Proven
	var err error
	if p.Head, err = OpenHead([]byte(r.Head), keys); err != nil {
		return p, err
	}
	if p.Leaf, err = readLeaf(r.Leaf); err != nil {
		return p, err
	}
	if p.Leaf.Agency != p.Head.Agency {
		return p, fmt.Errorf("the leaf is of another agency than the head")
	}
	text, err := Canonical(r.Leaf)
	if err != nil {
		return p, err
	}
	if err := VerifyInclusion(LeafHash(text), r.Position, p.Head.Size, r.Path, p.Head.Root); err != nil {
		return p, err
	}
	return p, r.checkRecord(p.Leaf.Record)
}

func (r Receipt) checkRecord(want string) error {
	if len(r.Record) == 0 {
		return nil
	}
	hash, err := RecordHash(r.Record)
	if err != nil {
		return err
	}
	if hex.EncodeToString(hash) != want {
		return fmt.Errorf("the record is not the one that the leaf holds the hash of")
	}
	return nil
}

// readLeaf refuses leaves of a form that this program does not know.
func readLeaf(text []byte) (leaf struct{ Agency, At, Actor, Act, Kind, Subject, Record string }, err error) {
	var form struct {
		Version                                       int `json:"v"`
		Agency, At, Actor, Act, Kind, Subject, Record string
	}
	if err := json.Unmarshal(text, &form); err != nil {
		return leaf, fmt.Errorf("read a leaf: %w", err)
	}
	if form.Version != version {
		return leaf, fmt.Errorf("the leaf has form %d, and this program knows form %d", form.Version, version)
	}
	leaf.Agency, leaf.At, leaf.Actor, leaf.Act = form.Agency, form.At, form.Actor, form.Act
	leaf.Kind, leaf.Subject, leaf.Record = form.Kind, form.Subject, form.Record
	return leaf, nil
}

// Extension proves that the tree of an older head is the beginning of that of a
// newer one: nothing that was in it has changed. It is a wire form.
type Extension struct {
	From string   `json:"from"` // the older head as it was signed
	To   string   `json:"to"`   // the newer
	Path [][]byte `json:"path"`
}

// Check checks an extension against public keys alone.
func (e Extension) Check(keys note.Verifiers) (from, to Head, err error) {
	if from, err = OpenHead([]byte(e.From), keys); err != nil {
		return from, to, fmt.Errorf("the older head: %w", err)
	}
	if to, err = OpenHead([]byte(e.To), keys); err != nil {
		return from, to, fmt.Errorf("the newer head: %w", err)
	}
	if from.Agency != to.Agency {
		return from, to, fmt.Errorf("the two heads are of different agencies")
	}
	return from, to, VerifyConsistency(from.Size, to.Size, e.Path, from.Root, to.Root)
}
