package office_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5/pgconn"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// An erasure is refused in plain words where it is too early, where somebody is still
// here, where one person would do it alone; and in the database too.
func TestErasureRefused(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	ask := func(person assessment.PersonID, client assessment.ClientID, reason string) error {
		_, err := p.Office.AskErasure(t.Context(), p.Admin, office.ErasureForm{Person: person, Client: client, Reason: reason})
		return err
	}
	wantRefusal(t, ask(p.nurse.Person, "", "Asked."), fault.Refused, "keeps everything for ever")
	wantAtField(t, p.Office.SetRetention(t.Context(), p.Admin, office.RetentionForm{Years: "5", Reason: "Less."}), "years", "6 years at least")
	wantAtField(t, p.Office.SetRetention(t.Context(), p.Admin, office.RetentionForm{Years: "7", Reason: "  "}), "reason", "Say why")
	p.keep(t, "8")
	wantRefusal(t, ask(p.nurse.Person, "", "Asked."), fault.Refused, "kept for 8 years, through 2035-02-01")
	p.keep(t, "6")
	wantRefusal(t, ask(p.stays.Person, "", "Asked."), fault.Refused, "still with the agency")
	wantRefusal(t, ask("", p.other, "Asked."), fault.Refused, "still served")
	wantRefusal(t, ask("", "01941f29-7c3a-7d52-8000-000000000000", "Asked."), fault.NotFound, "")
	wantAtField(t, ask("", "", "Asked."), "about", "Choose")
	wantAtField(t, ask(p.nurse.Person, "", "Ms osterkamp wrote."), "reason", "Leave the name out")
	_, err := p.Office.AskErasure(t.Context(), p.Coordinator, office.ErasureForm{Person: p.nurse.Person, Reason: "Asked."})
	wantRefusal(t, err, fault.Forbidden, "")

	id := p.ask(t, p.nurse.Person, "")
	wantRefusal(t, ask(p.nurse.Person, "", "Once more."), fault.Conflict, "waits for a second person")
	carry := func(by assessment.Actor, proof office.Proof) error {
		_, err := p.Office.CarryOutErasure(t.Context(), by, id, proof)
		return err
	}
	wantRefusal(t, carry(p.Admin, ward.Proof), fault.Refused, "yourself")
	wantRefusal(t, carry(p.Coordinator, ward.Proof), fault.Forbidden, "")
	wantAtField(t, carry(p.second, office.ByPassword("not this one at all")), "password", "does not match")
	addPasskey(t, p.Ward, p.second)
	if q := asked(t, carry(p.second, askFirst)); !strings.HasPrefix(q.Says, "Erase for good what is held about "+p.nurse.Name+", as Ada Minton asked: ") {
		t.Errorf("asked to sign %q", q.Says)
	}
	if left := holding(t, asOwner(t, p.Ward), "Wendeline"); len(left) < 10 {
		t.Errorf("something was erased all the same: %v are left", left)
	}
	p.keep(t, "")
	wantRefusal(t, carry(p.second, ward.Proof), fault.Refused, "keeps everything for ever")

	if v := must(p.Office.DropErasure(t.Context(), p.second, id))(t); v.Verdict != assessment.NotErased {
		t.Errorf("%+v", v)
	}
	p.keep(t, "6")
	wantRefusal(t, carry(p.second, ward.Proof), fault.Conflict, "decided already")
	id = p.ask(t, p.nurse.Person, "")
	if v := must(p.Office.DropErasure(t.Context(), p.Admin, id))(t); v.Verdict != assessment.TakenBackAsk {
		t.Errorf("%+v", v)
	}
}

// An administrator who made the link by which another came to a password could act
// for both: somebody else vouches first.
func TestNoErasureByOnePersonWithTwoPasswords(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	p.keep(t, "6")
	id := p.ask(t, p.nurse.Person, "")
	wantNone(t, p.Office.TakeLink(t.Context(), office.LinkForm{Token: p.Link(p.Admin, p.second), Password: "nine tall ladders lean"}))
	_, err := p.Office.CarryOutErasure(t.Context(), p.second, id, office.ByPassword("nine tall ladders lean"))
	wantRefusal(t, err, fault.Refused, "vouch")
	must(p.Office.DropErasure(t.Context(), p.Admin, id))(t)
	asked := must(p.Office.AskErasure(t.Context(), p.second, office.ErasureForm{Person: p.nurse.Person, Reason: "Asked."}))(t)
	_, err = p.Office.CarryOutErasure(t.Context(), p.Admin, asked.ID, ward.Proof)
	wantRefusal(t, err, fault.Refused, "vouch")
}

// The database holds to it by itself, whatever the program does.
func TestTheSchemaRefusesToEraseAlone(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	p.keep(t, "6")
	id := p.ask(t, p.nurse.Person, "")
	service := connected(t, p.DB.ServiceURL)
	run := func(statements ...string) string {
		t.Helper()
		tx := must(service.Begin(t.Context()))(t)
		defer tx.Rollback(t.Context())
		must(tx.Exec(t.Context(), `select set_config('app.agency_id', $1, true), set_config('app.at', $2, true)`, string(p.Admin.Agency), p.Now().Format(time.RFC3339Nano)))(t)
		for _, sql := range statements {
			if _, err := tx.Exec(t.Context(), sql); err != nil {
				var refused *pgconn.PgError
				if !errors.As(err, &refused) {
					t.Fatal(err)
				}
				return refused.ConstraintName + refused.Code
			}
		}
		return ""
	}
	end := func(of assessment.ErasureID, verdict string, by assessment.Actor) string {
		return fmt.Sprintf(`insert into erasure_end (agency_id, erasure_id, verdict, ended_by, ended_at) values ('%s', '%s', '%s', '%s', '%s')`, p.Admin.Agency, of, verdict, by.Person, p.Now().Format(time.RFC3339Nano))
	}
	erase := fmt.Sprintf(`select erase_held('%s')`, id)
	early := fmt.Sprintf(`insert into erasure (agency_id, id, person_id, reason, asked_by, asked_at) values ('%s', '%[2]s', '%[2]s', 'x', '%[3]s', '%[4]s')`, p.Admin.Agency, p.stays.Person, p.Admin.Person, p.Now().Format(time.RFC3339Nano))
	for want, statements := range map[string][]string{
		"erasure_needs_a_second_person23514": {end(id, "carried out", p.Admin)},
		"erasure_is_carried_out_once23514":   {erase},
		"erasure_keeps_the_floor23514":       {early, end(assessment.ErasureID(p.stays.Person), "carried out", p.second), fmt.Sprintf(`select erase_held('%s')`, p.stays.Person)},
		"42501":                              {end(id, "carried out", p.second), `update licence set number = 'x'`},
		"retention_has_a_floor23514":         {fmt.Sprintf(`insert into retention (agency_id, id, years, reason, set_at, set_by) values ('%[1]s', '%[2]s', 5, 'x', now(), '%[2]s')`, p.Admin.Agency, p.Admin.Person)},
		"":                                   {end(id, "carried out", p.second), erase},
	} {
		if got := run(statements...); got != want {
			t.Errorf("%s: got %q, want %q", statements[len(statements)-1], got, want)
		}
	}
	owner := asOwner(t, p.Ward)
	for _, sql := range []string{`update licence set number = 'x'`, `update erasure_end set verdict = 'refused'`, `update ledger_leaf set act = 'x'`, `delete from licence`} {
		_, err := owner.Exec(t.Context(), sql)
		var refused *pgconn.PgError
		if err != nil && (!errors.As(err, &refused) || refused.Code != "23001") || err == nil && sql != `update erasure_end set verdict = 'refused'` {
			t.Errorf("%s: %v", sql, err)
		}
	}
}

// What was changed by hand before is not washed clean by an erasure; what is changed
// after one, or only made to look like one, is named.
func TestVerifyAfterAnErasure(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	p.keep(t, "6")
	owner := asOwner(t, p.Ward)
	past := func(sql string, args ...any) {
		t.Helper()
		must(owner.Exec(t.Context(), `set session_replication_role = replica`))(t)
		must(owner.Exec(t.Context(), sql, args...))(t)
		must(owner.Exec(t.Context(), `set session_replication_role = origin`))(t)
	}
	past(`update demonstration set outcome = 'not yet competent' where id = $1`, p.shown.ID)
	id := p.ask(t, p.nurse.Person, "")
	_, err := p.Office.CarryOutErasure(t.Context(), p.second, id, ward.Proof)
	wantRefusal(t, err, fault.Refused, "not as it was when it was written")
	past(`update demonstration set outcome = 'competent' where id = $1`, p.shown.ID)
	must(p.Office.CarryOutErasure(t.Context(), p.second, id, ward.Proof))(t)
	must(p.Office.SealAll(t.Context()))(t)

	found := func(kind, subject, says string) {
		t.Helper()
		v := verified(t, p.Office)
		if !slices.ContainsFunc(v.Findings, func(f office.Finding) bool {
			return f.Kind == kind && (subject == "" || strings.HasPrefix(f.Subject, subject)) && strings.Contains(f.Says, says)
		}) {
			t.Errorf("%s %s, %q is not named:\n%s", kind, subject, says, listed(v))
		}
	}
	clean := func() {
		t.Helper()
		if v := verified(t, p.Office); v.Found != 0 {
			t.Fatalf("not put back:\n%s", listed(v))
		}
	}
	clean()
	past(`update demonstration set outcome = 'not yet competent' where id = $1`, p.shown.ID)
	found("demonstration", string(p.shown.ID), "not as it was")
	past(`update demonstration set outcome = 'competent' where id = $1`, p.shown.ID)
	past(`update person set erased_at = now(), name = 'erased' where id = $1`, p.stays.Person)
	found("person", string(p.stays.Person), "no erasure says so")
	past(`update person set erased_at = null, name = $2 where id = $1`, p.stays.Person, p.stays.Name)
	past(`update erased_row set was_sha256 = sha256('x') where kind = 'demonstration' and subject = $1`, string(p.shown.ID))
	found("demonstration", string(p.shown.ID), "not as it was written when it was erased")
	past(`update erased_row r set was_sha256 = (select record_sha256 from ledger_leaf l where l.kind = r.kind and l.subject = r.subject order by position limit 1) where kind = 'demonstration' and subject = $1`, string(p.shown.ID))
	clean()
	past(`update erasure_end set verdict = 'refused'`)
	found("demonstration", string(p.shown.ID), "not carried out")
	past(`update erasure_end set verdict = 'carried out'`)
	past(`create temp table kept as select * from erased_row`)
	past(`delete from erased_row`)
	found("demonstration", string(p.shown.ID), "more than once")
	found("erasure_end", string(id), "was not erased")
	found("credential", "", "as by an erasure")
	past(`insert into erased_row select * from kept`)
	clean()
	// As the owner, with the triggers on, in the name of an erasure.
	for _, sql := range []string{`set app.act = 'erase what is held'`, `alter table waiver disable trigger waiver_is_append_only`, `update waiver set reason = 'erased too'`, `update person set name = 'erased' where name = 'Nan Orme'`} {
		must(owner.Exec(t.Context(), sql))(t)
	}
	found("waiver", "", "no erasure says so")
	found("person", string(p.stays.Person), "no erasure says so")
}
