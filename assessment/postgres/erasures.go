package postgres

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Erasures keeps how long records are kept, and what was erased, by whom and why.
type Erasures struct{ scope }

// Retention is the setting that counts; no row: everything is kept for ever.
type Retention struct {
	ID     string
	Years  int // zero: for ever
	Reason string
	SetAt  time.Time
	SetBy  assessment.PersonID
	Setter string
}

// Retention is the newest setting, of two of one instant the one that keeps longer;
// "not found" where there never was one.
func (e Erasures) Retention(ctx context.Context) (Retention, error) {
	return get[Retention](ctx, e.scope, `
		select r.id, coalesce(r.years, 0) as years, r.reason, r.set_at, r.set_by, p.name as setter
		from retention r join person p on p.agency_id = r.agency_id and p.id = r.set_by
		order by r.set_at desc, r.years desc nulls first
		limit 1`)
}

// SetRetention adds a setting, which counts from now on.
func (e Erasures) SetRetention(ctx context.Context, r Retention) error {
	return e.exec(ctx, `
		insert into retention (agency_id, id, years, reason, set_at, set_by)
		values ($1, $2, nullif($3, 0), $4, $5, $6)`, e.agency, r.ID, r.Years, r.Reason, r.SetAt, r.SetBy)
}

// Erasure is one that was asked for, with what became of it.
type Erasure struct {
	ID       assessment.ErasureID
	PersonID assessment.PersonID // one of the two is empty
	ClientID assessment.ClientID
	Name     string // as it is now: of the person, or of the client with the code
	Reason   string
	AskedBy  assessment.PersonID
	Asker    string
	AskedAt  time.Time
	Verdict  assessment.ErasureVerdict // empty: open
	EndedBy  assessment.PersonID
	Ender    string
	EndedAt  *time.Time
	Rows     int // whose content is gone
}

const erasureQuery = `
	select e.id, coalesce(e.person_id::text, '') as person_id, coalesce(e.client_id::text, '') as client_id,
		coalesce(p.name, c.first_name || ', ' || c.code) as name, e.reason, e.asked_by, a.name as asker, e.asked_at,
		coalesce(d.verdict, '') as verdict, coalesce(d.ended_by::text, '') as ended_by, coalesce(b.name, '') as ender, d.ended_at,
		(select count(*) from erased_row r where r.agency_id = e.agency_id and r.erasure_id = e.id)::int as rows
	from erasure e
		left join person p on p.agency_id = e.agency_id and p.id = e.person_id
		left join client c on c.agency_id = e.agency_id and c.id = e.client_id
		join person a on a.agency_id = e.agency_id and a.id = e.asked_by
		left join erasure_end d on d.agency_id = e.agency_id and d.erasure_id = e.id
		left join person b on b.agency_id = d.agency_id and b.id = d.ended_by`

// All lists every erasure that was ever asked for, the newest first.
func (e Erasures) All(ctx context.Context) ([]Erasure, error) {
	return list[Erasure](ctx, e.scope, erasureQuery+` order by e.asked_at desc, e.id desc`)
}

// Get is one of them.
func (e Erasures) Get(ctx context.Context, id assessment.ErasureID) (Erasure, error) {
	return get[Erasure](ctx, e.scope, erasureQuery+` where e.id = $1`, id)
}

// OfRows lists the erasures that took content of one of some rows, oldest first.
func (e Erasures) OfRows(ctx context.Context, keys []RowKey) ([]Erasure, error) {
	kinds, subjects := namedRows(keys)
	return list[Erasure](ctx, e.scope, erasureQuery+`
		where exists (select from erased_row r join unnest($1::text[], $2::text[]) as n (kind, subject) on r.kind = n.kind and r.subject = n.subject
			where r.agency_id = e.agency_id and r.erasure_id = e.id)
		order by d.ended_at`, kinds, subjects)
}

// Add keeps that somebody asked.
func (e Erasures) Add(ctx context.Context, n Erasure) error {
	return e.exec(ctx, `
		insert into erasure (agency_id, id, person_id, client_id, reason, asked_by, asked_at)
		values ($1, $2, nullif($3, '')::uuid, nullif($4, '')::uuid, $5, $6, $7)`,
		e.agency, n.ID, string(n.PersonID), string(n.ClientID), n.Reason, n.AskedBy, n.AskedAt)
}

// End keeps what became of it.
func (e Erasures) End(ctx context.Context, id assessment.ErasureID, verdict assessment.ErasureVerdict, by assessment.PersonID, at time.Time) error {
	return e.exec(ctx, `
		insert into erasure_end (agency_id, erasure_id, verdict, ended_by, ended_at)
		values ($1, $2, $3, $4, $5)`, e.agency, id, verdict, by, at)
}

// Erase takes the content of what an erasure is about, in the transaction that ended
// it as carried out, and tells how many rows it touched.
func (e Erasures) Erase(ctx context.Context, id assessment.ErasureID) (int64, error) {
	if err := e.exec(ctx, `select set_config('statement_timeout', '300000', true)`); err != nil { // seldom, and it may be much
		return 0, err
	}
	var rows int64
	err := e.tx.QueryRow(ctx, `select erase_held($1)`, id).Scan(&rows)
	return rows, err
}

// Ended is somebody who has left, or a child who is no longer served, and when what
// is held about them was last in effect.
type Ended struct {
	PersonID assessment.PersonID // one of the two is empty
	ClientID assessment.ClientID
	Name     string
	LeftOn   civil.Date // zero: they have not left
	LastOn   civil.Date // the day they left, or the last one of what they hold or signed, whichever is later; zero: they have not left
	Erased   bool
}

// endings are all people and children with the day from which retention counts. What
// somebody signed for others is in effect for as long as it holds there.
const endings = `
	select x.* from (
		select p.id::text as person_id, '' as client_id, p.name, p.left_on, p.erased_at is not null as erased,
			case when p.left_on is not null then greatest(p.left_on,
				(select max(t.through_on) from certificate t where t.person_id = p.id),
				(select max(t.through_on) from certificate t join demonstration d on d.agency_id = t.agency_id and d.id = any (t.rests_on) where d.observer_id = p.id),
				(select max(w.through_on) from waiver w where p.id in (w.person_id, w.signed_by)),
				(select max(d.recorded_at)::date from demonstration d where p.id in (d.learner_id, d.observer_id)),
				(select max(s.signed_at)::date from signature s where s.person_id = p.id)) end as last_on
		from person p where ($1 = '' or p.id = nullif($1, '')::uuid) and $2 = ''
		union all
		select '', c.id::text, c.first_name || ', ' || c.code, c.left_on, c.erased_at is not null,
			case when c.left_on is not null then greatest(c.left_on,
				(select max(t.through_on) from certificate t where t.client_id = c.id),
				(select max(w.through_on) from waiver w where w.client_id = c.id),
				(select max(d.recorded_at)::date from demonstration d where d.client_id = c.id)) end
		from client c where ($2 = '' or c.id = nullif($2, '')::uuid) and $1 = '') x`

// Ended is one person or client; "not found" where there is none.
func (e Erasures) Ended(ctx context.Context, person assessment.PersonID, client assessment.ClientID) (Ended, error) {
	return get[Ended](ctx, e.scope, endings, string(person), string(client))
}

// Lock keeps everybody else from changing a person or a client until the end of the
// transaction.
func (e Erasures) Lock(ctx context.Context, person assessment.PersonID, client assessment.ClientID) error {
	if err := e.exec(ctx, `select from person where id = nullif($1, '')::uuid for no key update`, string(person)); err != nil {
		return err
	}
	return e.exec(ctx, `select from client where id = nullif($1, '')::uuid for no key update`, string(client))
}

// Over lists all who have left and are not erased, those first who left first.
func (e Erasures) Over(ctx context.Context) ([]Ended, error) {
	return list[Ended](ctx, e.scope, endings+` where x.left_on is not null and not x.erased order by x.last_on, x.name`, "", "")
}
