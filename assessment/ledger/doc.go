// Package ledger is the arithmetic of a log that nobody can change unnoticed: each
// signed or changed thing is a leaf in canonical JSON (RFC 8785), the leaves of one
// agency are an RFC 6962 Merkle tree, and each head of that tree is a signed note
// that an outsider can keep. Like the rest of the core it has no clock and reads
// and writes nothing.
package ledger
