package api

import (
	"encoding/hex"
	"encoding/json"
	"time"

	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// LedgerHead is the newest head of the agency's ledger.
type LedgerHead struct {
	Size     int64     `json:"size" doc:"Number of leaves."`
	Root     string    `json:"root" doc:"Root hash of the tree (RFC 6962), hexadecimal."`
	SealedAt time.Time `json:"sealed_at"`
	Signed   string    `json:"signed" doc:"The head as it was signed, a note in plain text. Keep it: it proves later that nothing was changed since."`
	Keys     []string  `json:"keys" doc:"Public halves of the keys that sign heads, the one in use last. Get them by another way too, once."`
}

// LedgerExtension says whether today's ledger extends a head that was kept.
type LedgerExtension struct {
	Extends bool   `json:"extends" doc:"Whether all that was in the ledger then is in it now, unchanged."`
	Why     string `json:"why,omitempty" doc:"Why not."`
	Proof   Growth `json:"proof"`
}

// Growth is the consistency proof between two heads (RFC 6962, section 2.1.2).
type Growth struct {
	From string   `json:"from" doc:"The older head as it was signed."`
	To   string   `json:"to" doc:"The newer head as it was signed."`
	Path [][]byte `json:"path" doc:"The hashes, base64."`
}

// LedgerEntry is one leaf of the ledger.
type LedgerEntry struct {
	Position int64     `json:"position" doc:"In the tree, from 0."`
	At       time.Time `json:"at"`
	Actor    string    `json:"actor,omitempty" doc:"Name of who did it, as it is now; left out for what the house does itself."`
	Act      string    `json:"act" doc:"What was being done."`
	Kind     string    `json:"kind" doc:"Which kind of record was written."`
	Subject  string    `json:"subject" doc:"Its key."`
	Record   string    `json:"record,omitempty" doc:"SHA-256 of the record's canonical JSON, hexadecimal; left out where it was deleted."`
}

// Proof is what the ledger has of a record.
type Proof struct {
	Head     LedgerHead `json:"head"`
	Waiting  bool       `json:"waiting" doc:"Something about it has no place in the tree yet. Ask again in a few seconds."`
	Receipts []Receipt  `json:"receipts" doc:"One for each time it was written, oldest first."`
}

// Receipt proves one leaf to whoever has the public keys and nothing else.
type Receipt struct {
	Leaf     json.RawMessage `json:"leaf" doc:"Canonical JSON (RFC 8785) of the leaf."`
	Position int64           `json:"position" doc:"Of the leaf in the tree, from 0."`
	Path     [][]byte        `json:"path" doc:"Audit path (RFC 6962, section 2.1.1), base64."`
	Head     string          `json:"head" doc:"The signed head that it leads to."`
	Record   json.RawMessage `json:"record,omitempty" doc:"The record that the leaf holds the hash of, its columns as texts; left out where it changed since."`
}

func ledgerHead(h office.HeadView) LedgerHead {
	return LedgerHead{Size: h.Size, Root: hex.EncodeToString(h.Root), SealedAt: h.At.UTC(), Signed: h.Signed, Keys: h.Keys}
}

func ledgerExtension(x office.ExtendsView) LedgerExtension {
	return LedgerExtension{Extends: x.Extends, Why: x.Why, Proof: Growth(x.Extension)}
}

func ledgerEntry(e postgres.EntryBy) LedgerEntry {
	return LedgerEntry{Position: e.Position, At: e.At.UTC(), Actor: e.Actor, Act: e.Act, Kind: e.Kind, Subject: e.Subject, Record: e.RecordHash}
}

func proof(p office.ProofView) Proof {
	w := Proof{Head: ledgerHead(p.Head), Waiting: p.Waiting, Receipts: []Receipt{}}
	for _, e := range p.Entries {
		w.Receipts = append(w.Receipts, receipt(e.Receipt))
	}
	return w
}

func receipt(r ledger.Receipt) Receipt { return Receipt(r) }
