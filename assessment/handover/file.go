package handover

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"wellshown/assessment/ledger"
)

// What tells such a file from every other, and how large one may be, in bytes.
const (
	Format    = "wellshown.handover"
	Version   = 1
	MostBytes = 4 << 20
)

// Note stands in every file and beside every answer about one.
const Note = "This says what another agency wrote down on that day. It makes nobody current here. Each agency shows and signs anew."

// File is the whole file.
type File struct {
	Handover  Body   `json:"handover"`
	Key       string `json:"key"`       // public half of the key that signed, as wellshown keys public shows it
	Signature []byte `json:"signature"` // Ed25519 over the canonical text of handover
}

// Body is what is signed.
type Body struct {
	Format  string  `json:"format"`
	Version int     `json:"version"`
	Note    string  `json:"note"`
	About   About   `json:"about"`
	Held    []Held  `json:"held"`    // what was held on the day, and what was not held any more
	Entries []Entry `json:"entries"` // all that was written down, the oldest first
	Head    string  `json:"head"`    // of the agency's ledger, as it was signed
	Sums    Sums    `json:"sums"`
}

// About says who it is about and by whom.
type About struct {
	Agency Named  `json:"agency"`
	Person Named  `json:"person"`
	Day    string `json:"day"`     // that it is of, in the zone
	MadeAt string `json:"made_at"` // instant, UTC
	Zone   string `json:"zone"`
	Demo   bool   `json:"demo,omitempty"` // the agency is invented
}

// Named is an id with its name.
type Named struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// How somebody stood on the day, in words that say nothing of today.
const (
	WasHeld      = "was held"
	HadLapsed    = "had lapsed"
	WasWithdrawn = "was withdrawn"
	WasWaived    = "was waived"
	WasLearning  = "was being learnt"
)

// Held is one skill on the day. Children are told apart by a number of this file alone.
type Held struct {
	Skill   string `json:"skill"` // code
	Title   string `json:"title"`
	Child   int    `json:"child,omitempty"` // 0: for every child
	How     string `json:"how"`
	Since   string `json:"since,omitempty"`
	Through string `json:"through,omitempty"`
}

// The kinds of entries, each the ledger's name of it.
const (
	Demonstration = "demonstration"
	Withdrawal    = "withdrawal"
	Reinstatement = "reinstatement"
	Waiver        = "waiver"
)

// Where something was shown.
const (
	WithTheChild = "with the child"
	InSimulation = "in simulation"
)

// Entry is one thing that was written down.
type Entry struct {
	Kind      string      `json:"kind"`
	ID        string      `json:"id"`
	Skill     string      `json:"skill"`
	Title     string      `json:"title"`
	Child     int         `json:"child,omitempty"`
	On        string      `json:"on"`      // day, in the agency's zone
	Written   string      `json:"written"` // instant, UTC
	Checklist *Checklist  `json:"checklist,omitempty"`
	Outcome   string      `json:"outcome,omitempty"`
	Score     string      `json:"score,omitempty"`
	Setting   string      `json:"setting,omitempty"` // with the child, or in simulation
	Formal    bool        `json:"formal,omitempty"`
	By        Who         `json:"by"`                // who observed it, or decided it
	Through   string      `json:"through,omitempty"` // waiver: last day
	Until     string      `json:"until,omitempty"`   // withdrawal: what ends it
	Of        string      `json:"of,omitempty"`      // reinstatement: the withdrawal
	Text      string      `json:"text,omitempty"`    // SHA-256 of the text that was signed
	Signed    []Signed    `json:"signed,omitempty"`
	Taken     *Correction `json:"taken_back,omitempty"`
	Proofs    []Proof     `json:"proofs"`
}

// SignedByBoth reports whether observer and learner have signed a demonstration.
func (e Entry) SignedByBoth() bool { return len(e.Signed) >= 2 }

// CountsAlone reports whether a demonstration counts that the observer alone has signed:
// what was not competent does, where it was no practice.
func (e Entry) CountsAlone() bool {
	return e.Formal && e.Outcome != competent && slices.ContainsFunc(e.Signed, func(s Signed) bool { return s.Part == "observer" })
}

// Checklist is the revision that a skill was shown by.
type Checklist struct {
	Revision int    `json:"revision"`
	SHA256   string `json:"sha256"`
}

// Who did it, with the licence as the record prints it.
type Who struct {
	Name    string `json:"name"`
	Licence string `json:"licence,omitempty"`
}

// Signed is one signature on a record.
type Signed struct {
	Part    string `json:"part"`
	Name    string `json:"name"`
	Licence string `json:"licence,omitempty"`
	At      string `json:"at"`
	Text    string `json:"text"` // SHA-256 of the text that was signed
}

// Correction says that an entry was taken back. Why stands in the agency's records.
type Correction struct {
	ID string `json:"id"`
	On string `json:"on"`
}

// Sums are the SHA-256 of each part, so that a change is told by its place. They prove
// nothing by themselves: the signature does.
type Sums struct {
	About   string   `json:"about"`
	Held    string   `json:"held"`
	Head    string   `json:"head"`
	Entries []string `json:"entries"`
}

// ErrTooLarge is why a file is not made that no house would read.
var ErrTooLarge = errors.New("it is larger than any house reads")

// Write makes a whole file of what is to be signed. Sums are made here.
func Write(b Body, keys *ledger.Keys) ([]byte, error) {
	b.Format, b.Version, b.Note = Format, Version, Note
	if b.Held == nil {
		b.Held = []Held{}
	}
	if b.Entries == nil {
		b.Entries = []Entry{}
	}
	var err error
	if b.Sums, err = sumsOf(b); err != nil {
		return nil, err
	}
	signed, err := canonical(b)
	if err != nil {
		return nil, err
	}
	f := File{Handover: b}
	if f.Key, f.Signature, err = keys.SignDetached(signed); err != nil {
		return nil, fmt.Errorf("sign a handover: %w", err)
	}
	file, err := canonical(f)
	if err != nil {
		return nil, err
	}
	if len(file) > MostBytes {
		return nil, fmt.Errorf("write a handover of %d bytes: %w", len(file), ErrTooLarge)
	}
	_, findings := Open(file)
	if len(findings) > 0 {
		return nil, fmt.Errorf("a handover is not handed out, because it would not be taken: %s", findings[0].Phrase())
	}
	return file, nil
}

func sumsOf(b Body) (Sums, error) {
	s := Sums{Entries: []string{}}
	for _, part := range []struct {
		into *string
		of   any
	}{{&s.About, b.About}, {&s.Held, b.Held}, {&s.Head, b.Head}} {
		sum, err := sumOf(part.of)
		if err != nil {
			return s, err
		}
		*part.into = sum
	}
	for _, e := range b.Entries {
		sum, err := sumOf(e)
		if err != nil {
			return s, err
		}
		s.Entries = append(s.Entries, sum)
	}
	return s, nil
}

func sumOf(part any) (string, error) {
	text, err := canonical(part)
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:]), err
}

// canonical is the one way to write something here.
func canonical(v any) ([]byte, error) {
	var text bytes.Buffer
	out := json.NewEncoder(&text)
	out.SetEscapeHTML(false)
	if err := out.Encode(v); err != nil {
		return nil, fmt.Errorf("write a part of a handover: %w", err)
	}
	return ledger.Canonical(text.Bytes())
}
