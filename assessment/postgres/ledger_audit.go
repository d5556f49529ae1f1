package postgres

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment/ledger"
)

// Audit reads all that the ledger and the records have, for comparing them. It calls
// no function of the database's own making; what stands between it and the rows
// (row security with app_agency, which tables and columns there are) is the
// database's, and held against the program's own list first (Door.Differences).
type Audit struct{ scope }

// Patient lets statements of this transaction take as long as they need, and reads
// the tree piece by piece by its keys, whatever the server believes of its size.
func (a Audit) Patient(ctx context.Context) error {
	return a.exec(ctx, `select set_config('statement_timeout', '0', true), set_config('bytea_output', 'hex', true), set_config('timezone', 'UTC', true),
		set_config('enable_seqscan', 'off', true), set_config('jit', 'off', true)`)
}

// Whole is for what reads whole tables.
func (a Audit) Whole(ctx context.Context) error {
	return a.exec(ctx, `select set_config('enable_seqscan', 'on', true), set_config('enable_nestloop', 'off', true), set_config('work_mem', '32MB', true)`)
}

// Leaves are the leaves from one position up to before another.
func (a Audit) Leaves(ctx context.Context, from, to int64) ([]Sealed, error) {
	return list[Sealed](ctx, a.scope, `
		select position, `+entryColumns+`, hash
		from ledger_leaf
		where agency_id = $1 and position >= $2 and position < $3
		order by position`, a.agency, from, to)
}

// Nodes are the subtrees that become complete while a tree grows from one size to
// another.
func (a Audit) Nodes(ctx context.Context, from, to int64) ([]ledger.Node, error) {
	rows, err := a.tx.Query(ctx, `
		select n.level, n.place, n.hash
		from generate_series(1, 62) as v (level)
			cross join lateral (select level, place, hash from ledger_node
				where agency_id = $1 and level = v.level and place >= $2::bigint >> v.level and place < $3::bigint >> v.level
				offset 0) n -- level by level by its key: a join would read all nodes for each piece
		order by (n.place + 1) << n.level, n.level`, a.agency, from, to)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, func(row pgx.CollectableRow) (ledger.Node, error) {
		var n ledger.Node
		err := row.Scan(&n.Level, &n.Index, &n.Hash)
		return n, err
	})
}

// Heads are the heads signed for sizes above one and up to another.
func (a Audit) Heads(ctx context.Context, above, upTo int64) ([]SignedHead, error) {
	return list[SignedHead](ctx, a.scope, `
		select size, signed, sealed_at
		from ledger_head
		where agency_id = $1 and size > $2 and size <= $3
		order by size`, a.agency, above, upTo)
}

// LedgerCounts is how much there is of each part of the ledger.
type LedgerCounts struct{ Leaves, Nodes, Heads, Waiting, Top int64 }

// Counts counts. Top is how many leaves there must be: one more than the last
// position, and as many as were ever signed for.
func (a Audit) Counts(ctx context.Context) (LedgerCounts, error) {
	return get[LedgerCounts](ctx, a.scope, `
		select (select count(*) from ledger_leaf where agency_id = $1) as leaves,
			(select count(*) from ledger_node where agency_id = $1) as nodes,
			(select count(*) from ledger_head where agency_id = $1) as heads,
			(select count(*) from ledger_waiting where agency_id = $1) as waiting,
			greatest((select max(position) + 1 from ledger_leaf where agency_id = $1), (select max(size) from ledger_head where agency_id = $1), 0) as top`, a.agency)
}

// Compared is a row beside the newest entry about it.
type Compared struct {
	Subject string
	Entered bool
	Entry   []byte // nil: the entry says that the row was deleted
	Row     []byte // JSON, each column a text, without what is null; nil: there is no such row
}

// Compare goes through the rows of a table and what the ledger has of them.
func (a Audit) Compare(ctx context.Context, k KeptTable, look func(Compared) error) error {
	rows, err := a.tx.Query(ctx, comparison(k), a.agency, k.Name, k.ByHash)
	if err != nil {
		return err
	}
	var c Compared
	var row *string
	_, err = pgx.ForEachRow(rows, []any{&c.Subject, &c.Entered, &c.Entry, &row}, func() error {
		c.Row = nil
		if row != nil {
			c.Row = []byte(*row)
		}
		return look(c)
	})
	return err
}

// Row is one row as the ledger hashes it; "not found" where there is none.
func (a Audit) Row(ctx context.Context, k KeptTable, subject string) ([]byte, error) {
	sql, args, whole := a.row(k, subject)
	if !whole {
		return nil, refusal(pgx.ErrNoRows)
	}
	var text string
	err := a.tx.QueryRow(ctx, sql, args...).Scan(&text)
	return []byte(text), refusal(err)
}

// row asks for one row; false where the key is not one of that table.
func (a Audit) row(k KeptTable, subject string) (string, []any, bool) {
	args, where := []any{a.agency, k.ByHash}, ""
	parts := strings.Split(subject, "/")
	if len(parts) != len(k.Key) {
		return "", nil, false
	}
	for i, column := range k.Key {
		args = append(args, parts[i])
		where += fmt.Sprintf(` and t.%s = $%d`, pgx.Identifier{column}.Sanitize(), len(args))
	}
	return `select ` + hashed("to_jsonb(t)", "$2") + ` from ` + pgx.Identifier{"public", k.Name}.Sanitize() + ` t where t.` + k.tenant() + ` = $1` + where, args, true
}

func (k KeptTable) tenant() string {
	if k.Name == "agency" {
		return "id"
	}
	return "agency_id"
}

// hashed is a row as JSON, each column a text, without what is null; what counts by
// its hash is its hash.
func hashed(row, byHash string) string {
	return `(select jsonb_object_agg(key, case when key = any(` + byHash + `) then encode(sha256(convert_to(value, 'UTF8')), 'hex') else value end) from jsonb_each_text(` + row + `) where value is not null)::text`
}

func comparison(k KeptTable) string {
	var key []string
	for _, column := range k.Key {
		key = append(key, `(d.doc ->> '`+column+`')`)
	}
	return `
		with entered as (
			select distinct on (subject) subject, record_sha256
			from (select 0 as waits, position as nth, subject, record_sha256 from ledger_leaf where agency_id = $1 and kind = $2
				union all
				select 1, number, subject collate "C", record_sha256 from ledger_waiting where agency_id = $1 and kind = $2) e
			order by subject, waits desc, nth desc),
		there as (
			select ` + strings.Join(key, ` || '/' || `) + ` collate "C" as subject,
				` + hashed("d.doc", "$3") + ` as doc
			from ` + pgx.Identifier{"public", k.Name}.Sanitize() + ` t, lateral (select to_jsonb(t) as doc offset 0) d
			where t.` + k.tenant() + ` = $1)
		select coalesce(e.subject, t.subject), e.subject is not null, e.record_sha256, t.doc
		from entered e full join there t on t.subject = e.subject`
}

// Repeated are subjects of a table whose rows never change that have more entries
// than one and one for each erasure of the row.
func (a Audit) Repeated(ctx context.Context, table string, most int) ([]string, error) {
	rows, err := a.tx.Query(ctx, `
		select l.subject
		from (select subject, position as nth from ledger_leaf where agency_id = $1 and kind = $2
				union all
				select subject collate "C", 1::bigint << 62 from ledger_waiting where agency_id = $1 and kind = $2) l
			left join (select subject collate "C" as subject, count(*) as times from erased_row where agency_id = $1 and kind = $2 group by 1) r on r.subject = l.subject
		group by l.subject
		having count(*) > 1 + coalesce(min(r.times), 0)
		order by min(l.nth), l.subject
		limit $3`, a.agency, table, most)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowTo[string])
}

// Acts counts all entries, waiting ones too, by what was done.
func (a Audit) Acts(ctx context.Context) (map[string]int64, error) {
	type row struct {
		Act   string
		Count int64
	}
	rows, err := list[row](ctx, a.scope, `
		select act, sum(count)::bigint as count
		from (select act, count(*) from ledger_leaf where agency_id = $1 group by act
			union all
			select act, count(*) from ledger_waiting where agency_id = $1 group by act) e
		group by act`, a.agency)
	acts := map[string]int64{}
	for _, r := range rows {
		acts[r.Act] = r.Count
	}
	return acts, err
}

// BegunLate lists entries of rows that are said to have been there before their table
// was kept, and came when it was kept already; act is what such entries are called.
func (a Audit) BegunLate(ctx context.Context, act string, most int) ([]Entry, error) {
	return list[Entry](ctx, a.scope, `
		with entries as (
			select 0 as waits, position as nth, `+entryColumns+` from ledger_leaf where agency_id = $1
			union all
			select 1, number, `+entryColumns+` from ledger_waiting where agency_id = $1),
		kept as (
			select distinct on (kind) kind, waits, nth from entries where act <> $2 order by kind, waits, nth)
		select `+prefixed("e", entryColumns)+`
		from entries e join kept k on k.kind = e.kind and (k.waits, k.nth) < (e.waits, e.nth)
		where e.act = $2
		order by e.waits, e.nth
		limit $3`, a.agency, act, most)
}

// prefixed names columns of one table of a statement.
func prefixed(table, columns string) string {
	return table + "." + strings.ReplaceAll(columns, ", ", ", "+table+".")
}

// By lists entries by what was done, oldest first.
func (a Audit) By(ctx context.Context, act string, most int) ([]Entry, error) {
	return list[Entry](ctx, a.scope, `
		select `+entryColumns+` from ledger_leaf where agency_id = $1 and act = $2
		union all
		select `+entryColumns+` from ledger_waiting where agency_id = $1 and act = $2
		order by 1
		limit $3`, a.agency, act, most)
}

// RowsOf are some rows as the ledger hashes them, asked for at once; what there is no more
// is left out.
func (a Audit) RowsOf(ctx context.Context, keys []RowKey) (map[RowKey][]byte, error) {
	rows := map[RowKey][]byte{}
	batch := &pgx.Batch{}
	for _, key := range keys {
		i := slices.IndexFunc(KeptTables(), func(k KeptTable) bool { return k.Name == key.Kind })
		if i < 0 {
			continue
		}
		sql, args, whole := a.row(KeptTables()[i], key.Subject)
		if !whole {
			continue
		}
		batch.Queue(sql, args...).Query(func(found pgx.Rows) error {
			texts, err := pgx.CollectRows(found, pgx.RowTo[string])
			if len(texts) == 1 {
				rows[key] = []byte(texts[0])
			}
			return err
		})
	}
	return rows, refusal(a.tx.SendBatch(ctx, batch).Close())
}
