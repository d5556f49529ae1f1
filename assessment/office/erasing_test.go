package office_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// parting is a ward with a nurse, Wendeline Osterkamp, and a child, Thaddeus, who
// both left in the spring of 2026 and of whom much is held: their names stand in
// every free text about them. It is the autumn of 2033.
type parting struct {
	*ward.Ward
	second assessment.Actor // the other administrator
	nurse  assessment.Actor // who left
	stays  assessment.Actor // a nurse who does not
	child  assessment.ClientID
	other  assessment.ClientID
	shown  office.DemonstrationView // of the nurse, for the child, with a certificate
	beside office.DemonstrationView // of the one who stays, for the child
	head   []byte                   // kept before anything was erased
}

const nurseName, childName = "Wendeline Osterkamp", "Thaddeus"

func partWays(t *testing.T) *parting {
	t.Helper()
	w := ward.New(t, ward.WithCertificate(printsNames))
	p := &parting{Ward: w, second: w.Administrator("Bodil Krane")}
	for _, skill := range []string{"humidifier", "bagging"} {
		newRevision(t, w, skill, oneIsEnough, "")
	}
	p.child, p.other = w.Client("TH7", childName), w.Client("8Q", "Mira")
	p.nurse, p.stays = w.Nurse(nurseName), w.Nurse("Nan Orme")
	w.Day("2026-02-01")
	p.said(t)
	p.shown = p.told(t, p.nurse, p.child)
	p.beside = p.told(t, p.stays, p.child)
	w.Demonstrate(p.stays, "humidifier", p.other)
	p.exceptions(t)
	w.Day("2026-04-01")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, p.nurse.Person, w.Today()))
	must(w.Office.ClientLeaves(t.Context(), w.Admin, p.child, w.Today()))(t)
	w.Day("2033-10-03")
	w.Demonstrate(p.stays, "humidifier", p.other, ward.SeenBy(p.observer(t)))
	p.head = []byte(must(w.Office.LedgerHead(t.Context(), w.Admin))(t).Signed)
	return p
}

// observer is an educator who may observe today.
func (p *parting) observer(t *testing.T) assessment.Actor {
	t.Helper()
	ines := p.Educator("Ines Park") // the first observers are that once
	p.Appoint(ines, p.Educators[1], "humidifier")
	return ines
}

func printsNames(f office.CertificateFacts) ([]byte, error) {
	return fmt.Appendf(nil, "%d %s %s %s %v", f.Number, f.Code, f.Person, f.Client, f.Signatures), nil
}

// said fills what has words of its own and no demonstration.
func (p *parting) said(t *testing.T) {
	t.Helper()
	ctx, both := t.Context(), nurseName+" and "+childName
	must(p.Office.RecordLicence(ctx, p.Admin, p.nurse.Person, office.LicenceForm{Kind: "RN", Number: "Osterkamp-1"}))(t)
	must(p.Office.RecordCard(ctx, p.Admin, p.nurse.Person, office.CardForm{Issuer: "Courses of Osterkamp", IssuedOn: p.Today().String()}))(t)
	wantNone(t, p.Office.SetPIN(ctx, p.nurse, ward.Password, "740218"))
	must(p.Office.SetParameters(ctx, p.Educators[0], p.child, []office.ParameterForm{{Name: "call_first", Words: "Call " + childName + "’s mother."}}))(t)
	wantNone(t, p.Office.StartPlan(ctx, p.Coordinator, p.child))
	line := must(p.Office.AddCriterion(ctx, p.Coordinator, p.child, office.CriterionForm{Kind: "attested", Title: childName + " sleeps"}))(t)
	wantNone(t, p.Office.AddEvidence(ctx, p.Educators[0], office.EvidenceForm{Criterion: line, Word: "met", Note: both}))
	things := must(p.Office.AddCriterion(ctx, p.Coordinator, p.child, office.CriterionForm{Kind: "equipment home", Title: "Things", Items: []string{"bed", childName + "’s bag"}}))(t)
	wantNone(t, p.Office.AddEvidence(ctx, p.Educators[0], office.EvidenceForm{Criterion: things, Word: "delivered", Item: childName + "’s bag"}))
	wantNone(t, p.Office.Log(ctx, p.Educators[0], office.LogForm{Person: p.nurse.Person, Skill: "humidifier", Client: p.child, Kind: assessment.PracticeEntry, On: "2026-02-01", Note: both}))
}

// told shows a skill with both names in each note, and the place.
func (p *parting) told(t *testing.T, who assessment.Actor, child assessment.ClientID) office.DemonstrationView {
	t.Helper()
	by, both := p.Educators[0], nurseName+" and "+childName
	s := must(p.Office.Open(t.Context(), by, office.OpenForm{Learner: who.Person, Skill: "humidifier", Client: child, Place: "home of " + childName, Real: true, Formal: true}))(t)
	p.Pass(20 * time.Minute)
	must(p.Office.Stop(t.Context(), by, s.ID, true, both))(t)
	must(p.Office.Stop(t.Context(), by, s.ID, false, ""))(t)
	var forms []office.MarkForm
	for _, step := range s.Checklist.Steps() {
		f := ward.Form(t, step, s.Parameters, assessment.Independent)
		f.Note = both
		forms = append(forms, f)
	}
	must(p.Office.MarkAll(t.Context(), by, s.ID, forms))(t)
	must(p.Office.Record(t.Context(), by, s.ID))(t)
	p.Sign(by, s.ID, office.PartObserver)
	return p.Sign(who, s.ID, office.PartLearner)
}

func (p *parting) exceptions(t *testing.T) {
	t.Helper()
	ctx, edda := t.Context(), p.Educators[0]
	form := about(p.nurse, "humidifier", p.child)
	form.Reason = nurseName + " and " + childName
	wantNone(t, p.Office.Withdraw(ctx, edda, form, assessment.Reinstated, false))
	wantNone(t, p.Office.Reinstate(ctx, edda, withdrawal(t, p.Ward, p.nurse, "humidifier", p.child), form.Reason, ward.Proof))
	wantNone(t, p.Office.Waive(ctx, edda, form, "2026-02-02", "2026-02-03"))
	v := p.Demonstrate(p.nurse, "humidifier", p.child)
	wantNone(t, p.Office.CorrectDemonstration(ctx, edda, v.ID, "Wrong: "+form.Reason, ward.Proof))
	opened(t, p.Ward, p.nurse, "humidifier", p.child)
}

// keep sets for how many years everything is kept.
func (p *parting) keep(t *testing.T, years string) {
	t.Helper()
	p.Pass(time.Minute)
	wantNone(t, p.Office.SetRetention(t.Context(), p.Admin, office.RetentionForm{Years: years, Reason: "Agreed with counsel."}))
}

func (p *parting) ask(t *testing.T, person assessment.PersonID, client assessment.ClientID) assessment.ErasureID {
	t.Helper()
	return must(p.Office.AskErasure(t.Context(), p.Admin, office.ErasureForm{Person: person, Client: client, Reason: "Asked for by letter."}))(t).ID
}

// erase asks and carries out.
func (p *parting) erase(t *testing.T, person assessment.PersonID, client assessment.ClientID) office.ErasureView {
	t.Helper()
	id := p.ask(t, person, client)
	p.Pass(time.Minute)
	return must(p.Office.CarryOutErasure(t.Context(), p.second, id, ward.Proof))(t)
}

// holding lists every column of every table that holds a text, in whatever case, its
// bytes included.
func holding(t *testing.T, owner *pgx.Conn, text string) []string {
	t.Helper()
	rows := must(owner.Query(t.Context(), `
		select c.relname::text, a.attname::text, format_type(a.atttypid, null) = 'bytea' from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
		where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace and format_type(a.atttypid, null) in ('text', 'text[]', 'jsonb', 'bytea')`))(t)
	type column struct {
		table, name string
		bytes       bool
	}
	all := must(pgx.CollectRows(rows, func(r pgx.CollectableRow) (c column, err error) { return c, r.Scan(&c.table, &c.name, &c.bytes) }))(t)
	var found []string
	for _, c := range all {
		value := pgx.Identifier{c.name}.Sanitize() + "::text"
		if c.bytes {
			value = "encode(" + pgx.Identifier{c.name}.Sanitize() + ", 'escape')"
		}
		var n int
		wantNone(t, owner.QueryRow(t.Context(), `select count(*) from `+c.table+` where position(lower($1) in lower(`+value+`)) > 0`, text).Scan(&n))
		if n > 0 {
			found = append(found, c.table+"."+c.name)
		}
	}
	return found
}

// everybody is what the ward says of everybody but the nurse, for every child but the
// one who left, as one text; and of the readiness of the child who stays.
func (p *parting) everybody(t *testing.T) string {
	t.Helper()
	var all []any
	for _, who := range []assessment.Actor{p.stays, p.Educators[0], p.Educators[1]} {
		for _, day := range []string{"2026-02-02", "2026-03-01", "2026-12-01", "2027-02-02", "2033-10-03"} {
			s := must(p.Office.StandingsOf(t.Context(), p.Coordinator, who.Person, civil.MustParse(day)))(t)
			for _, x := range s.Rows {
				all = append(all, x.Skill.Code, x.Client.ID, x.Standing)
			}
		}
	}
	all = append(all, must(p.Office.Readiness(t.Context(), p.Coordinator, p.other, p.Now()))(t).Readiness)
	return string(must(json.Marshal(all))(t))
}

// What is held about somebody who left is gone from every table, and what the
// ledger proves stays proven; nobody else's standing changes.
func TestErasingSomebodyWhoLeft(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	owner := asOwner(t, p.Ward)
	email := p.Email(p.nurse)
	if before := holding(t, owner, "Osterkamp"); len(before) < 12 || !slices.Contains(before, "certificate.pdf") {
		t.Fatalf("the name stands in %v only: this looks at too little", before)
	}
	before := p.everybody(t)
	p.keep(t, "6")
	v := p.erase(t, p.nurse.Person, "")
	if v.Verdict != assessment.CarriedOut || v.Rows < 12 || v.Ender != "Bodil Krane" || v.Name != "erased" {
		t.Errorf("%+v", v)
	}
	for _, text := range []string{"Wendeline", "Osterkamp", email, "740218"} {
		if left := without(holding(t, owner, text), p.besideOnly(t, owner, text)...); len(left) > 0 {
			t.Errorf("%q still stands in %v", text, left)
		}
	}
	if after := p.everybody(t); after != before {
		t.Errorf("something else changed\nbefore: %s\nafter:  %s", before, after)
	}
	p.stillProven(t, v.Rows)
	p.nobodyComesBack(t)
}

// besideOnly are the columns where a name may stand after an erasure, because somebody
// typed it into a text about others: the notes in the record of the nurse who stays,
// which are hers, and the evidence on the child's plan. A column counts only where it
// holds the name nowhere else.
func (p *parting) besideOnly(t *testing.T, owner *pgx.Conn, text string) []string {
	t.Helper()
	var only []string
	for column, where := range map[string]string{"demonstration.body": "learner_id = $2", "evidence.note": "signed_by <> $2"} {
		table, name, _ := strings.Cut(column, ".")
		var others int
		wantNone(t, owner.QueryRow(t.Context(), `select count(*) from `+table+` where position(lower($1) in lower(`+name+`)) > 0 and not (`+where+`)`, text, p.stays.Person).Scan(&others))
		if others == 0 {
			only = append(only, column)
		}
	}
	return only
}

func without(all []string, these ...string) []string {
	return slices.DeleteFunc(all, func(s string) bool { return slices.Contains(these, s) })
}

// stillProven holds the ledger to what was kept before, and counts.
func (p *parting) stillProven(t *testing.T, rows int) {
	t.Helper()
	must(p.Office.SealAll(t.Context()))(t)
	v := verified(t, p.Office, p.head)
	if v.Found != 0 || v.Erased != int64(rows) {
		t.Errorf("verify found %d, and %d rows erased of %d\n%s", v.Found, v.Erased, rows, listed(v))
	}
	if x := must(p.Office.Extends(t.Context(), p.Admin, string(p.head)))(t); !x.Extends {
		t.Errorf("the head that was kept is not extended: %s", x.Why)
	}
	if r := must(p.Office.CompareIndex(t.Context()))(t); len(r.Wrong) > 0 {
		t.Errorf("the index is wrong: %+v", r.Wrong)
	}
}

// nobodyComesBack tries to write about who was erased.
func (p *parting) nobodyComesBack(t *testing.T) {
	t.Helper()
	kept := must(p.Office.Person(t.Context(), p.Admin, p.nurse.Person))(t)
	_, err := p.Office.EditPerson(t.Context(), p.Admin, kept.ID, office.PersonForm{Version: kept.Version, Name: nurseName, Kind: "nurse", Roles: []string{"caregiver"}})
	wantRefusal(t, err, fault.Refused, "has been erased")
	_, err = p.Office.RecordLicence(t.Context(), p.Admin, kept.ID, office.LicenceForm{Kind: "RN", Number: "1"})
	wantRefusal(t, err, fault.Refused, "has been erased")
	_, err = p.Office.AskErasure(t.Context(), p.Admin, office.ErasureForm{Person: kept.ID, Reason: "Again."})
	wantRefusal(t, err, fault.Refused, "erased already")
}

// The record of somebody who was erased can still be read, with its verdict; the
// proof says who asked, who agreed, when and why; a certificate says that what it was
// about is erased, and nothing that could be taken for "current".
func TestWhatIsLeftOfARecord(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	was := must(p.Office.Demonstration(t.Context(), p.Admin, p.shown.ID))(t)
	paper := must(p.Office.Certificate(t.Context(), p.Admin, p.shown.Certificate.ID))(t)
	p.keep(t, "6")
	p.erase(t, p.nurse.Person, "")
	v := must(p.Office.ReadRecord(t.Context(), p.Coordinator, p.shown.ID))(t)
	if v.Learner != "erased" || v.Outcome != was.Outcome || *v.Score != *was.Score || v.Result.Outcome != was.Result.Outcome || len(v.Entries) != len(was.Entries) || string(v.BodySHA256) != string(was.BodySHA256) {
		t.Errorf("left: %+v", v)
	}
	if s := v.SignedBy(office.PartLearner); s.PrintedName != "erased" || !s.SignedAt.Equal(was.SignedBy(office.PartLearner).SignedAt) {
		t.Errorf("the learner's signature: %+v", s)
	}
	if s := v.SignedBy(office.PartObserver); s.PrintedName != p.Educators[0].Name {
		t.Errorf("the observer's signature: %+v", s)
	}
	proof := must(p.Office.ProofOfDemonstration(t.Context(), p.Surveyor("Halina Wren"), p.shown.ID))(t)
	if len(proof.Erasures) != 1 || proof.Erasures[0].Asker != p.Admin.Name || proof.Erasures[0].Ender != "Bodil Krane" || proof.Erasures[0].Reason != "Asked for by letter." || len(proof.Entries) != 5 {
		t.Errorf("the proof: %d entries, %+v", len(proof.Entries), proof.Erasures)
	}
	c := must(p.Office.Check(t.Context(), paper.Code))(t)
	if c.Erased != p.Today() || c.Holds() || c.Person != "" || c.Title != "" || !c.Now.IsZero() || string(c.SHA256) != string(paper.PDFSHA256) {
		t.Errorf("checked: %+v", c)
	}
	_, err := p.Office.Certificate(t.Context(), p.Admin, paper.ID)
	wantRefusal(t, err, fault.Refused, "was erased on 2033-10-03")
	must(p.Office.ViewCertificate(t.Context(), p.Admin, paper.ID))(t)
}

// A child who is no longer served is erased, and whoever was competent for other
// children still is.
func TestErasingAChild(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	owner := asOwner(t, p.Ward)
	before := p.everybody(t)
	p.keep(t, "6")
	v := p.erase(t, "", p.child)
	for _, text := range []string{childName, "TH7"} {
		if left := holding(t, owner, text); len(left) > 0 {
			t.Errorf("%q still stands in %v", text, left)
		}
	}
	if after := p.everybody(t); after != before {
		t.Errorf("something else changed\nbefore: %s\nafter:  %s", before, after)
	}
	if r := must(p.Office.ReadRecord(t.Context(), p.stays, p.beside.ID))(t); r.Learner != p.stays.Name || r.Client != "erased, ERASED-1" || r.Result.Outcome != assessment.Competent {
		t.Errorf("the record of who stays: %q, %q, %+v", r.Learner, r.Client, r.Result)
	}
	if c := must(p.Office.Check(t.Context(), p.beside.Certificate.Code))(t); c.Erased.IsZero() || c.Holds() {
		t.Errorf("checked: %+v", c)
	}
	p.stillProven(t, v.Rows)
	_, err := p.Office.SetParameters(t.Context(), p.Educators[0], p.child, []office.ParameterForm{{Name: "call_first", Words: "x"}})
	wantRefusal(t, err, fault.Refused, "")
	// Then the nurse too, whose records the first erasure has touched already.
	both := p.erase(t, p.nurse.Person, "")
	p.stillProven(t, v.Rows+both.Rows)
	if left := without(holding(t, owner, "Osterkamp"), p.besideOnly(t, owner, "Osterkamp")...); len(left) > 0 {
		t.Errorf("the nurse still stands in %v", left)
	}
}

// Who only observed is gone from the records of others; those stay readable.
func TestErasingAnObserver(t *testing.T) {
	t.Parallel()
	p := partWays(t)
	p.Day("2033-10-04")
	olof := p.Educator("Olof Tanner")
	p.Appoint(olof, p.Educators[0], "humidifier")
	seen := p.Demonstrate(p.stays, "humidifier", p.other, ward.SeenBy(olof))
	wantNone(t, p.Office.PersonLeaves(t.Context(), p.Admin, olof.Person, p.Today()))
	p.keep(t, "6")
	p.Day("2039-10-06") // six years after they left, and five after what they signed ran out
	_, err := p.Office.AskErasure(t.Context(), p.Admin, office.ErasureForm{Person: olof.Person, Reason: "Asked."})
	wantRefusal(t, err, fault.Refused, "last in effect on 2034-10-04")
	p.Day("2040-10-05")
	v := p.erase(t, olof.Person, "")
	if left := holding(t, asOwner(t, p.Ward), "Tanner"); len(left) > 0 {
		t.Errorf("the observer still stands in %v", left)
	}
	r := must(p.Office.ReadRecord(t.Context(), p.stays, seen.ID))(t)
	if r.Observer != "erased" || r.Learner != p.stays.Name || r.SignedBy(office.PartObserver).Licence != "erased" {
		t.Errorf("%q, %q", r.Observer, r.Learner)
	}
	if c := must(p.Office.Check(t.Context(), seen.Certificate.Code))(t); !c.Erased.IsZero() || c.Person != p.stays.Name || c.Holds() {
		t.Errorf("the holder's certificate: %+v", c)
	}
	p.stillProven(t, v.Rows)
}

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
