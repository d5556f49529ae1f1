package postgres

import (
	"context"

	"wellshown/assessment"
)

// ErasedRow is a row that an erasure took the content of, beside what the ledger has
// of it.
type ErasedRow struct {
	Kind    string
	Subject string
	Was     []byte // the hash before, as the erasure wrote it down
	AskedBy assessment.PersonID
	EndedBy assessment.PersonID
	Verdict assessment.ErasureVerdict
	Entered bool   // the ledger has an entry of the erasure
	Before  []byte // the hash in the entry before that one
	Newest  string // act of the newest entry about the row
}

// everyEntry are all entries of an agency, those that wait after those that have a
// place.
const everyEntry = `(
	select 0 as waits, position as nth, ` + entryColumns + ` from ledger_leaf where agency_id = $1
	union all
	select 1, number, at, actor_id, act, kind, subject collate "C", record_sha256 from ledger_waiting where agency_id = $1)`

// Erased lists every row that was erased, once for each erasure; act is what an
// erasure is called.
func (a Audit) Erased(ctx context.Context, act string) ([]ErasedRow, error) {
	return list[ErasedRow](ctx, a.scope, `
		with named as (select distinct kind, subject collate "C" as subject from erased_row where agency_id = $1),
		entries as (
			select e.kind, e.subject, e.at, e.actor_id, e.act,
				lag(e.record_sha256) over o as before, first_value(e.act) over (partition by e.kind, e.subject order by e.waits desc, e.nth desc) as newest
			from `+everyEntry+` e join named n on n.kind = e.kind and n.subject = e.subject
			window o as (partition by e.kind, e.subject order by e.waits, e.nth))
		select r.kind, r.subject, r.was_sha256 as was, coalesce(x.asked_by::text, '') as asked_by, coalesce(d.ended_by::text, '') as ended_by, coalesce(d.verdict, '') as verdict,
			e.kind is not null as entered, e.before, coalesce(e.newest, '') as newest
		from erased_row r
			left join erasure x on x.agency_id = r.agency_id and x.id = r.erasure_id
			left join erasure_end d on d.agency_id = r.agency_id and d.erasure_id = r.erasure_id
			left join entries e on e.kind = r.kind and e.subject = r.subject and e.act = $2 and e.at = d.ended_at and e.actor_id = d.ended_by
		where r.agency_id = $1
		order by d.ended_at, r.kind, r.subject`, a.agency, act)
}

// ErasedUnsaid lists entries that are made as by an erasure, of rows that no erasure
// which was carried out names.
func (a Audit) ErasedUnsaid(ctx context.Context, act string, most int) ([]Entry, error) {
	return list[Entry](ctx, a.scope, `
		select e.at, e.actor_id, e.act, e.kind, e.subject, e.record_sha256
		from `+everyEntry+` e
		where e.act = $2 and e.kind not in ('erasure', 'erasure_end', 'erased_row', 'journal')
			and not exists (select from erased_row r join erasure_end d on d.agency_id = r.agency_id and d.erasure_id = r.erasure_id
				where r.agency_id = $1 and r.kind = e.kind and r.subject = e.subject and d.verdict = 'carried out' and d.ended_at = e.at and d.ended_by = e.actor_id)
		order by e.waits, e.nth
		limit $3`, a.agency, act, most)
}

// CarriedOutInVain lists erasures that are said to be carried out, where the person
// or client they are about was not erased.
func (a Audit) CarriedOutInVain(ctx context.Context, act string, most int) ([]Entry, error) {
	return list[Entry](ctx, a.scope, `
		select d.ended_at as at, d.ended_by as actor_id, $2 as act, 'erasure_end' as kind, d.erasure_id::text as subject, null::bytea as record_sha256
		from erasure_end d join erasure e on e.agency_id = d.agency_id and e.id = d.erasure_id
		where d.agency_id = $1 and d.verdict = 'carried out'
			and not exists (select from erased_row r where r.agency_id = d.agency_id and r.erasure_id = d.erasure_id
				and r.kind = case when e.person_id is null then 'client' else 'person' end and r.subject = coalesce(e.person_id, e.client_id)::text)
		order by d.ended_at
		limit $3`, a.agency, act, most)
}
