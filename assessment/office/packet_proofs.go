package office

import (
	"bytes"
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/ledger"
	"wellshown/assessment/postgres"
)

// headOf is the head of a size, the newest for 0; without any the zero head.
func (o *Office) headOf(ctx context.Context, tx *postgres.Tx, now Moment, size int64) (HeadView, error) {
	kept, err := tx.Ledger.Newest(ctx)
	if size > 0 {
		kept, err = tx.Ledger.HeadOver(ctx, size-1)
	}
	if fault.KindOf(err) == fault.NotFound {
		return HeadView{}, nil
	}
	if err != nil {
		return HeadView{}, fmt.Errorf("read the ledger's head: %w", err)
	}
	head, err := o.openHead(now.Agency.ID, kept)
	if err != nil {
		return HeadView{}, err
	}
	return HeadView{Head: head, Signed: kept.Signed, Keys: o.opt.Ledger.Public()}, nil
}

// prove finds what the ledger has of some rows under the packet's head, with the row
// itself beside the newest entry about it where it still is what that entry says.
func (b *packetBook) prove(ctx context.Context, tx *postgres.Tx, keys []postgres.RowKey) (map[postgres.RowKey]PacketProof, error) {
	proofs := map[postgres.RowKey]PacketProof{}
	if b.head.Size == 0 || len(keys) == 0 {
		return proofs, nil
	}
	leaves, err := tx.Ledger.Of(ctx, keys)
	if err != nil {
		return nil, fmt.Errorf("read what the ledger has of a packet's rows: %w", err)
	}
	var under []postgres.Sealed
	for _, l := range leaves {
		if l.Position < b.head.Size {
			under = append(under, l)
		}
	}
	entries, err := receipts(ctx, tx, b.head, under)
	if err != nil {
		return nil, err
	}
	rows, err := tx.Audit.RowsOf(ctx, keys)
	if err != nil {
		return nil, fmt.Errorf("read the rows of a packet's proofs: %w", err)
	}
	for i, e := range entries {
		key := postgres.RowKey{Kind: e.Kind, Subject: e.Subject}
		newest := i+1 == len(entries) || entries[i+1].Kind != e.Kind || entries[i+1].Subject != e.Subject
		if row := rows[key]; newest && row != nil {
			hash, err := ledger.RecordHash(row)
			if err != nil {
				return nil, err
			}
			if bytes.Equal(hash, e.RecordSha256) {
				e.Receipt.Record = row
			}
		}
		p := proofs[key]
		p.RowKey, p.Entries = key, append(p.Entries, e)
		proofs[key] = p
	}
	return proofs, nil
}

// proofsOf are those of some rows, in their order; a row without an entry waits.
func proofsOf(found map[postgres.RowKey]PacketProof, keys []postgres.RowKey) []PacketProof {
	var all []PacketProof
	for _, k := range keys {
		p := found[k]
		p.RowKey = k
		all = append(all, p)
	}
	return all
}

func row[T ~string](kind string, id T) postgres.RowKey {
	return postgres.RowKey{Kind: kind, Subject: string(id)}
}

// withCorrection adds the correction of what was taken back.
func withCorrection(taken assessment.RecordID, keys ...postgres.RowKey) []postgres.RowKey {
	if taken != "" {
		keys = append(keys, row("correction", taken))
	}
	return keys
}

func (r PacketRecord) rows() []postgres.RowKey {
	keys := []postgres.RowKey{row("demonstration", r.ID)}
	for _, s := range r.Signatures {
		keys = append(keys, row("signature", string(r.ID)+"/"+s.Part))
	}
	return withCorrection(r.Taken, keys...)
}

func (h PacketHappening) rows() []postgres.RowKey {
	kind := string(h.Kind)
	if h.Kind == assessment.PracticeEntry || h.Kind == assessment.TeachingEntry {
		kind = "exposure"
	}
	return withCorrection(h.Taken, row(kind, h.ID))
}

func (b *packetBook) cardRows(c PacketCard) []postgres.RowKey {
	if c.CorrectedAt == nil {
		return []postgres.RowKey{row("resuscitation_card", c.ID)}
	}
	return withCorrection(b.corrected[string(c.ID)], row("resuscitation_card", c.ID))
}

// provePerson adds the proofs of all that is told of one person, asked for at once.
func (b *packetBook) provePerson(ctx context.Context, tx *postgres.Tx, p *PacketPerson) error {
	var keys []postgres.RowKey
	for _, r := range p.Records {
		keys = append(keys, r.rows()...)
	}
	for _, h := range p.Happenings {
		keys = append(keys, h.rows()...)
	}
	for _, c := range p.Cards {
		keys = append(keys, b.cardRows(c)...)
	}
	for _, c := range p.Carried {
		keys = append(keys, row("carried_in", c.ID))
	}
	found, err := b.prove(ctx, tx, keys)
	if err != nil {
		return err
	}
	for i := range p.Records {
		p.Records[i].Proofs = proofsOf(found, p.Records[i].rows())
	}
	for i := range p.Happenings {
		p.Happenings[i].Proofs = proofsOf(found, p.Happenings[i].rows())
	}
	for i := range p.Cards {
		p.Cards[i].Proofs = proofsOf(found, b.cardRows(p.Cards[i]))
	}
	for i, c := range p.Carried {
		p.Carried[i].Proofs = proofsOf(found, []postgres.RowKey{row("carried_in", c.ID)})
	}
	return nil
}
