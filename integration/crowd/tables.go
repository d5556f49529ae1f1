package crowd

import (
	"context"
	"fmt"
	"testing"

	"github.com/jackc/pgx/v5"
)

// tables are rows that wait to be written, by table.
type tables map[string][][]any

// columns are what is written of each table, in the order that foreign keys ask for. What the
// office begins to write goes in here as well, or a crowd is no agency like others.
var columns = []struct {
	table string
	names []string
}{
	{"person", []string{"agency_id", "id", "name", "kind", "relation", "email", "language", "created_at", "left_on"}},
	{"person_role", []string{"agency_id", "person_id", "role", "given_at", "given_by"}},
	{"licence", []string{"agency_id", "id", "person_id", "kind", "number", "through_on", "recorded_at", "recorded_by"}},
	{"resuscitation_card", []string{"agency_id", "id", "person_id", "issuer", "issued_on", "through_on", "recorded_at", "recorded_by"}},
	{"appointment", []string{"agency_id", "id", "person_id", "skills", "from_on", "through_on", "founding", "evidence", "proposed_by", "proposed_at"}},
	{"appointment_agreement", []string{"agency_id", "appointment_id", "agreed_by", "agreed_at"}},
	{"client", []string{"agency_id", "id", "code", "first_name", "created_at", "left_on"}},
	{"client_equipment", []string{"agency_id", "id", "client_id", "kind", "type", "from_on", "recorded_at", "recorded_by"}},
	{"care_team", []string{"agency_id", "id", "client_id", "person_id", "from_on", "through_on", "added_at", "added_by"}},
	{"requirement", []string{"agency_id", "id", "skill_id", "kind", "client_id", "equipment_kind", "from_on", "through_on", "set_at", "set_by"}},
	{"demonstration", []string{"agency_id", "id", "learner_id", "observer_id", "skill_id", "revision_id", "revision", "client_id", "place", "real_client", "formal", "equipment",
		"performed_at", "recorded_at", "outcome", "score", "body", "body_sha256"}},
	{"signature", []string{"agency_id", "demonstration_id", "part", "person_id", "printed_name", "licence", "meaning", "signed_at", "zone", "body_sha256"}},
	{"withdrawal", []string{"agency_id", "id", "person_id", "skill_id", "client_id", "at", "until", "reason", "signed_by", "printed_name"}},
	{"reinstatement", []string{"agency_id", "id", "withdrawal_id", "at", "reason", "signed_by", "printed_name"}},
	{"waiver", []string{"agency_id", "id", "person_id", "skill_id", "client_id", "from_on", "through_on", "reason", "at", "signed_by", "printed_name"}},
	{"exposure", []string{"agency_id", "id", "person_id", "skill_id", "client_id", "kind", "on_day", "recorded_at", "recorded_by"}},
	{"correction", []string{"agency_id", "id", "of_kind", "of_id", "at", "reason", "signed_by", "printed_name"}},
}

// add has a row wait, its values in the order of columns.
func (t tables) add(table string, values ...any) { t[table] = append(t[table], values) }

// write copies all that waits, in one transaction as the owner.
func (c *Crowd) write(tb testing.TB) {
	tb.Helper()
	err := pgx.BeginFunc(tb.Context(), c.Connect(tb), func(tx pgx.Tx) error {
		if err := c.quietly(tb.Context(), tx); err != nil {
			return err
		}
		for _, of := range columns {
			if _, err := tx.CopyFrom(tb.Context(), pgx.Identifier{of.table}, of.names, pgx.CopyFromRows(c.tables[of.table])); err != nil {
				return fmt.Errorf("copy %s: %w", of.table, err)
			}
			c.Rows[of.table] = len(c.tables[of.table])
		}
		_, err := tx.Exec(tb.Context(), awaited)
		return err
	})
	if err != nil {
		tb.Fatalf("write the crowd: %v", err)
	}
	c.tables = nil
	if err := analyze(tb.Context(), c.Connect(tb)); err != nil {
		tb.Fatalf("analyze the crowd's tables: %v", err)
	}
}

// quietly leaves triggers and references out, which take most of the time, where that is
// wanted and the owner may ask for it. TestACrowdIsWhatTheSchemaTakes writes one with them.
func (c *Crowd) quietly(ctx context.Context, tx pgx.Tx) error {
	var may bool
	if err := tx.QueryRow(ctx, `select rolsuper from pg_roles where rolname = current_user`).Scan(&may); err != nil {
		return fmt.Errorf("ask what the owner may: %w", err)
	}
	if c.Size.Entered || !may {
		return nil
	}
	_, err := tx.Exec(ctx, `set local session_replication_role = replica`)
	return err
}

// awaited is what the triggers make of records and signatures, where they were left out.
const awaited = `
	insert into awaited_signature (agency_id, demonstration_id, part)
	select d.agency_id, d.id, x.part
	from demonstration d cross join (values ('observer'), ('learner')) x (part)
	where not exists (select from signature g where g.agency_id = d.agency_id and g.demonstration_id = d.id and g.part = x.part)
	on conflict do nothing`

// analyze tells the planner what is there, as the server does by itself after a while.
func analyze(ctx context.Context, conn *pgx.Conn) error {
	_, err := conn.Exec(ctx, `vacuum analyze`)
	return err
}
