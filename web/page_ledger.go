package web

import "wellshown/assessment/wording"

// LedgerPage shows the newest head of the ledger, and holds one that was kept
// against it. GET /ledger.
type LedgerPage struct {
	Frame
	Faults  Faults
	Entries string // how many, in words
	Sealed  string // when
	Signed  string // the head's text; empty: nothing is sealed yet
	Keys    []string
	Head    string // as typed
	Answer  string // empty = not asked; extends, broken
	Kept    string // "412 entries, sealed 3 May 2026 at 10:00 MDT"
	Why     string // where it does not extend
	All     string // page of the entries; empty: not for who asks
}

// EntriesPage lists the entries of the ledger. GET /ledger/entries.
type EntriesPage struct {
	Frame
	Lines []EntryLine
	Older string // address of the next page; empty: these are the first
}

// EntryLine is one leaf.
type EntryLine struct {
	Position string
	At       string
	Who      string
	Act      string
	Kind     string // the record's kind, in words
	Subject  string
}

// ProofPage shows what the ledger has of a record. GET …/proof.
type ProofPage struct {
	Frame
	Of      string // "this demonstration"
	Back    string
	Waiting bool
	Entries []ProofEntry
	Sealed  string
	Size    string
	Erased  [][]wording.Piece // who erased what of it, with who asked, when and why
	File    string            // JSON with all that proves it
}

// ProofEntry is one leaf about the record.
type ProofEntry struct {
	What     string // "signature of the observer"
	At       string
	Act      Worded
	Position string
	SHA256   string
	Same     bool // the record is today as it was written
}
