package integration_test

import (
	"regexp"
	"strings"
	"testing"

	"wellshown/integration/testdb"
)

// notErased are columns of text or bytes that an erasure leaves, with why.
var notErased = map[string]string{
	"agency": "of nobody", "skill": "of nobody", "revision": "a checklist, of nobody", "recheck": "of nobody", "neighbour": "an agency elsewhere, of nobody", "neighbour_word": "a word of the house, and why an agency is no neighbour any more, of nobody", "force_proposal": "a checklist and what it was reviewed against, of nobody", "force_proposal_end": "a word of the house, and what is wrong with a checklist, of nobody", "requirement": "words of the house",
	"lesson": "a lesson, of nobody: who signed that they reviewed it, and whom they name as its translator, belongs to what families are taught", "drawing": "of nobody",
	"journal": "words of the house and ids", "person_role": "words of the house", "care_team": "ids and days", "plan_shift": "ids and times", "shift": "words of the house, ids and times", "shift_pattern": "the same", "shift_pattern_exception": "the same", "skills_day": "what a day is called and where it is, of nobody", "visit_base": "what a place is called that educators start from, of nobody", "program_deed": "ids",
	"ledger_waiting": "words of the house, ids and hashes", "ledger_leaf": "the same", "ledger_node": "hashes", "ledger_vouching": "codes over hashes", "ledger_head": "hashes and a signature",
	"standing_segment":  "a word of the house: nobody's standing changes",
	"awaited_signature": "words of the house",
	"mail_digest":       "words of the house, a hash, and what a mail server said, without addresses", "notice": "a word of the house, ids and days", "feed": "a hash of random",
	"retention": "why records are kept, of nobody", "erasure": "why it was asked: the office refuses the name in it", "erasure_end": "a word of the house", "erased_row": "ids and hashes",
	"device.public_key": "a random number that proves sheets", "device_use": "ids and times", "received_sheet.sheet_sha256": "the hash of what was signed", "received_sheet.signature": "of that hash", "received_sheet.outcome": "a verdict", "received_sheet.score": "a verdict",
	"paper_page.media_type": "a kind of file", "paper_page.content_sha256": "the hash of what was attached",
	"import_draft": "gone with its import, or after a day",
	"api_token":    "of a program", "api_token_use": "of a program",
	"client_equipment": "models of devices, which standings are folded from", "demonstration.equipment": "the same", "demonstration.outcome": "a verdict", "demonstration.score": "a verdict", "demonstration.body_sha256": "the hash that was signed",
	"signature.part": "a word of the house", "signature.meaning": "what the signature means", "signature.zone": "a time zone", "signature.body_sha256": "the hash that was signed",
	"secret_link": "words of the house and a hash of random", "person.kind": "a word of the house", "licence.kind": "of the trade", "appointment.skills": "codes",
	"client_contact.role": "a word of the house", "client_supplier.kind": "a kind of equipment", "client_supplier.checked_by": "a word of the house", "client_supplier.checked_when": "the same",
	"client_parameter.name": "of the checklist", "client_parameter.unit": "a unit", "criterion.kind": "a word of the house", "criterion.skills": "codes", "evidence.word": "a word of the house",
	"plan_line": "a template, of nobody", "criterion.says": "a word of the house", "criterion.licence": "of the trade", "criterion.source": "of the template", "plan_signature.meaning": "what the signature means", "plan_signature.body_sha256": "the hash that was signed",
	"knowledge_item": "what everybody is asked, of nobody", "knowledge_rule": "a word of the house", "knowledge_sitting": "a language and what random put in order",
	"knowledge_answer": "a number with its unit, as it was typed: by them alone an answer is judged again",
	"drill_scenario":   "what is read out in drills, of nobody", "demonstration_drill": "a seed that drew a scenario",
	"practice_pack": "words of the house", "incident.withdraws": "a word of the house", "supervisory_visit.how": "a word of the house",
	"in_service_session": "what training many took part in, and by whom it was given: a name typed into a text about others",
	"withdrawal.until":   "a word of the house", "exposure.kind": "a word of the house", "correction.of_kind": "a word of the house",
	"learning_target.goal": "a word of the house", "practice_mark.went": "a word of the house",
	"certificate.code": "so that whoever has the paper is told", "certificate.pdf_sha256": "the hash of what was issued", "survey_access.people": "ids",
}

// gone are tables whose rows an erasure deletes besides those of its plan.
var gone = map[string]bool{"session": true, "sign_in_try": true, "sign_in_pending": true, "passkey_challenge": true, "sheet": true, "sheet_mark": true, "sheet_undone": true, "sheet_page": true, "sheet_drill": true, "signing_pin_try": true, "packet": true, "packet_piece": true}

// Every column that can hold words is in the plan of an erasure, or somebody has said
// why it stays (no published source: it is the schema that is walked).
func TestAnErasureReachesEveryText(t *testing.T) {
	t.Parallel()
	db := connectTo(t, testdb.New(t).OwnerURL)
	taken := map[string]bool{}
	sets := regexp.MustCompile(`(?:^|,)\s*([a-z_]+) = `)
	for _, line := range lines(t, db, `select kind || '|' || coalesce(sets, '*') from erasure_plan()`) {
		table, set, _ := strings.Cut(line, "|")
		taken[table] = taken[table] || set == "*"
		for _, m := range sets.FindAllStringSubmatch(set, -1) {
			taken[table+"."+m[1]] = true
		}
	}
	columns := lines(t, db, `select c.relname || '.' || a.attname from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
		where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and c.relname not like 'goose%' and format_type(a.atttypid, null) in ('text', 'text[]', 'jsonb', 'bytea') order by 1`)
	if len(columns) < 80 {
		t.Fatalf("only %d columns: this looks at the wrong thing", len(columns))
	}
	for _, column := range columns {
		table, _, _ := strings.Cut(column, ".")
		if !taken[column] && !taken[table] && !gone[table] && notErased[column] == "" && notErased[table] == "" {
			t.Errorf("%s can hold words about somebody, and no erasure takes them: add it to erasure_plan() in a migration, or say in notErased why it stays", column)
		}
	}
}
