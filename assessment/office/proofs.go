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
	return o.proof(ctx, by, func(tx *postgres.Tx) ([]recordKey, error) {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return nil, err
		}
		if err := by.MayForCase(assessment.ReadRecords, d.LearnerID, d.ClientID); err != nil {
			return nil, err
		}
		return []recordKey{{"demonstration", string(id)}, {"signature", string(id) + "/" + PartObserver}, {"signature", string(id) + "/" + PartLearner}}, nil
	})
}

// ProofOfCertificate proves that a certificate is in the ledger as it was issued.
func (o *Office) ProofOfCertificate(ctx context.Context, by assessment.Actor, id assessment.CertificateID) (ProofView, error) {
	return o.proof(ctx, by, func(tx *postgres.Tx) ([]recordKey, error) {
		t, err := tx.Certificates.Get(ctx, id)
		if err != nil {
			return nil, err
		}
		if err := by.MayForCase(assessment.ReadRecords, t.PersonID, t.ClientID); err != nil {
			return nil, err
		}
		return []recordKey{{"certificate", string(id)}}, nil
	})
}

// recordKey names a row: its table and its key within the agency.
type recordKey struct{ kind, subject string }

// proof is for whoever may read records; which ones, those that it asks for decides.
// What was written just now is sealed first, and then looked at again.
func (o *Office) proof(ctx context.Context, by assessment.Actor, which func(*postgres.Tx) ([]recordKey, error)) (ProofView, error) {
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

func (o *Office) proofOf(ctx context.Context, tx *postgres.Tx, now Moment, keys []recordKey) (ProofView, error) {
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
	for _, k := range keys {
		if err := v.erasures(ctx, tx, k); err != nil {
			return v, err
		}
		leaves, err := tx.Ledger.Of(ctx, k.kind, k.subject)
		if err != nil {
			return v, fmt.Errorf("read what the ledger has of %s %s: %w", k.kind, k.subject, err)
		}
		waits, err := tx.Ledger.Waits(ctx, k.kind, k.subject)
		if err != nil {
			return v, fmt.Errorf("look whether an entry waits: %w", err)
		}
		v.Waiting = v.Waiting || waits
		for i, l := range leaves {
			r, err := o.receipt(ctx, tx, v.Head, l)
			if err != nil {
				return v, err
			}
			if i == len(leaves)-1 {
				if r.Record, err = recordOf(ctx, tx, postgres.KeptTables(), l); err != nil {
					return v, fmt.Errorf("read %s %s: %w", k.kind, k.subject, err)
				}
			}
			v.Entries = append(v.Entries, SealedEntry{l, r})
		}
	}
	return v, nil
}

func (v *ProofView) erasures(ctx context.Context, tx *postgres.Tx, k recordKey) error {
	found, err := tx.Erasures.OfRow(ctx, k.kind, k.subject)
	for _, e := range found {
		if !slices.ContainsFunc(v.Erasures, func(known postgres.Erasure) bool { return known.ID == e.ID }) {
			v.Erasures = append(v.Erasures, e)
		}
	}
	return err
}

// receipt is the proof of one leaf in the tree of a head.
func (o *Office) receipt(ctx context.Context, tx *postgres.Tx, head HeadView, l postgres.Sealed) (ledger.Receipt, error) {
	leaf, err := l.Leaf(assessment.AgencyID(head.Agency)).Canonical()
	if err != nil {
		return ledger.Receipt{}, err
	}
	needs, err := ledger.NeedsOfInclusion(l.Position, head.Size)
	if err != nil {
		return ledger.Receipt{}, err
	}
	path, err := proofPath(ctx, tx, needs)
	if err != nil {
		return ledger.Receipt{}, err
	}
	r := ledger.Receipt{Leaf: leaf, Position: l.Position, Path: path, Head: head.Signed}
	if _, err := r.Check(o.opt.Ledger.Verifiers()); err != nil { // what proves nothing is not handed out
		return ledger.Receipt{}, fmt.Errorf("prove the entry at %d: %w", l.Position, err)
	}
	return r, nil
}

// errPartsGone is why nothing can be proven where nodes of the tree are missing.
var errPartsGone = fault.Of(fault.Refused, "Parts of the ledger are gone, so nothing can be proven. Whoever runs the server has to run wellshown verify.")

func proofPath(ctx context.Context, tx *postgres.Tx, needs ledger.Needs) ([][]byte, error) {
	hashes, err := tx.Ledger.Hashes(ctx, needs.IDs())
	if err != nil {
		return nil, fmt.Errorf("read the nodes of a proof: %w", err)
	}
	if slices.ContainsFunc(hashes, func(hash []byte) bool { return hash == nil }) {
		return nil, errPartsGone
	}
	return needs.Proof(hashes)
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
