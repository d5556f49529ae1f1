package postgres

import (
	"context"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/jackc/pgx/v5"
)

// KeptTable is a table whose rows the ledger has entries of.
type KeptTable struct {
	Name   string
	Key    []string // columns of its key within the agency
	ByHash []string // columns that count by their own hash
}

// unkept are the tables of a tenant that the ledger has no entries of: what is
// worked on before it becomes a record, what is worked out from records, what only
// says who is at the door, and the ledger itself.
var unkept = []string{"session", "sign_in_try", "signing_pin_try", "sign_in_pending", "passkey_challenge", "api_token_use", "device_use", "sheet", "sheet_mark", "sheet_undone", "sheet_page", "sheet_drill", "import_draft", "standing_segment", "awaited_signature", "packet", "packet_piece", "reminder_day", "mail_digest", "notice",
	"ledger_waiting", "ledger_vouching", "ledger_leaf", "ledger_node", "ledger_head"}

// writtenOnce are the kept tables whose rows never change once they are there.
var writtenOnce = []string{"licence", "resuscitation_card", "appointment", "appointment_agreement", "appointment_end", "journal",
	"client_contact", "client_supplier", "client_kit_place",
	"client_parameter", "client_equipment", "recheck", "force_proposal", "force_proposal_end", "demonstration", "signature", "withdrawal",
	"reinstatement", "waiver", "exposure", "correction", "evidence", "certificate", "vouching", "survey_access", "survey_access_end", "program_deed",
	"retention", "erasure", "erasure_end", "erased_row", "received_sheet", "paper_page", "shift_rest", "reminder_rule", "practice_pack", "incident", "incident_closing", "in_service_attendance", "skilled_care", "plan_day", "plan_signature",
	"drawing", "neighbour", "neighbour_word",
	"knowledge_item", "knowledge_rule", "knowledge_sitting", "knowledge_answer", "knowledge_result", "knowledge_presence",
	"learning_target", "learning_choice", "learning_days", "teaching_session", "teaching_session_skill", "teaching_session_learner", "teaching_entry", "practice_run", "practice_mark", "practice_run_back",
	"drill_scenario", "demonstration_drill"}

// Once reports whether rows of the table never change once they are there.
func (k KeptTable) Once() bool { return slices.Contains(writtenOnce, k.Name) }

// KeptTables are the tables whose rows the ledger has entries of, by name. They are
// those of the program's own schema, whatever a database says.
var KeptTables = sync.OnceValue(func() []KeptTable {
	var kept []KeptTable
	for _, m := range keptRule.FindAllStringSubmatch(catalogue, -1) {
		k := KeptTable{Name: m[1], Key: strings.Split(m[2], ","), ByHash: []string{}}
		if m[3] != "" {
			k.ByHash = strings.Split(m[3], ",")
		}
		kept = append(kept, k)
	}
	return kept
})

var keptRule = regexp.MustCompile(`(?m)^trigger ledger_enters on public\.(\w+): .* EXECUTE FUNCTION public\.ledger_enter\('([\w,]+)', '([\w,]*)'\)$`)

// Tables lists the kept tables that are there as tables, by name, and those that
// should be kept and are not. Which ones should is the program's to say.
func (a Audit) Tables(ctx context.Context) (kept []KeptTable, missing []string, err error) {
	rows, err := a.tx.Query(ctx, `
		select c.relname::text, g.oid is not null
		from pg_class c
			join pg_namespace n on n.oid = c.relnamespace and n.nspname = 'public'
			left join pg_trigger g on g.tgrelid = c.oid and g.tgname = 'ledger_enters' and g.tgfoid = to_regproc('public.ledger_enter') and g.tgenabled in ('O', 'A')
		where c.relkind = 'r' and (c.relname = 'agency' or exists (select from pg_attribute t where t.attrelid = c.oid and t.attname = 'agency_id'))
			and c.relname <> all($1)`, unkept)
	if err != nil {
		return nil, nil, err
	}
	entered := map[string]bool{} // false: there, and not entered
	var name string
	var on bool
	if _, err = pgx.ForEachRow(rows, []any{&name, &on}, func() error { entered[name] = on; return nil }); err != nil {
		return nil, nil, err
	}
	for _, k := range KeptTables() {
		if _, there := entered[k.Name]; there {
			kept = append(kept, k)
		}
		if !entered[k.Name] {
			missing = append(missing, k.Name)
		}
		delete(entered, k.Name)
	}
	return kept, slices.Sorted(slices.Values(append(missing, slices.Collect(maps.Keys(entered))...))), nil
}
