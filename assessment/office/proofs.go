package office

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// HeadView is the newest signed head of the agency's ledger, and what can check it.
type HeadView struct {
	ledger.Head
	Signed string   // the text to keep
	Keys   []string // public halves of the keys, the signing one last
}

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

// LedgerHead is the newest head of the agency's ledger.
func (o *Office) LedgerHead(ctx context.Context, by assessment.Actor) (HeadView, error) {
	var v HeadView
	if err := o.sealNow(ctx, by, assessment.ReadLedger); err != nil {
		return v, err
	}
	err := o.as(ctx, by, assessment.ReadLedger, func(tx *postgres.Tx, now Moment) (err error) {
		v, err = o.newestHead(ctx, tx, now)
		return err
	})
	return v, err
}

// sealNow seals what waits, so that what was just done is in the answer. That
// another sealer is at it is no fault.
func (o *Office) sealNow(ctx context.Context, by assessment.Actor, act assessment.Act) error {
	if err := by.May(act); err != nil {
		return err
	}
	if _, err := o.Seal(ctx, by.Agency); err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	return nil
}

func (o *Office) newestHead(ctx context.Context, tx *postgres.Tx, now Moment) (HeadView, error) {
	kept, err := tx.Ledger.Newest(ctx)
	if err != nil {
		return HeadView{}, err
	}
	head, err := o.openHead(now.Agency.ID, kept)
	return HeadView{Head: head, Signed: kept.Signed, Keys: o.opt.Ledger.Public()}, err
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
	tables, err := o.keptTables(ctx, tx)
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
				r.Record = recordOf(ctx, tx, tables, l)
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

// keptTables asks the schema once: it does not change while a program runs.
func (o *Office) keptTables(ctx context.Context, tx *postgres.Tx) ([]postgres.KeptTable, error) {
	if known := o.inLedger.Load(); known != nil {
		return *known, nil
	}
	tables, _, err := tx.Audit.Tables(ctx)
	if err != nil {
		return nil, fmt.Errorf("list what the ledger keeps: %w", err)
	}
	o.inLedger.Store(&tables)
	return tables, nil
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
	return ledger.Receipt{Leaf: leaf, Position: l.Position, Path: path, Head: head.Signed}, err
}

func proofPath(ctx context.Context, tx *postgres.Tx, needs ledger.Needs) ([][]byte, error) {
	hashes, err := tx.Ledger.Hashes(ctx, needs.IDs())
	if err != nil {
		return nil, fmt.Errorf("read the nodes of a proof: %w", err)
	}
	return needs.Proof(hashes)
}

// recordOf is the record itself, where it still is what the leaf says; else nothing.
func recordOf(ctx context.Context, tx *postgres.Tx, tables []postgres.KeptTable, l postgres.Sealed) json.RawMessage {
	for _, t := range tables {
		if t.Name != l.Kind {
			continue
		}
		row, err := tx.Audit.Row(ctx, t, l.Subject)
		if err != nil {
			return nil
		}
		hash, err := ledger.RecordHash(row)
		if err == nil && bytes.Equal(hash, l.RecordSha256) {
			return row
		}
	}
	return nil
}

// ExtendsView is what came of holding a head that somebody kept against the ledger.
type ExtendsView struct {
	Kept      ledger.Head
	Now       HeadView
	Extension ledger.Extension
	Extends   bool   // today's ledger holds all that was in the kept one, unchanged
	Why       string // where it does not
}

// Extends holds a head that an outsider kept against today's ledger, which the
// answer shows even where what was kept cannot be read.
func (o *Office) Extends(ctx context.Context, by assessment.Actor, kept string) (ExtendsView, error) {
	var v ExtendsView
	err := o.as(ctx, by, assessment.ReadLedger, func(tx *postgres.Tx, now Moment) (err error) {
		if v.Now, err = o.newestHead(ctx, tx, now); err != nil {
			return err
		}
		v.Kept, err = ledger.OpenHead([]byte(kept), o.opt.Ledger.Verifiers())
		if err != nil || v.Kept.Agency != string(by.Agency) {
			return fault.Of(fault.Refused, "This is no head that this agency's ledger has signed. Paste the whole text as it was kept, from its first line to the signature.")
		}
		v.Extension, v.Why, err = extension(ctx, tx, kept, v.Kept, v.Now)
		return err
	})
	if err != nil || v.Why != "" {
		return v, err
	}
	if _, _, err := v.Extension.Check(o.opt.Ledger.Verifiers()); err != nil {
		v.Why = "History was rewritten: what was in the ledger then is not what is in it now."
	}
	v.Extends = v.Why == ""
	return v, nil
}

func extension(ctx context.Context, tx *postgres.Tx, kept string, head ledger.Head, now HeadView) (ledger.Extension, string, error) {
	e := ledger.Extension{From: kept, To: now.Signed}
	if head.Size > now.Size {
		return e, fmt.Sprintf("History was cut off: there were %d entries then, and there are %d now.", head.Size, now.Size), nil
	}
	needs, err := ledger.NeedsOfConsistency(head.Size, now.Size)
	if err != nil {
		return e, "", err
	}
	e.Path, err = proofPath(ctx, tx, needs)
	if err != nil && fault.KindOf(err) == 0 {
		return e, "Parts of the ledger are gone, so nothing can be proven. Run wellshown verify.", nil
	}
	return e, "", err
}

// Entries lists what the ledger has, newest first, before a position (0: from the
// newest on): at most 100.
func (o *Office) Entries(ctx context.Context, by assessment.Actor, before int64) ([]postgres.EntryBy, error) {
	var all []postgres.EntryBy
	err := o.as(ctx, by, assessment.ReadEntries, func(tx *postgres.Tx, _ Moment) (err error) {
		if before <= 0 {
			before = math.MaxInt64
		}
		all, err = tx.Ledger.Lately(ctx, before, 100)
		return err
	})
	return all, err
}
