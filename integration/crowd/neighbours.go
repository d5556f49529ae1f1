package crowd

import (
	"fmt"
	"testing"

	"github.com/jackc/pgx/v5"
)

// tenants are the tables whose rows a neighbour has too: what standings, days, shifts and
// visits are read from. What is secret or unique for the whole database is left out.
const tenants = `
	select c.table_name, string_agg(quote_ident(c.column_name), ', ' order by c.ordinal_position)
	from information_schema.columns c
	join information_schema.tables t on t.table_schema = c.table_schema and t.table_name = c.table_name and t.table_type = 'BASE TABLE'
	where c.table_schema = 'public' and c.is_generated = 'NEVER' and c.column_name <> 'agency_id'
		and exists (select from information_schema.columns a where a.table_schema = 'public' and a.table_name = c.table_name and a.column_name = 'agency_id')
		and c.table_name !~ '^(ledger|river|session|sign_in|secret_link|credential|passkey|one_time|recovery|api_token|certificate|device|journal|signing)'
	group by c.table_name order by c.table_name`

// Neighbours gives the database so many more agencies, each with the same rows under an
// agency of its own, for benchmarks of how little one agency's day costs beside others. Nobody
// can sign in there. The owner must be allowed to leave triggers out.
func (c *Crowd) Neighbours(tb testing.TB, n int) {
	tb.Helper()
	conn := c.Connect(tb)
	rows, err := conn.Query(tb.Context(), tenants)
	if err != nil {
		tb.Fatalf("list the tables of an agency: %v", err)
	}
	type table struct{ Name, Columns string }
	tables, err := pgx.CollectRows(rows, pgx.RowToStructByPos[table])
	if err != nil {
		tb.Fatalf("list the tables of an agency: %v", err)
	}
	for i := range n {
		err := pgx.BeginFunc(tb.Context(), conn, func(tx pgx.Tx) error {
			if _, err := tx.Exec(tb.Context(), `set local session_replication_role = replica`); err != nil {
				return err
			}
			other := fmt.Sprintf("018cc8e6-ffff-7000-8000-%012x", i)
			if _, err := tx.Exec(tb.Context(), `insert into agency select (jsonb_populate_record(a, jsonb_build_object('id', $2::text, 'code', 'n' || $3::text))).* from agency a where id = $1`, c.Admin.Agency, other, fmt.Sprint(i)); err != nil {
				return fmt.Errorf("found a neighbour: %w", err)
			}
			for _, t := range tables {
				copied := fmt.Sprintf(`insert into %s (agency_id, %s) select $2, %s from %s where agency_id = $1`, t.Name, t.Columns, t.Columns, t.Name)
				if _, err := tx.Exec(tb.Context(), copied, c.Admin.Agency, other); err != nil {
					return fmt.Errorf("copy %s: %w", t.Name, err)
				}
			}
			return nil
		})
		if err != nil {
			tb.Fatalf("neighbour %d: %v", i, err)
		}
	}
	if err := analyze(tb.Context(), conn); err != nil {
		tb.Fatalf("analyze the tables: %v", err)
	}
}
