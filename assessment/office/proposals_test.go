package office_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5/pgconn"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// proposed drafts the next revision of a skill and has the first educator propose it.
func proposed(t *testing.T, w *ward.Ward, code string, change func(string) string, recheck string) (office.RevisionView, office.ProposalView) {
	t.Helper()
	draft := must(w.Office.DraftRevision(t.Context(), w.Educators[0], skillOf(t, w, code)))(t)
	draft = save(t, w, w.Educators[0], draft, change)
	return draft, must(ward.Propose(t.Context(), w.Office, w.Educators[0], office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read against the orders.", RecheckBy: recheck, Proof: ward.Proof}))(t)
}

// Nothing comes in force by one person alone (common practice, no source: what decides who
// is competent takes two), and a draft that waits for the second stays as it was proposed.
func TestTwoPeoplePutInForce(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	old := inForce(t, w, "humidifier")
	draft, p := proposed(t, w, "humidifier", policy("months: 3"), "")
	if inForce(t, w, "humidifier") != old || p.Verdict != "" || p.ProposedBy.ID != edda.Person || p.Version != draft.Version {
		t.Errorf("proposed: %+v", p)
	}
	err := w.Office.AgreeInForce(t.Context(), edda, office.AgreeForm{Proposal: p.ID, Proof: ward.Proof})
	wantRefusal(t, err, fault.Refused, "You have proposed this yourself")
	if d := must(w.Office.Proposal(t.Context(), edda, p.ID))(t); !d.Mine || !strings.Contains(d.MayNot, "You have proposed this yourself") || d.Preview.Version != "" {
		t.Errorf("to whoever proposed it: %+v", d)
	}
	_, err = ward.Propose(t.Context(), w.Office, rolf, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read too.", Proof: ward.Proof})
	wantRefusal(t, err, fault.Conflict, "Edda Lorne has proposed to put this draft in force")
	_, err = w.Office.SaveDraft(t.Context(), edda, office.DraftForm{Revision: draft.ID, Version: draft.Version, Source: must(w.Office.DraftSource(t.Context(), edda, draft.ID))(t).Source})
	wantRefusal(t, err, fault.Conflict, "it waits for a second person")
	wantRefusal(t, w.Office.DiscardDraft(t.Context(), edda, draft.ID), fault.Conflict, "it waits for a second person")
	wantRefusal(t, w.Office.AgreeInForce(t.Context(), w.Admin, office.AgreeForm{Proposal: p.ID, Proof: ward.Proof}), fault.Forbidden, "put a checklist in force")

	wantNone(t, ward.Agree(t.Context(), w.Office, rolf, p.ID, ward.Proof))
	read := must(w.Office.ReadChecklist(t.Context(), w.Coordinator, draft.ID))(t)
	if read.State != assessment.InForce || read.InForceBy != edda.Name || read.Statement != "Read against the orders." || len(read.Proposals) != 1 || read.Proposals[0].EndedBy.Name != rolf.Name {
		t.Errorf("in force as %+v by %+v", read.RevisionView, read.Proposals)
	}
	err = ward.Agree(t.Context(), w.Office, rolf, p.ID, ward.Proof)
	wantRefusal(t, err, fault.Conflict, "decided already: agreed by Rolf Teague")
}

// Whoever made the link that somebody's password comes from could be both, also over
// several links, until somebody else has vouched (the rule of assessment/hands.go).
func TestOnePersonBehindTwoDoesNotPutInForce(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	bea := w.Administrator("Bea Orr")
	must(edited(t, w, w.Admin, edda.Person, office.PersonForm{Name: edda.Name, Email: w.Email(edda), Roles: []string{"educator", "administrator"}}))(t)
	edda.Roles = []assessment.Role{assessment.Educator, assessment.Administrator}
	_, p := proposed(t, w, "humidifier", policy("months: 3"), "")
	seen := must(w.Office.Proposal(t.Context(), rolf, p.ID))(t).Preview.Version
	w.Pass(time.Minute)
	w.Take(w.Link(edda, bea), ward.Password)
	w.Pass(time.Minute)
	w.Take(w.Link(bea, rolf), ward.Password) // edda could have been bea, and so rolf
	agree := office.AgreeForm{Proposal: p.ID, Seen: seen, Proof: ward.Proof}
	wantRefusal(t, w.Office.AgreeInForce(t.Context(), rolf, agree), fault.Refused, "one person alone could have been both")
	if d := must(w.Office.Proposal(t.Context(), rolf, p.ID))(t); !strings.Contains(d.MayNot, "one person alone") || d.Preview.Version != "" {
		t.Errorf("what rolf is told: %+v", d)
	}
	w.Pass(time.Minute)
	w.Take(w.Link(edda, rolf), ward.Password)
	wantRefusal(t, w.Office.AgreeInForce(t.Context(), rolf, agree), fault.Refused, "one person alone could have been both")
	wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, rolf.Person, ward.Proof))
	wantNone(t, w.Office.AgreeInForce(t.Context(), rolf, agree)) // by now it would have taken two
}

// A proposal is declined by the second with a reason and taken back by the first, and what
// was declined or taken back is agreed to no more.
func TestDecliningAndTakingBack(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	draft, p := proposed(t, w, "humidifier", policy("months: 3"), "")
	d := must(w.Office.Proposal(t.Context(), rolf, p.ID))(t)
	_, err := w.Office.DropProposal(t.Context(), rolf, p.ID, " ")
	wantRefusal(t, err, fault.Invalid, "Say what is to be changed first")
	v := must(w.Office.DropProposal(t.Context(), rolf, p.ID, "Three months is too short for us."))(t)
	if v.Verdict != assessment.ForceDeclined || v.EndedBy.Name != rolf.Name || v.Reason != "Three months is too short for us." {
		t.Errorf("declined: %+v", v)
	}
	err = w.Office.AgreeInForce(t.Context(), rolf, office.AgreeForm{Proposal: p.ID, Seen: d.Preview.Version, Proof: ward.Proof})
	wantRefusal(t, err, fault.Conflict, "decided already: declined by Rolf Teague")
	_, err = w.Office.DropProposal(t.Context(), edda, p.ID, "")
	wantRefusal(t, err, fault.Conflict, "decided already")
	if b := must(w.Office.BeforeForce(t.Context(), edda, draft.ID, "", ""))(t); b.Declined.Reason != v.Reason || b.Waits.ID != "" || b.NoPreview != "" {
		t.Errorf("the draft after it was declined: %+v, %+v, %q", b.Declined, b.Waits, b.NoPreview)
	}
	draft = save(t, w, edda, draft, policy("months: 4"))
	second := must(ward.Propose(t.Context(), w.Office, edda, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read again.", Proof: ward.Proof}))(t)
	if all := must(w.Office.Proposals(t.Context(), rolf))(t); len(all) != 1 || all[0].ID != second.ID || all[0].Mine {
		t.Errorf("what waits: %+v", all)
	}
	if v := must(w.Office.DropProposal(t.Context(), edda, second.ID, ""))(t); v.Verdict != assessment.ForceTakenBack {
		t.Errorf("taken back: %+v", v)
	}
	wantNone(t, w.Office.DiscardDraft(t.Context(), edda, draft.ID))
	if v := must(w.Office.Proposal(t.Context(), rolf, second.ID))(t); v.Verdict != assessment.ForceTakenBack || v.Number != draft.Number {
		t.Errorf("a proposal whose draft is gone: %+v", v)
	}
}

// What changes between the look and the signature is a conflict, for the first as for the
// second, and is shown anew.
func TestAStalePreviewIsAConflict(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	w.Award(nan, "humidifier", mira)
	draft := must(w.Office.DraftRevision(t.Context(), edda, skillOf(t, w, "humidifier")))(t)
	form := office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", RecheckBy: "2026-03-02", Proof: ward.Proof}
	seen := must(w.Office.PreviewInForce(t.Context(), edda, office.PreviewForm{Revision: draft.ID, Version: draft.Version}))(t)
	for _, stale := range []string{"", "x", seen.Version} { // the last is of no recheck
		form.Seen = stale
		_, err := w.Office.ProposeInForce(t.Context(), edda, form)
		wantRefusal(t, err, fault.Conflict, "not what you looked at")
	}
	p := must(ward.Propose(t.Context(), w.Office, edda, form))(t)
	d := must(w.Office.Proposal(t.Context(), rolf, p.ID))(t)
	if d.Preview.People != 1 || len(d.Preview.Standings) == 0 {
		t.Fatalf("a recheck changes %+v", d.Preview)
	}
	w.Pass(time.Minute)
	tam := w.Client("8K", "Tam")
	w.Award(nan, "humidifier", tam)
	agree := office.AgreeForm{Proposal: p.ID, Seen: d.Preview.Version, Proof: ward.Proof}
	wantRefusal(t, w.Office.AgreeInForce(t.Context(), rolf, agree), fault.Conflict, "not what you looked at")
	if inForce(t, w, "humidifier") == draft.ID || must(w.Office.Proposal(t.Context(), rolf, p.ID))(t).Verdict != "" {
		t.Fatal("it is in force, or decided, all the same")
	}
	agree.Seen = must(w.Office.Proposal(t.Context(), rolf, p.ID))(t).Preview.Version
	w.Pass(time.Hour) // on the same day and nothing changed: what was looked at still is so
	before := agree
	w.Pass(15 * time.Hour) // another day: standings are told from another day on
	wantRefusal(t, w.Office.AgreeInForce(t.Context(), rolf, before), fault.Conflict, "another day has begun")
	agree.Seen = must(w.Office.Proposal(t.Context(), rolf, p.ID))(t).Preview.Version
	w.Pass(time.Hour)
	wantNone(t, w.Office.AgreeInForce(t.Context(), rolf, agree))
	indexIsRight(t, w)
}

// A rehearsal is undone whole: no row of any table, no entry of the ledger and no lock
// stays, and what it saw is not remembered.
func TestARehearsalLeavesNoTrace(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	w.Award(nan, "humidifier", mira)
	w.Require("humidifier", "nurse")
	need := must(w.Office.Requirements(t.Context(), w.Coordinator))(t)[0]
	draft, p := proposed(t, w, "humidifier", policy("months: 3"), "2026-03-02")
	must(w.Office.SealAll(t.Context()))(t)
	db := asOwner(t, w)
	digest := func() string {
		var all []string
		rows, err := db.Query(t.Context(), `select relname::text from pg_class where relkind = 'r' and relnamespace = 'public'::regnamespace order by 1`)
		wantNone(t, err)
		var table string
		var tables []string
		for rows.Next() {
			wantNone(t, rows.Scan(&table))
			tables = append(tables, table)
		}
		wantNone(t, rows.Err())
		for _, table := range tables {
			var line string
			wantNone(t, db.QueryRow(t.Context(), `select count(*)::text || ' ' || coalesce(md5(string_agg(t::text, '|' order by t::text)), '') from `+table+` t`).Scan(&line))
			all = append(all, table+" "+line)
		}
		return strings.Join(all, "\n")
	}
	before := digest()
	ctx := t.Context()
	for name, look := range map[string]func() (office.Preview, error){
		"agreeing": func() (office.Preview, error) {
			d, err := w.Office.Proposal(ctx, rolf, p.ID)
			return d.Preview, err
		},
		"withdrawing": func() (office.Preview, error) {
			return w.Office.PreviewWithdraw(ctx, edda, office.ExceptionForm{Person: nan.Person, Skill: "humidifier", Client: mira}, assessment.Reinstated, true)
		},
		"equipment": func() (office.Preview, error) {
			return w.Office.PreviewEquipment(ctx, w.Coordinator, mira, office.EquipmentForm{Kind: "humidifier", Type: "another", From: w.Today().String()})
		},
	} {
		if v := must(look())(t); v.Nothing() {
			t.Errorf("%s changes nothing: %+v", name, v)
		}
	}
	must(w.Office.PreviewRequirement(ctx, w.Coordinator, office.RequirementForm{Skill: "go-bag", Kind: "nurse", From: w.Today().String()}))(t)
	must(w.Office.PreviewRequirementEnd(ctx, w.Coordinator, need.ID, w.Today().String()))(t)
	must(w.Office.PreviewLeaving(ctx, w.Coordinator, nan.Person, w.Today()))(t)
	if after := digest(); after != before {
		t.Errorf("a trace:\n%s\nbefore:\n%s", after, before)
	}
	var locks int
	wantNone(t, db.QueryRow(ctx, `select count(*) from pg_locks where locktype = 'advisory' and database = (select oid from pg_database where datname = current_database())`).Scan(&locks))
	if locks != 0 {
		t.Errorf("%d locks are held still", locks)
	}
	if v := must(w.Office.Checklist(ctx, rolf, draft.ID))(t); v.State != assessment.Draft {
		t.Errorf("the draft is %s", v.State)
	}
	indexIsRight(t, w)
}

// A look is refused as the act is: to whoever may not do it, and where it could not be done.
func TestARehearsalAsksForWhatTheActAsksFor(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	ctx, edda := t.Context(), w.Educators[0]
	draft := must(w.Office.DraftRevision(ctx, edda, skillOf(t, w, "humidifier")))(t)
	rosa := must(w.Office.AddPerson(ctx, w.Admin, office.PersonForm{Name: "Rosa Lind", Email: "rosa@ward.example", Roles: []string{"educator"}}))(t)
	unlicensed := assessment.Actor{Agency: edda.Agency, Person: rosa.ID, Name: rosa.Name, Roles: rosa.Roles}
	first := func(_ office.Preview, err error) error { return err }
	wantRefusal(t, first(w.Office.PreviewInForce(ctx, w.Admin, office.PreviewForm{Revision: draft.ID, Version: draft.Version})), fault.Forbidden, "Your role does not allow this")
	wantRefusal(t, first(w.Office.PreviewInForce(ctx, unlicensed, office.PreviewForm{Revision: draft.ID, Version: draft.Version})), fault.Refused, "no current licence")
	wantRefusal(t, first(w.Office.PreviewInForce(ctx, edda, office.PreviewForm{Revision: draft.ID, Version: "x"})), fault.Conflict, "since you read it")
	wantRefusal(t, first(w.Office.PreviewInForce(ctx, edda, office.PreviewForm{Revision: draft.ID, Version: draft.Version, RecheckBy: "2025-01-01"})), fault.Invalid, "This day is past")
	wantRefusal(t, first(w.Office.PreviewWithdraw(ctx, nan, office.ExceptionForm{Person: nan.Person, Skill: "humidifier", Client: mira}, assessment.Reinstated, true)), fault.Forbidden, "Your role")
	wantRefusal(t, first(w.Office.PreviewWithdraw(ctx, edda, office.ExceptionForm{Person: nan.Person, Skill: "humidifier", Client: mira}, "", true)), fault.Invalid, "Choose what lifts it")
	wantRefusal(t, first(w.Office.PreviewEquipment(ctx, w.Coordinator, mira, office.EquipmentForm{Kind: "humidifier"})), fault.Invalid, "One thing needs mending")
	wantRefusal(t, first(w.Office.PreviewRequirement(ctx, edda, office.RequirementForm{Skill: "humidifier", From: "2026-03-01"})), fault.Forbidden, "Your role")
	wantRefusal(t, first(w.Office.PreviewLeaving(ctx, edda, nan.Person, w.Today())), fault.Forbidden, "Your role")
}

// The database itself refuses one person, and a text that nobody agreed to.
func TestTheSchemaPutsNothingInForceByOne(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier")
	edda, rolf := w.Educators[0], w.Educators[1]
	draft, p := proposed(t, w, "humidifier", policy("months: 3"), "")
	db := asOwner(t, w)
	end := `insert into force_proposal_end (agency_id, proposal_id, verdict, reason, ended_by, ended_at) values ($1, $2, $3, $4, $5, $6)`
	force := `update revision set state = 'in force', in_force_at = $2, in_force_by = $3, statement = $4 where id = $1`
	for name, try := range map[string]struct {
		sql  string
		args []any
		says string
	}{
		"agreed by who proposed":        {end, []any{w.Admin.Agency, p.ID, "agreed", "", edda.Person, w.Now()}, "force_needs_a_second_person"},
		"taken back by somebody else":   {end, []any{w.Admin.Agency, p.ID, "taken back", "", rolf.Person, w.Now()}, "force_needs_a_second_person"},
		"declined without why":          {end, []any{w.Admin.Agency, p.ID, "declined", " ", rolf.Person, w.Now()}, "force_declined_says_why"},
		"before it was proposed":        {end, []any{w.Admin.Agency, p.ID, "agreed", "", rolf.Person, w.Now().Add(-time.Hour)}, "force_needs_a_second_person"},
		"in force without an agreement": {force, []any{draft.ID, w.Now(), edda.Person, "Read against the orders."}, "revision_comes_in_force_by_two"},
		"in force from the first": {`insert into revision (agency_id, id, skill_id, number, state, title, body, body_sha256, drafted_at, drafted_by, in_force_at, in_force_by, statement)
			select agency_id, gen_random_uuid(), skill_id, number + 10, 'in force', title, body, body_sha256, drafted_at, drafted_by, $2, $3, $4 from revision where id = $1`,
			[]any{draft.ID, w.Now(), edda.Person, "Read against the orders."}, "revision_begins_as_a_draft"},
		"a changed proposal": {`update force_proposal set statement = 'Other.' where id = $1`, []any{p.ID}, "force_proposal_is_append_only"},
	} {
		_, err := db.Exec(t.Context(), try.sql, try.args...)
		var refused *pgconn.PgError
		if !errors.As(err, &refused) || refused.ConstraintName != try.says {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What was proposed by somebody who is no longer a licensed educator here, or to be shown
// anew by a day that is past, does not come in force; it can be declined and proposed anew.
func TestAProposalThatIsOvertaken(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t, "humidifier", "go-bag")
	edda, rolf := w.Educators[0], w.Educators[1]
	tess := w.Educator("Tess Arden")
	_, late := proposed(t, w, "go-bag", policy("months: 3"), w.Today().AddDays(1).String())
	draft := must(w.Office.DraftRevision(t.Context(), tess, skillOf(t, w, "humidifier")))(t)
	p := must(ward.Propose(t.Context(), w.Office, tess, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", Proof: ward.Proof}))(t)
	w.Pass(72 * time.Hour)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, tess.Person, w.Today()))
	for id, says := range map[assessment.ProposalID]string{p.ID: "is no licensed educator of yours any more", late.ID: "that day is past"} {
		if d := must(w.Office.Proposal(t.Context(), rolf, id))(t); !strings.Contains(d.MayNot, says) || d.Preview.Version != "" {
			t.Errorf("%q does not say %q", d.MayNot, says)
		}
		wantRefusal(t, w.Office.AgreeInForce(t.Context(), rolf, office.AgreeForm{Proposal: id, Proof: ward.Proof}), fault.Refused, says)
		must(w.Office.DropProposal(t.Context(), rolf, id, "Overtaken."))(t)
	}
	again := must(ward.Propose(t.Context(), w.Office, edda, office.PutInForceForm{Revision: draft.ID, Version: draft.Version, Statement: "Read.", Proof: ward.Proof}))(t)
	wantNone(t, ward.Agree(t.Context(), w.Office, rolf, again.ID, ward.Proof))
}
