package integration_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"
)

// Two agencies. Within one, every record's id is the agency's own but for three people, so that every reference of
// every table leads somewhere.
const (
	agencyA = "a0000000-0000-7000-8000-000000000000"
	agencyB = "b0000000-0000-7000-8000-000000000000"
)

// populate puts one record into each table of the schema, as the owner, in the order that the foreign keys ask for.
// It makes values from the columns' types; where a constraint asks for a certain value, particular says which. A table
// added later is filled too, or fails here until particular knows what it needs.
func populate(t *testing.T, c *pgx.Conn, agency string) {
	t.Helper()
	for _, table := range inReferenceOrder(t, c) {
		if filledByTriggers[table] {
			continue
		}
		for _, sql := range insertions(t, c, table) {
			if _, err := c.Exec(t.Context(), sql, agency, person(agency, 2), person(agency, 3)); err != nil {
				t.Fatalf("%s\n%v\nTell the map particular what this table asks for.", sql, err)
			}
		}
	}
}

// filledByTriggers are the tables whose rows come with those of others.
var filledByTriggers = map[string]bool{"awaited_signature": true}

// person is the id of an agency's second or third person; the first has the agency's own.
func person(agency string, n int) string { return fmt.Sprintf("%s%d", agency[:len(agency)-1], n) }

// inReferenceOrder lists the tables so that each comes after those that it refers to.
func inReferenceOrder(t *testing.T, c *pgx.Conn) []string {
	t.Helper()
	var order []string
	done, waiting := map[string]bool{}, lines(t, c, tenantTables+` order by 1`)
	for len(waiting) > 0 {
		var later []string
		for _, table := range waiting {
			ready := true
			for _, on := range lines(t, c, `select confrelid::regclass::text from pg_constraint where contype = 'f' and conrelid = $1::regclass`, table) {
				ready = ready && (done[on] || on == table)
			}
			if ready {
				order, done[table] = append(order, table), true
			} else {
				later = append(later, table)
			}
		}
		if len(later) == len(waiting) {
			t.Fatalf("tables that refer to each other in a circle: %v", later)
		}
		waiting = later
	}
	return order
}

// insertions are the statements for one table, with $1 the agency and $2 and $3 its other people.
func insertions(t *testing.T, c *pgx.Conn, table string) []string {
	t.Helper()
	var names, values []string
	rows, err := c.Query(t.Context(), `
		select a.attname::text, format_type(a.atttypid, null)
		from pg_attribute a
		where a.attrelid = $1::regclass and a.attnum > 0 and not a.attisdropped and a.attgenerated = '' and a.attidentity = ''
			and (a.attnotnull and not a.atthasdef or a.attname = any($2))
		order by a.attnum`, table, particularColumns(table))
	if err != nil {
		t.Fatal(err)
	}
	var name, kind string
	_, err = pgx.ForEachRow(rows, []any{&name, &kind}, func() error {
		names, values = append(names, name), append(values, valueFor(table, name, kind))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	insert := `insert into ` + table + ` (` + strings.Join(names, ", ") + `) select ` + strings.Join(values, ", ") +
		` where ($1::uuid, $2::uuid, $3::uuid) is not null`
	if table != "person" {
		return []string{insert}
	}
	return []string{insert, strings.Replace(insert, "$1::uuid, 'x'", "$2::uuid, 'y'", 1), strings.Replace(insert, "$1::uuid, 'x'", "$3::uuid, 'z'", 1)}
}

func particularColumns(table string) []string {
	columns := []string{}
	for key := range particular {
		if of, column, _ := strings.Cut(key, "."); of == table {
			columns = append(columns, column)
		}
	}
	return columns
}

func valueFor(table, column, kind string) string {
	if v, known := particular[table+"."+column]; known {
		return v
	}
	if v, known := particular["."+column]; known {
		return v
	}
	return byType[kind]
}

var byType = map[string]string{
	"uuid": "$1::uuid", "text": "'x'", "boolean": "false", "smallint": "1", "integer": "1", "bigint": "1", "numeric": "1", "date": "date '2027-01-15'",
	"timestamp with time zone": "timestamptz '2027-01-15 12:00Z'", "bytea": "'x'::bytea", "text[]": "'{x}'::text[]", "jsonb": "'{}'::jsonb",
}

// paperBody is a record of a drill that was typed in from one page of paper with the content 'x'.
const paperBody = `('{"paper": {"pages": [{"number": 1, "sha256": "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881"}]}, "drill": {"scenario": "' || $1::text || '", "scenario_sha256": "597c71d46d51a57188425e774798c3aceeebc5677fa251c22cf729daa7fc540a", "timed": false}}')`

// A device's key, as a SubjectPublicKeyInfo, and what it signed of the text 'sample': the
// key of RFC 6979, appendix A.2.5, and its signature with SHA-256.
const (
	rfcKey    = `decode('3059301306072a8648ce3d020106082a8648ce3d0301070342000460fed4ba255a9d31c961eb74c6356d68c049b8923b61fa6ce669622e60f29fb67903fe1008b8bc99a41ae9e95628bc64f2f1b20c2d7e9f5177a3c294d4462299', 'hex')`
	rfcSigned = `decode('efd48b2aacb6a8fd1140dd9cd45e81d69d2c877b56aaf991c34d0ea84eaf3716f7cb1c942d657c41d436c7a1b6e29f65f3e900dbb9aff4064dc4ab2f843acda8', 'hex')`
)

// particular holds what constraints ask for, by table and column, or by column alone.
var particular = map[string]string{
	".body": "'{}'", ".body_sha256": "sha256('{}')", ".learner_id": "$2::uuid", ".zone": "'UTC'",
	"packet.kind": "'person'", "packet.state": "'waiting'", "packet_piece.file": "'pdf'",
	"agency.code":                      "'a' || left($1::text, 1)",
	"person_role.role":                 "'educator'",
	"credential.password_hash":         "'$argon2id$x'",
	"session.token_hash":               "sha256('x')",
	"passkey_owner.handle":             "sha256(convert_to($1::text, 'UTF8'))",
	"passkey_challenge.challenge_hash": "sha256('x')", "passkey_challenge.purpose": "'sign-in'", "passkey_challenge.bound": "''::bytea",
	"recovery_code.code_hash": "sha256('x')", "sign_in_pending.token_hash": "sha256('x')",
	"resuscitation_card.issued_on":    "date '2027-01-01'",
	"appointment_agreement.agreed_by": "$3::uuid",
	"appointment.person_id":           "$2::uuid",
	"secret_link.purpose":             "'reset'",
	"secret_link.token_hash":          "sha256($1::text::bytea)",
	"secret_link.expires_at":          "timestamptz '2027-01-16 12:00Z'",
	"secret_link.used_at":             "timestamptz '2027-01-15 13:00Z'",
	"vouching.vouched_by":             "$2::uuid",
	"signing_pin.pin_hash":            "'$argon2id$x'",
	"client.code":                     "'A1'",
	"skill.scope":                     "'general'",
	"revision.state":                  "'draft'",
	"lesson.state":                    "'draft'", "lesson.language": "'en'", "lesson.written_in": "'en'", "lesson.source_sha256": "sha256('x')", "drawing.svg_sha256": "sha256('x')",
	"neighbour_word.word": "'agreed'", "neighbour_word.said_by": "$2::uuid", "neighbour.house": "$1::uuid",
	"force_proposal_end.verdict": "'agreed'", "force_proposal_end.ended_by": "$2::uuid",
	"demonstration.outcome": "'competent'",
	"signature.part":        "'observer'",
	"signature.licence":     "'x'",
	"withdrawal.until":      "'reinstated'",
	"exposure.kind":         "'practice'",
	"correction.of_kind":    "'demonstration'",
	"evidence.word":         "'met'",
	"plan_line.says":        "''", "plan_day.meeting_on": "date '2027-01-15'", "criterion.says": "'clinician'",
	"plan_shift.ends_at": "timestamptz '2027-01-15 20:00Z'",
	"shift.ends_at":      "timestamptz '2027-01-15 20:00Z'", "shift.kind": "'nurse'", "shift.short_rest": "'emergency'",
	"shift.person_id": "$2::uuid", "shift_pattern.person_id": "$2::uuid", "shift_pattern_exception.person_id": "$3::uuid", "shift_rest.hours": "8",
	"reminder_rule.days": "'{7}'::smallint[]", "mail_digest.state": "'waiting'", "mail_digest.message_id": "$1::text", "feed.secret_hash": "sha256(convert_to($1::text, 'UTF8'))",
	"shift_pattern.weekdays": "'{1,7}'::smallint[]", "shift_pattern.kind": "''", "shift_pattern.short_rest": "''", "shift_pattern_exception.short_rest": "''",
	"visit_availability.days_off": "'{6,7}'::smallint[]", "visit_availability.per_day": "4", "visit_availability.base_id": "$1::uuid", "visit_days_off.through_on": "date '2027-01-15'",
	"travel_time.base_id": "$1::uuid", "travel_time.minutes": "20",
	"practice_pack.incident_withdraws": "'skill alone'", "practice_pack.in_service_year": "'calendar year'", "practice_pack.in_service_minutes": "720", "incident.withdraws": "'nothing'",
	"learning_target.goal": "'other'", "learning_choice.teacher_id": "$2::uuid", "teaching_session.corrects": "null", "teaching_session.why": "''", "teaching_session_learner.shown": "true",
	"practice_run.helper_id": "$2::uuid", "practice_mark.went": "'alone'",
	"withdrawal.incident_id": "null", "in_service_session.minutes": "60", "supervisory_visit.how": "'on site'", "supervisory_visit.person_id": "$3::uuid",
	"knowledge_item.body":  `'{"id":"x","kind":"single","critical":false,"difficulty":1,"source":"x","right":[1],"en":{"ask":"x","options":["y","z"],"teach":"x"}}'`,
	"knowledge_rule.asked": "'to learn'", "knowledge_result.passed": "true", "knowledge_sitting.items": "array[$1::uuid]", "knowledge_answer.chosen": "'{1}'::smallint[]",
	"knowledge_result.missed": "'{}'::smallint[]", "knowledge_result.critical": "'{}'::smallint[]", "knowledge_sitting.person_id": "$2::uuid",
	"drill_scenario.body": `'{"source":"x","en":{"title":"x","read":"x","then":"x","recognise":"x","act":"x","call":"x"},"es":{"title":"x","read":"x","then":"x","recognise":"x","act":"x","call":"x"}}'`,
	"sheet_drill.seed":    "''", "sheet_drill.drawn_of": "'{}'::uuid[]", "demonstration_drill.seed": "''", "demonstration_drill.drawn_of": "'{}'::uuid[]",
	"client_contact.role":    "'hospital team'",
	"certificate.code":       "'ABCDEFGH2345'",
	"certificate.rests_on":   `array[$1::uuid]`,
	"certificate.pdf_sha256": "sha256('x')",
	"api_token.token_hash":   "sha256(convert_to($1::text, 'UTF8'))",
	"api_token.expires_at":   "timestamptz '2027-01-16 12:00Z'",
	"demonstration.body":     paperBody, "demonstration.body_sha256": "sha256(convert_to(" + paperBody + ", 'UTF8'))", "signature.body_sha256": "sha256(convert_to(" + paperBody + ", 'UTF8'))",
	"paper_page.content_sha256": "sha256('x')", "paper_page.media_type": "'image/png'",
	"import_draft.kind": "'people'", "carried_paper.content_sha256": "sha256('x')", "carried_paper.media_type": "'image/png'",
	"device.public_key":    rfcKey,
	"received_sheet.sheet": "'sample'", "received_sheet.sheet_sha256": "sha256('sample')", "received_sheet.signature": rfcSigned, "received_sheet.outcome": "'competent'",
	"erasure.person_id":   "$2::uuid",
	"erasure_end.verdict": "'carried out'", "erasure_end.ended_by": "$3::uuid",
	"erased_row.kind": "'person'", "erased_row.subject": "$2::text",
	"erased_row.was_sha256":      "(select w.record_sha256 from ledger_waiting w where w.agency_id = $1 and w.kind = 'person' and w.subject = $2::text)",
	"ledger_leaf.hash":           "sha256('x')",
	"survey_access.whole":        "true",
	"survey_access.people":       "'{}'::uuid[]",
	"survey_access.clients":      "'{}'::uuid[]",
	"survey_access.person_id":    "$2::uuid",
	"survey_access.to_at":        "timestamptz '2027-01-16 12:00Z'",
	"ledger_vouching.written_in": "pg_current_xact_id()",
	"ledger_vouching.tag":        "sha256('x')",
	"ledger_node.hash":           "sha256('x')",
}
