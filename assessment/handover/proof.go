package handover

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Proof leads from one row of an entry to the head.
type Proof struct {
	Leaf     Leaf     `json:"leaf"`
	Position int64    `json:"position"`
	Path     [][]byte `json:"path"`
}

// Leaf is a leaf of the ledger; its canonical text is what is hashed there.
type Leaf struct {
	Act     string `json:"act"`
	Actor   string `json:"actor"`
	Agency  string `json:"agency"`
	At      string `json:"at"`
	Kind    string `json:"kind"`
	Record  string `json:"record"`
	Subject string `json:"subject"`
	V       int    `json:"v"`
}

// Row is a row of the ledger by its kind and key.
type Row struct{ Kind, Subject string }

// Rows are what the ledger has to have of an entry.
func (e Entry) Rows() []Row {
	rows := []Row{{e.Kind, e.ID}}
	for _, s := range e.Signed {
		rows = append(rows, Row{"signature", e.ID + "/" + s.Part})
	}
	if e.Taken != nil {
		rows = append(rows, Row{"correction", e.Taken.ID})
	}
	return rows
}

// ReadLeaf takes a leaf as the ledger has it.
func ReadLeaf(text []byte) (Leaf, error) {
	var l Leaf
	in := json.NewDecoder(bytes.NewReader(text))
	in.DisallowUnknownFields()
	if err := in.Decode(&l); err != nil {
		return l, fmt.Errorf("read a leaf of the ledger: %w", err)
	}
	return l, nil
}
