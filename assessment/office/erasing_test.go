package office_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

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
