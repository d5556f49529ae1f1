package office_test

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
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
