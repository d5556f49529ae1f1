// Package handover is a file that a caregiver takes along: what an agency wrote down about
// them, signed by that agency's key, so that any other house can tell whether it is
// unchanged and by whom it is. It makes nobody competent anywhere. Like the rest of the
// core it has no clock and reads and writes nothing.
//
// The file is canonical JSON (RFC 8785) from its first byte to its last, so there is one
// way to write what it says and any other bytes are refused. What is signed is the
// canonical text of its member "handover".
//
// The text that was signed for a record names the child and holds whatever was noted, so it
// does not go along: its SHA-256 does, with the fields that the next agency needs. The
// ledger's proofs show that records with these ids were written when the leaves say; that
// the fields beside them are those records' own is what the house's signature says.
package handover
