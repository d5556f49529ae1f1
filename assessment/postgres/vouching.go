package postgres

import (
	"context"

	"wellshown/assessment/ledger"
)

// entriesDigest is SHA-256 over entries in the order of writing, each with all that
// it says. A row of a table reads in one way only.
const entriesDigest = `sha256(convert_to(string_agg(row(number, at, actor_id, act, kind, subject, record_sha256)::text, E'\n' order by number), 'UTF8'))`

// Written is what the transaction has entered so far; nothing where In is empty.
func (l Ledger) Written(ctx context.Context) (ledger.Written, error) {
	type row struct {
		In     string
		Digest []byte
	}
	r, err := get[row](ctx, l.scope, `
		select coalesce(min(written_in::text), '') as "in", `+entriesDigest+` as digest
		from ledger_waiting
		where agency_id = $1 and written_in = pg_current_xact_id_if_assigned()`, l.agency)
	return ledger.Written{Agency: string(l.agency), In: r.In, Digest: r.Digest}, err
}

// Vouch keeps that the program wrote the entries of a transaction.
func (l Ledger) Vouch(ctx context.Context, in string, tag []byte) error {
	return l.exec(ctx, `insert into ledger_vouching (agency_id, written_in, tag) values ($1, $2::text::xid8, $3)`, l.agency, in, tag)
}

// Waiting lists entries that have no place yet, in the order of writing, after a
// number: so many, and whatever else their transactions entered. Each comes with what
// its whole transaction entered and the tag that vouches for it.
func (l Ledger) Waiting(ctx context.Context, after int64, most int) ([]Waiting, error) {
	return list[Waiting](ctx, l.scope, `
		with first as (
			select number, written_in from ledger_waiting where agency_id = $1 and number > $2 order by number limit $3),
		whole as (
			select written_in, `+entriesDigest+` as digest
			from ledger_waiting
			where agency_id = $1 and written_in in (select written_in from first)
			group by written_in)
		select e.number, e.at, e.actor_id, e.act, e.kind, e.subject, e.record_sha256, coalesce(e.written_in::text, '') as written_in, w.digest, v.tag
		from ledger_waiting e
			left join whole w on w.written_in = e.written_in
			left join ledger_vouching v on v.agency_id = e.agency_id and v.written_in = e.written_in
		where e.agency_id = $1 and (e.number in (select number from first) or e.written_in in (select written_in from first))
		order by e.number`, l.agency, after, most)
}

// dropVouchings drops the tags of transactions all of whose entries are sealed.
func (l Ledger) dropVouchings(ctx context.Context) error {
	return l.exec(ctx, `
		delete from ledger_vouching v
		where v.agency_id = $1 and not exists (select from ledger_waiting w where w.agency_id = v.agency_id and w.written_in = v.written_in)`, l.agency)
}
