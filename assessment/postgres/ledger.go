package postgres

import (
	"context"
	"math"
	"strconv"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/ledger"
)

// Ledger keeps the agency's tree: entries that wait for a place, leaves, complete
// subtrees and signed heads. Entries are made by the database itself, with the
// rows they are about.
type Ledger struct{ scope }

// Entry is what the ledger says of one row that was written.
type Entry struct {
	At           time.Time
	ActorID      *assessment.PersonID // nil: the house itself
	Act          string
	Kind         string // the table
	Subject      string // the row's key
	RecordSha256 []byte // nil: the row was deleted
}

// Leaf is the entry as the tree has it.
func (e Entry) Leaf(agency assessment.AgencyID) ledger.Leaf {
	l := ledger.Leaf{Agency: string(agency), At: e.At, Act: e.Act, Kind: e.Kind, Subject: e.Subject, Record: e.RecordSha256}
	if e.ActorID != nil {
		l.Actor = string(*e.ActorID)
	}
	return l
}

// Waiting is an entry that has no place yet, with its number in the order of
// writing.
type Waiting struct {
	Number int64
	Entry
	WrittenIn string // the transaction; empty: it was there before the ledger began
	Digest    []byte // over all entries of that transaction
	Tag       []byte // that vouches for them; nil: none
}

// Written is what the entry's transaction entered.
func (w Waiting) Written(agency assessment.AgencyID) ledger.Written {
	return ledger.Written{Agency: string(agency), In: w.WrittenIn, Digest: w.Digest}
}

// Sealed is an entry with its place in the tree, from 0.
type Sealed struct {
	Position int64
	Entry
	Hash []byte
}

// SignedHead is a head as it was signed.
type SignedHead struct {
	Size     int64
	Signed   string
	SealedAt time.Time
}

const entryColumns = `at, actor_id, act, kind, subject, record_sha256`

// Turn makes sealers take turns. It reports whether it is this one's.
func (l Ledger) Turn(ctx context.Context) (bool, error) {
	var mine bool
	err := l.tx.QueryRow(ctx, `select pg_try_advisory_xact_lock(hashtextextended($1 || ' seal', 0))`, string(l.agency)).Scan(&mine)
	return mine, err
}

// Newest is the head that was signed last; "not found" where none was.
func (l Ledger) Newest(ctx context.Context) (SignedHead, error) {
	return get[SignedHead](ctx, l.scope, `
		select size, signed, sealed_at
		from ledger_head
		where agency_id = $1
		order by size desc
		limit 1`, l.agency)
}

// HeadOver is the smallest signed head that has more leaves than size.
func (l Ledger) HeadOver(ctx context.Context, size int64) (SignedHead, error) {
	return get[SignedHead](ctx, l.scope, `
		select size, signed, sealed_at
		from ledger_head
		where agency_id = $1 and size > $2
		order by size
		limit 1`, l.agency, size)
}

// Heads lists signed heads, the newest first.
func (l Ledger) Heads(ctx context.Context, most int) ([]SignedHead, error) {
	return list[SignedHead](ctx, l.scope, `
		select size, signed, sealed_at
		from ledger_head
		where agency_id = $1
		order by size desc
		limit $2`, l.agency, most)
}

// Hashes are the hashes of nodes, in the order asked for.
func (l Ledger) Hashes(ctx context.Context, ids []ledger.NodeID) ([][]byte, error) {
	levels, places := make([]int, len(ids)), make([]int64, len(ids))
	for i, id := range ids {
		levels[i], places[i] = id.Level, id.Index
	}
	rows, err := l.tx.Query(ctx, `
		select coalesce(n.hash, l.hash)
		from unnest($2::int[], $3::bigint[]) with ordinality as w (level, place, nth)
			left join ledger_node n on n.agency_id = $1 and n.level = w.level and n.place = w.place
			left join ledger_leaf l on w.level = 0 and l.agency_id = $1 and l.position = w.place
		order by w.nth`, l.agency, levels, places)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowTo[[]byte])
}

// Keep gives entries their places, those of the leaves beside them, and adds the subtrees that they complete.
func (l Ledger) Keep(ctx context.Context, waited []Waiting, leaves []Sealed, nodes []ledger.Node) error {
	if err := l.keepLeaves(ctx, waited, leaves); err != nil {
		return err
	}
	if err := l.dropVouchings(ctx); err != nil {
		return err
	}
	levels, places, hashes := make([]int16, len(nodes)), make([]int64, len(nodes)), make([][]byte, len(nodes))
	for i, n := range nodes {
		levels[i], places[i], hashes[i] = int16(n.Level), n.Index, n.Hash
	}
	return l.exec(ctx, `
		insert into ledger_node (agency_id, level, place, hash)
		select $1, * from unnest($2::smallint[], $3::bigint[], $4::bytea[])`,
		l.agency, levels, places, hashes)
}

// keepLeaves moves entries from the waiting list, by their numbers: what they say
// stays as it was written.
func (l Ledger) keepLeaves(ctx context.Context, waited []Waiting, leaves []Sealed) error {
	numbers, positions, hashes, acts := make([]int64, len(leaves)), make([]int64, len(leaves)), make([][]byte, len(leaves)), make([]string, len(leaves))
	for i, s := range leaves {
		numbers[i], positions[i], hashes[i], acts[i] = waited[i].Number, s.Position, s.Hash, s.Act
	}
	return l.change(ctx, `
		with waited as (
			delete from ledger_waiting where agency_id = $1 and number = any($2)
			returning *)
		insert into ledger_leaf (agency_id, position, at, actor_id, act, kind, subject, record_sha256, hash)
		select w.agency_id, p.position, w.at, w.actor_id, p.act, w.kind, w.subject, w.record_sha256, p.hash
		from unnest($2::bigint[], $3::bigint[], $4::bytea[], $5::text[]) as p (number, position, hash, act)
			join waited w on w.number = p.number`,
		l.agency, numbers, positions, hashes, acts)
}

// AddHead keeps a signed head.
func (l Ledger) AddHead(ctx context.Context, h SignedHead) error {
	return l.exec(ctx, `
		insert into ledger_head (agency_id, size, signed, sealed_at)
		values ($1, $2, $3, $4)`,
		l.agency, h.Size, h.Signed, h.SealedAt)
}

// RowKey names a row: its table and its key within the agency.
type RowKey struct{ Kind, Subject string }

// namedRows are the tables and keys of rows, for statements that join them.
func namedRows(keys []RowKey) (kinds, subjects []string) {
	for _, k := range keys {
		kinds, subjects = append(kinds, k.Kind), append(subjects, k.Subject)
	}
	return kinds, subjects
}

// Of lists what the tree has about some rows, row by row as they are named, oldest
// first.
func (l Ledger) Of(ctx context.Context, keys []RowKey) ([]Sealed, error) {
	kinds, subjects := namedRows(keys)
	return list[Sealed](ctx, l.scope, `
		select l.position, l.at, l.actor_id, l.act, l.kind, l.subject, l.record_sha256, l.hash
		from unnest($2::text[], $3::text[]) with ordinality as r (kind, subject, nth)
			join ledger_leaf l on l.agency_id = $1 and l.kind = r.kind and l.subject = r.subject collate "C"
		order by r.nth, l.position`, l.agency, kinds, subjects)
}

// Waits reports whether an entry about one of some rows has no place yet.
func (l Ledger) Waits(ctx context.Context, keys []RowKey) (bool, error) {
	kinds, subjects := namedRows(keys)
	var waits bool
	err := l.tx.QueryRow(ctx, `select exists (
		select from ledger_waiting w join unnest($2::text[], $3::text[]) as r (kind, subject) on w.kind = r.kind and w.subject = r.subject
		where w.agency_id = $1)`, l.agency, kinds, subjects).Scan(&waits)
	return waits, err
}

// EntryBy is a leaf with the name of who did it, as it is now.
type EntryBy struct {
	Position   int64
	At         time.Time
	Actor      string // empty: the house itself, or somebody who is not there any more
	Act        string
	Kind       string
	Subject    string
	Deleted    bool
	RecordHash string // hexadecimal; empty where the row was deleted
}

// Lately lists a page of leaves, newest first: up to limit, after the place that the
// page before gave.
func (l Ledger) Lately(ctx context.Context, after string, limit int) (Page[EntryBy], error) {
	before := int64(math.MaxInt64)
	if after != "" {
		var err error
		if before, err = strconv.ParseInt(after, 10, 64); err != nil || before < 0 {
			return Page[EntryBy]{}, noPlace()
		}
	}
	found, err := list[EntryBy](ctx, l.scope, `
		select l.position, l.at, coalesce(p.name, '') as actor, l.act, l.kind, l.subject,
			l.record_sha256 is null as deleted, coalesce(encode(l.record_sha256, 'hex'), '') as record_hash
		from ledger_leaf l left join person p on p.agency_id = l.agency_id and p.id = l.actor_id
		where l.agency_id = $1 and l.position < $2
		order by l.position desc
		limit $3`, l.agency, before, limit+1)
	return paged(found, limit, func(e EntryBy) string { return strconv.FormatInt(e.Position, 10) }), err
}

// WithWaiting lists the agencies that have entries without a place.
func (d Door) WithWaiting(ctx context.Context) ([]assessment.AgencyID, error) {
	rows, err := d.db.pool.Query(ctx, `select agency_id from door_waiting()`)
	if err != nil {
		return nil, refusal(err)
	}
	ids, err := pgx.CollectRows(rows, pgx.RowTo[assessment.AgencyID])
	return ids, refusal(err)
}
