package office

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// SealedEntry is one leaf of the ledger with its proof.
type SealedEntry struct {
	postgres.Sealed
	Receipt ledger.Receipt
}

// ProofView is what the ledger says of a record.
type ProofView struct {
	Head    HeadView
	Entries []SealedEntry // oldest first
	Waiting bool          // something about it has no place in the tree yet
	// Erasures took words of it: who asked, who carried it out, when and why; oldest first
	Erasures []postgres.Erasure
}

// ProofOfDemonstration proves that a record and its signatures are in the ledger,
// to whoever may read the record.
func (o *Office) ProofOfDemonstration(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (ProofView, error) {
	return o.proof(ctx, by, func(tx *postgres.Tx) ([]postgres.RowKey, error) {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return nil, err
		}
		if err := by.MayForCase(assessment.ReadRecords, d.LearnerID, d.ClientID); err != nil {
			return nil, err
		}
		return []postgres.RowKey{{Kind: "demonstration", Subject: string(id)}, {Kind: "signature", Subject: string(id) + "/" + PartObserver}, {Kind: "signature", Subject: string(id) + "/" + PartLearner}}, nil
	})
}

// ProofOfCertificate proves that a certificate is in the ledger as it was issued.
func (o *Office) ProofOfCertificate(ctx context.Context, by assessment.Actor, id assessment.CertificateID) (ProofView, error) {
	return o.proof(ctx, by, func(tx *postgres.Tx) ([]postgres.RowKey, error) {
		t, err := tx.Certificates.Get(ctx, id)
		if err != nil {
			return nil, err
		}
		if err := by.MayForCase(assessment.ReadRecords, t.PersonID, t.ClientID); err != nil {
			return nil, err
		}
		return []postgres.RowKey{{Kind: "certificate", Subject: string(id)}}, nil
	})
}

// proof is for whoever may read records; which ones, those that it asks for decides.
// What was written just now is sealed first, and then looked at again.
func (o *Office) proof(ctx context.Context, by assessment.Actor, which func(*postgres.Tx) ([]postgres.RowKey, error)) (ProofView, error) {
	var v ProofView
	look := func(tx *postgres.Tx, now Moment) error {
		keys, err := which(tx)
		if err != nil {
			return err
		}
		v, err = o.proofOf(ctx, tx, now, keys)
		return err
	}
	err := o.as(ctx, by, assessment.ReadRecords, look)
	if err != nil || !v.Waiting {
		return v, err
	}
	if err := o.sealNow(ctx, by, assessment.ReadRecords); err != nil {
		return v, err
	}
	return v, o.as(ctx, by, assessment.ReadRecords, look)
}

// proofOf asks for all rows at once: what a proof costs is mostly ways to the database.
func (o *Office) proofOf(ctx context.Context, tx *postgres.Tx, now Moment, keys []postgres.RowKey) (ProofView, error) {
	var v ProofView
	var err error
	v.Head, err = o.newestHead(ctx, tx, now)
	if fault.KindOf(err) == fault.NotFound { // nothing is sealed yet
		v.Waiting = true
		return v, nil
	}
	if err != nil {
		return v, err
	}
	if v.Erasures, err = tx.Erasures.OfRows(ctx, keys); err != nil {
		return v, fmt.Errorf("look what was erased: %w", err)
	}
	if v.Waiting, err = tx.Ledger.Waits(ctx, keys); err != nil {
		return v, fmt.Errorf("look whether an entry waits: %w", err)
	}
	leaves, err := tx.Ledger.Of(ctx, keys)
	if err != nil {
		return v, fmt.Errorf("read what the ledger has of %v: %w", keys, err)
	}
	if v.Entries, err = receipts(ctx, tx, v.Head, leaves); err != nil {
		return v, err
	}
	return v, addRecords(ctx, tx, v.Entries)
}

// addRecords puts the row beside the newest entry about it.
func addRecords(ctx context.Context, tx *postgres.Tx, entries []SealedEntry) error {
	for i, e := range entries {
		if i+1 < len(entries) && entries[i+1].Kind == e.Kind && entries[i+1].Subject == e.Subject {
			continue
		}
		record, err := recordOf(ctx, tx, postgres.KeptTables(), e.Sealed)
		if err != nil {
			return fmt.Errorf("read %s %s: %w", e.Kind, e.Subject, err)
		}
		entries[i].Receipt.Record = record
	}
	return nil
}

// receipts are the proofs of leaves in the tree of a head that was checked. What
// proves nothing is not handed out.
func receipts(ctx context.Context, tx *postgres.Tx, head HeadView, leaves []postgres.Sealed) ([]SealedEntry, error) {
	needs := make([]ledger.Needs, len(leaves))
	for i, l := range leaves {
		var err error
		if needs[i], err = ledger.NeedsOfInclusion(l.Position, head.Size); err != nil {
			return nil, err
		}
	}
	paths, err := proofPaths(ctx, tx, needs...)
	if err != nil {
		return nil, err
	}
	var all []SealedEntry
	for i, l := range leaves {
		leaf, err := l.Leaf(assessment.AgencyID(head.Agency)).Canonical()
		if err != nil {
			return nil, err
		}
		if err := ledger.VerifyInclusion(ledger.LeafHash(leaf), l.Position, head.Size, paths[i], head.Root); err != nil {
			return nil, fmt.Errorf("prove the entry at %d: %w", l.Position, err)
		}
		all = append(all, SealedEntry{l, ledger.Receipt{Leaf: leaf, Position: l.Position, Path: paths[i], Head: head.Signed}})
	}
	return all, nil
}

// errPartsGone is why nothing can be proven where nodes of the tree are missing.
var errPartsGone = fault.Of(fault.Refused, "Parts of the ledger are gone, so nothing can be proven. Whoever runs the server has to run wellshown verify.")

// proofPaths puts proofs together, with the nodes of all of them read at once.
func proofPaths(ctx context.Context, tx *postgres.Tx, needs ...ledger.Needs) ([][][]byte, error) {
	var ids []ledger.NodeID
	for _, n := range needs {
		ids = append(ids, n.IDs()...)
	}
	hashes, err := tx.Ledger.Hashes(ctx, ids)
	if err != nil {
		return nil, fmt.Errorf("read the nodes of a proof: %w", err)
	}
	if slices.ContainsFunc(hashes, func(hash []byte) bool { return hash == nil }) {
		return nil, errPartsGone
	}
	var paths [][][]byte
	for _, n := range needs {
		count := len(n.IDs())
		path, err := n.Proof(hashes[:count])
		if err != nil {
			return nil, err
		}
		paths, hashes = append(paths, path), hashes[count:]
	}
	return paths, nil
}

// recordOf is the record itself, where it still is what the leaf says; else nothing.
func recordOf(ctx context.Context, tx *postgres.Tx, tables []postgres.KeptTable, l postgres.Sealed) (json.RawMessage, error) {
	i := slices.IndexFunc(tables, func(t postgres.KeptTable) bool { return t.Name == l.Kind })
	if i < 0 {
		return nil, nil
	}
	row, err := tx.Audit.Row(ctx, tables[i], l.Subject)
	if fault.KindOf(err) == fault.NotFound {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	hash, err := ledger.RecordHash(row)
	if err != nil || !bytes.Equal(hash, l.RecordSha256) {
		return nil, err
	}
	return row, nil
}
