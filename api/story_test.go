package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// TestEveryOperation goes through a working life of an agency, and at the end every
// operation of the table has been asked and answered as hoped for, each question
// and each answer as the OpenAPI document has it.
func TestEveryOperation(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	d.account()
	d.people()
	d.programs()
	d.surveyors()
	d.partings()
	d.qualifications()
	child := d.children()
	d.checklists()
	d.devices()
	d.knowledge()
	d.drills()
	learner := d.Family("Lan Nguyễn", child)
	d.offline(child)
	certificate := d.certified(learner, child)
	d.ledger(learner, certificate)
	d.exceptions(learner, child, certificate)
	d.standings(learner, child)
	d.lessons(learner)
	d.learning(child)
	d.goingHome(learner, child)
	d.fromPaper(learner, child)
	d.skillsDays(learner, child)
	d.roster(child)
	d.visits(child)
	d.looks()
	d.incidents(child)
	d.lists()
	d.proofFromElsewhere()
	d.packets(learner)
	d.practice(child)
	d.itself()
	for _, line := range api.Table() {
		if !d.shown[line.Operation] {
			t.Errorf("%s %s (%s) has not been tried", line.Method, line.Path, line.Operation)
		}
	}
}

func (d *desk) account() {
	d.t.Helper()
	var me api.Me
	d.get("/me", d.Educators[0]).into(http.StatusOK, &me)
	if me.Person.Name != d.Educators[0].Name || !slices.Contains(me.May, string(assessment.Observe)) || slices.Contains(me.May, string(assessment.GiveRoles)) {
		d.t.Errorf("the educator is told %+v", me)
	}
	nurse := d.Nurse("Zoë Hale")
	d.put("/me/password", nurse, api.OwnPassword{Old: ward.Password, New: "four otters under ice"}).is(http.StatusNoContent)
	d.get("/me", nurse).is(http.StatusOK)
	d.accounts(d.Nurse("Ida Moss"))
	d.delete("/sessions/current", nurse).is(http.StatusNoContent)
	d.get("/me", nurse).problem(http.StatusUnauthorized)
}

func (d *desk) people() {
	d.t.Helper()
	var p, again api.Person
	form := api.NewPerson{PersonForm: api.PersonForm{Name: "Ольга  Brandt", Kind: "nurse", Email: "olga@ward.example", Roles: []string{"caregiver"}},
		ID: "0197a1d0-0000-7000-8000-0000000000aa"}
	made := d.post("/people", d.Admin, form).into(http.StatusCreated, &p)
	d.post("/people", d.Admin, form).into(http.StatusCreated, &again)
	if p.ID != form.ID || again.ID != p.ID || p.Name != "Ольга Brandt" || p.MustChangePassword || made.header.Get("Location") != api.Base+"/people/"+p.ID {
		d.t.Errorf("added %+v at %q, then %+v", p, made.header.Get("Location"), again)
	}
	other := form
	other.Name = "Somebody Else"
	d.post("/people", d.Admin, other).problem(http.StatusConflict)
	edit := api.ChangedPerson{PersonForm: api.PersonForm{Name: "Olga Brandt", Kind: "aide", Email: "olga@ward.example"}, Version: p.Version}
	d.put("/people/"+p.ID, d.Coordinator, edit).into(http.StatusOK, &p)
	edit.Name = "Olga again"
	d.put("/people/"+p.ID, d.Coordinator, edit).problem(http.StatusConflict) // made from what no longer stands
	if p.Kind != "aide" || !slices.Equal(p.Roles, []string{"caregiver"}) {
		d.t.Errorf("edited to %+v", p)
	}
	d.links(assessment.Actor{Agency: d.Admin.Agency, Person: assessment.PersonID(p.ID), Name: p.Name, Roles: []assessment.Role{assessment.Caregiver}})
	d.put("/people/"+p.ID+"/departure", d.Coordinator, api.Departure{On: d.Today().AddDays(3).String()}).is(http.StatusNoContent)
	d.get("/people/"+p.ID, d.Coordinator).into(http.StatusOK, &p)
	if p.LeftOn != d.Today().AddDays(3).String() {
		d.t.Errorf("leaves on %q", p.LeftOn)
	}
	d.pages()
}

// pages reads the whole list of people in pages of two.
func (d *desk) pages() {
	d.t.Helper()
	var names []string
	for after := ""; ; {
		var page api.List[api.Person]
		d.get(path("/people?limit=2&left=true&after=%s", after), d.Coordinator).into(http.StatusOK, &page)
		for _, p := range page.Items {
			names = append(names, strings.ToLower(p.Name))
		}
		if after = page.Next; after == "" {
			break
		}
	}
	if len(names) < 5 || !slices.IsSorted(names) || len(slices.Compact(slices.Clone(names))) != len(names) {
		d.t.Errorf("page by page there are %v", names)
	}
}

func (d *desk) qualifications() {
	d.t.Helper()
	who := d.Educator("Ines Fay")
	d.post(path("/people/%s/licences", who.Person), d.Admin, api.LicenceForm{Kind: "RRT", Number: "77-1", Through: "2027-02-28"}).is(http.StatusCreated)
	var card api.Card
	d.post(path("/people/%s/cards", who.Person), d.Admin, api.CardForm{Issuer: "Lifeline Courses", IssuedOn: "2025-06-15"}).into(http.StatusCreated, &card)
	// Two years to the end of the month of issue: American Heart Association, course card information.
	if card.Through != "2027-06-30" || !card.Current {
		d.t.Errorf("a card issued on 15 June 2025 is held through %s", card.Through)
	}
	var wrong api.Card
	d.post(path("/people/%s/cards", who.Person), d.Admin, api.CardForm{Issuer: "Lifeline Courses", IssuedOn: "2025-07-15"}).into(http.StatusCreated, &wrong)
	d.post(path("/papers/card/%s/correction", wrong.ID), d.Coordinator, api.SignedReason{Reason: "Another Fay's card.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	propose := api.AppointmentForm{Person: string(who.Person), Skills: []string{"bagging"}, From: d.Today().String(), Through: d.Today().AddMonths(6).String(),
		Founding: true, Evidence: "Judged at a teaching hospital."}
	var a api.Appointment
	d.post("/appointments", d.Admin, propose).into(http.StatusCreated, &a)
	d.post(path("/appointments/%s/agreement", a.ID), d.Educators[0], nil).into(http.StatusCreated, &a)
	if a.Pending || !a.Open || a.AgreedBy != d.Educators[0].Name {
		d.t.Errorf("agreed: %+v", a)
	}
	var list api.List[api.Appointment]
	d.get("/appointments", d.Coordinator).into(http.StatusOK, &list)
	d.post(path("/appointments/%s/end", a.ID), d.Admin, api.Reason{Reason: "Moves to nights."}).is(http.StatusCreated)
	var q api.Qualifications
	d.get(path("/people/%s/qualifications", who.Person), d.Coordinator).into(http.StatusOK, &q)
	if len(list.Items) != 3 || len(q.Licences) != 2 || len(q.Cards) != 1 || len(q.Appointments) != 1 || q.Appointments[0].EndReason != "Moves to nights." {
		d.t.Errorf("on file: %d appointments, %+v", len(list.Items), q)
	}
}

func (d *desk) children() assessment.ClientID {
	d.t.Helper()
	var c api.Client
	made := d.post("/clients", d.Coordinator, api.ClientForm{Code: "9q", FirstName: "Teo"}).into(http.StatusCreated, &c)
	if c.Code != "9Q" || made.header.Get("Location") != api.Base+"/clients/"+c.ID {
		d.t.Errorf("added %+v", c)
	}
	at := "/clients/" + c.ID
	d.put(at, d.Coordinator, api.ClientForm{Code: "9R", FirstName: "Teo"}).is(http.StatusOK)
	d.put(at+"/parameters", d.Educators[0], api.Orders{Parameters: []api.Order{{Name: "suction_depth", Value: "7", Unit: "cm"}, {Name: "cuff", Words: "none"}}}).is(http.StatusOK)
	d.post(at+"/equipment", d.Coordinator, api.EquipmentForm{Kind: "ventilator", Type: "model two", From: d.Today().String()}).is(http.StatusCreated)
	d.homePapers(at)
	nurse := d.Nurse("Ada Bram")
	d.post(at+"/team", d.Coordinator, api.MemberForm{Person: string(nurse.Person), From: d.Today().String()}).into(http.StatusCreated, &c)
	d.put(path("%s/team/%s", at, c.Team[0].ID), d.Coordinator, api.LastDay{Through: d.Today().AddDays(10).String()}).is(http.StatusOK)
	d.put(at+"/departure", d.Coordinator, api.ClientDeparture{On: d.Today().AddDays(20).String()}).is(http.StatusOK)
	d.get(at, nurse).into(http.StatusOK, &c)
	depth := slices.IndexFunc(c.Parameters, func(p api.Parameter) bool { return p.Name == "suction_depth" })
	if c.Code != "9R" || !c.Parameters[depth].Set || c.Parameters[depth].Value != "7" || c.Equipment[0].Type != "model two" ||
		c.Team[0].Through != d.Today().AddDays(10).String() || c.LeftOn != d.Today().AddDays(20).String() {
		d.t.Errorf("the child is now %+v", c)
	}
	mira := d.Client("7K", "Mira")
	var list api.List[api.Client]
	d.get("/clients?find=mir", d.Coordinator).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].ID != string(mira) || list.Items[0].Parameters != nil {
		d.t.Errorf("found %+v", list)
	}
	return mira
}

// staleDraft saves and signs what was read before somebody else saved the draft.
// RFC 9110, section 13.1.1, says what If-Match does and that "*" and a weak tag do
// not name a version; RFC 6585, section 3, what is answered where it is missing.
func (d *desk) staleDraft(at, text, tag, version string) {
	d.t.Helper()
	educator := d.Educators[0]
	later := strings.Replace(text, "Night bag check", "Other words", 1)
	for _, stale := range []string{tag, `"nothing like it"`} {
		d.send("PUT", at+"/source", educator, raw{"application/yaml", later}, "If-Match", stale).problem(http.StatusPreconditionFailed)
	}
	now := d.get(at+"/source", educator).header.Get("ETag")
	for _, unsaid := range []string{"", "*", "W/" + now} {
		d.send("PUT", at+"/source", educator, raw{"application/yaml", later}, "If-Match", unsaid).problem(http.StatusPreconditionRequired)
	}
	d.post(at+"/preview", educator, api.ForceLook{Version: version}).problem(http.StatusConflict)
	d.post(at+"/proposals", educator, api.ForceProposal{ForceLook: api.ForceLook{Version: version}, Statement: "Read.", Signing: api.Signing{Password: ward.Password}}).problem(http.StatusConflict)
	var kept api.RevisionInFull
	d.get(at, educator).into(http.StatusOK, &kept)
	if kept.State != "draft" || kept.Checklist.Title != "Night bag check" || `"`+kept.Version+`"` != now {
		d.t.Errorf("after what was refused: %+v, tag %s", kept.Revision, now)
	}
}

func (d *desk) checklists() {
	d.t.Helper()
	educator := d.Educators[0]
	src := d.get(path("/revisions/%s/source", d.revision("go-bag")), educator).is(http.StatusOK)
	own := strings.Replace(string(src.body), "code: go-bag", "code: night-bag", 1)
	var drafted api.Revision
	d.post("/skills", educator, raw{"application/yaml", own}).into(http.StatusCreated, &drafted)
	at := "/revisions/" + drafted.ID
	text := d.get(at+"/source", d.Coordinator).is(http.StatusOK)
	edited := strings.Replace(string(text.body), "Go-bag and emergency bag check", "Night bag check", 1)
	d.send("PUT", at+"/source", educator, raw{"application/yaml; charset=utf-8", edited}, "If-Match", text.header.Get("ETag")).is(http.StatusNoContent)
	d.staleDraft(at, edited, text.header.Get("ETag"), drafted.Version)
	d.get(at, educator).into(http.StatusOK, &drafted)
	d.comesInForce(drafted)
	var next api.Revision
	d.post(path("/skills/%s/revisions", drafted.Skill.ID), educator, nil).into(http.StatusCreated, &next)
	d.send("PUT", path("/revisions/%s/source", next.ID), educator, raw{"application/yaml", strings.Replace(edited, "Night bag check", "Night bag, checked", 1)}, "If-Match", `"`+next.Version+`"`).is(http.StatusNoContent)
	var c api.Comparison
	d.get(path("/revisions/%s/comparison?with=%s", next.ID, drafted.ID), educator).into(http.StatusOK, &c)
	if len(c.Changes) != 1 || c.Changes[0].Before != "Night bag check" || c.Changes[0].After != "Night bag, checked" || c.Newer.Number != 2 {
		d.t.Errorf("compared: %+v", c)
	}
	d.delete("/revisions/"+next.ID, educator).is(http.StatusNoContent)
	d.post(at+"/retirement", educator, api.Signing{Password: ward.Password}).is(http.StatusNoContent)
	var full api.RevisionInFull
	d.get(at, d.Coordinator).into(http.StatusOK, &full)
	if full.State != "retired" || full.RetiredAt == nil || len(full.Checklist.Sections) == 0 {
		d.t.Errorf("the revision is %+v", full.Revision)
	}
	d.paper(at+"/blank.pdf", d.Coordinator, "%PDF blank Night bag check")
	d.starters()
	var list api.List[api.Skill]
	d.get("/skills", d.Coordinator).into(http.StatusOK, &list)
	if len(list.Items) != len(catalog.Codes())+1 {
		d.t.Errorf("there are %d skills", len(list.Items))
	}
}

// revision is the id of the newest revision of a skill.
func (d *desk) revision(code string) string {
	d.t.Helper()
	var list api.List[api.Skill]
	d.get("/skills", d.Coordinator).into(http.StatusOK, &list)
	i := slices.IndexFunc(list.Items, func(s api.Skill) bool { return s.Code == code })
	if i < 0 {
		d.t.Fatalf("there is no skill %s", code)
	}
	return list.Items[i].Revisions[0].ID
}

// starters are taken up in an agency that is new.
func (d *desk) starters() {
	d.t.Helper()
	admin := d.found("larkmoor")
	var left api.List[api.Starter]
	d.get("/starters", admin).into(http.StatusOK, &left)
	var r api.Revision
	d.post("/starters/suction/adoption", admin, nil).into(http.StatusCreated, &r)
	if len(left.Items) != len(catalog.Codes()) || r.State != "draft" || r.Skill.Code != "suction" {
		d.t.Errorf("of %d starters took up %+v", len(left.Items), r)
	}
}

// found makes another agency and gives its administrator.
func (d *desk) found(code string) assessment.Actor {
	d.t.Helper()
	admin, err := d.Office.FoundAgency(d.t.Context(), office.NewAgency{Code: code, Name: "Agency " + code, Zone: "Europe/Lisbon", Demo: true,
		AdminName: "Head of " + code, AdminEmail: "head@" + code + ".example", AdminPassword: ward.Password})
	if err != nil {
		d.t.Fatal(err)
	}
	var s api.Session
	d.post("/sessions", assessment.Actor{}, api.SignIn{Email: "head@" + code + ".example", Password: ward.Password}).into(http.StatusCreated, &s)
	d.tokens[admin.Person] = s.Token
	return admin
}

// paper asks for a file and compares how it begins.
func (d *desk) paper(at string, who assessment.Actor, begins string) {
	d.t.Helper()
	a := d.get(at, who).is(http.StatusOK)
	if !strings.HasPrefix(string(a.body), begins) || !strings.HasPrefix(a.header.Get("Content-Disposition"), "attachment; filename=") {
		d.t.Errorf("%s: %q, %s", at, a.body, a.header.Get("Content-Disposition"))
	}
}

// tomorrow sets the clock to the next day and lets everybody sign in anew.
func (d *desk) tomorrow() {
	d.Pass(24 * time.Hour)
	clear(d.tokens)
}
