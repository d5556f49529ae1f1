package api_test

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

func (d *desk) standings(learner assessment.Actor, child assessment.ClientID) {
	d.t.Helper()
	on := d.Today().AddDays(1).String()
	var r api.Requirement
	d.post("/requirements", d.Coordinator, api.RequirementForm{Skill: "go-bag", Kind: "family", From: d.Today().String()}).into(http.StatusCreated, &r)
	var all api.PersonStandings
	d.get(path("/people/%s/standings?on=%s", learner.Person, on), learner).into(http.StatusOK, &all)
	i := slices.IndexFunc(all.Items, func(s api.Standing) bool { return s.Skill.Code == "go-bag" })
	if all.On != on || i < 0 || !all.Items[i].Required || all.Items[i].Standing != "learning" || all.Items[i].Client.ID != string(child) {
		d.t.Errorf("standings: %+v", all)
	}
	var g api.Grid
	d.get(path("/grid?on=%s&client=%s&kind=family&skill=go-bag&find=lan", on, child), d.Coordinator).into(http.StatusOK, &g)
	if len(g.Rows) != 1 || len(g.Skills) != 1 || g.Rows[0].Cells[0].Standing != "learning" || g.Rows[0].Cells[0].Holds || !g.Rows[0].Cells[0].Required {
		d.t.Errorf("grid: %+v", g)
	}
	if want := (api.GridCounts{People: 1, Needed: 1, NotYet: 1}); g.Counts != want {
		d.t.Errorf("the grid counts %+v, want %+v", g.Counts, want)
	}
	var rest api.Grid
	d.get(path("/grid?on=%s&limit=1&standing=learning&observer=%s&client=%s&after=%s", on, d.Educators[0].Person, child, learner.Person), d.Coordinator).into(http.StatusOK, &rest)
	if len(rest.Rows) != 0 || rest.Counts.People != 1 || rest.Next != "" {
		d.t.Errorf("the page after the last: %d rows, %+v", len(rest.Rows), rest.Counts)
	}
	d.get("/grid?after=00000000-0000-7000-8000-00000000dead", d.Coordinator).is(http.StatusBadRequest)
	d.paper("/grid.csv?on="+on, d.Coordinator, "on\r\n"+on)
	d.paper("/grid.xlsx?on="+on, d.Coordinator, "PK standings "+on)
	var o api.Overdue
	d.get(path("/overdue?on=%s&within=30&by=skill&client=%s&kind=family", on, child), d.Coordinator).into(http.StatusOK, &o)
	if o.Counts.NotYet != 1 || len(o.Items) != 1 || o.Items[0].Person.Name != learner.Name {
		d.t.Errorf("overdue: %+v", o)
	}
	d.paper("/overdue.pdf?on="+on, d.Coordinator, "%PDF overdue "+on)
	d.paper("/overdue.csv?on="+on, d.Coordinator, "on\r\n"+on)
	d.paper("/overdue.xlsx?on="+on, d.Coordinator, "PK overdue "+on)
	var list api.List[api.Requirement]
	d.put(path("/requirements/%s/end", r.ID), d.Coordinator, api.LastDay{Through: on}).is(http.StatusNoContent)
	d.get("/requirements", learner).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].Through != on {
		d.t.Errorf("requirements: %+v", list)
	}
	var tr api.Transcript
	d.get(path("/people/%s/transcript", learner.Person), learner).into(http.StatusOK, &tr)
	if len(tr.Records) != 2 || len(tr.Certificates) != 1 {
		d.t.Errorf("transcript: %d records, %d certificates", len(tr.Records), len(tr.Certificates))
	}
	d.transcriptPaper(learner)
	d.handover(learner)
}

// handover is a signed file: it is the same to the byte that the house itself takes as unchanged.
func (d *desk) handover(learner assessment.Actor) {
	d.t.Helper()
	a := d.get(path("/people/%s/handover.json", learner.Person), learner)
	a.is(http.StatusOK)
	v, err := d.Office.CheckHandover(d.t.Context(), a.body)
	if err != nil || len(v.Changed) > 0 || !v.Here || v.Opened.Handover.About.Person.Name != learner.Name {
		d.t.Errorf("%v %+v", err, v)
	}
}

// transcriptPaper has a name that a header cannot hold as it is (RFC 6266, RFC 8187).
func (d *desk) transcriptPaper(learner assessment.Actor) {
	d.t.Helper()
	at := path("/people/%s/transcript.pdf", learner.Person)
	d.paper(at, learner, "%PDF transcript en Lan Nguyễn")
	want := `attachment; filename="_ucja _x_.pdf"; filename*=UTF-8''%C5%81ucja%20%22x%22.pdf`
	if got := d.get(at, learner).header.Get("Content-Disposition"); got != want {
		d.t.Errorf("the file is named %s, want %s", got, want)
	}
}

func (d *desk) goingHome(learner assessment.Actor, child assessment.ClientID) {
	d.t.Helper()
	educator, at := d.Educators[0], path("/clients/%s", child)
	d.post(at+"/plan", d.Coordinator, nil).is(http.StatusNoContent)
	own := api.NewCriterion{CriterionForm: api.CriterionForm{Title: "The dog is calm"}, Kind: "attested", ID: "0197a1d0-0000-7000-8000-0000000000c1"}
	var line api.CriterionID
	d.post(at+"/criteria", d.Coordinator, own).into(http.StatusCreated, &line)
	d.post(at+"/criteria", d.Coordinator, own).into(http.StatusCreated, &line)
	d.put("/criteria/"+line.ID, d.Coordinator, api.CriterionForm{Title: "The dog stays calm"}).is(http.StatusNoContent)
	when := d.Now().Add(-time.Hour)
	d.post(path("/criteria/%s/evidence", line.ID), educator, api.EvidenceForm{Word: "met", At: &when, Note: "Two visits."}).is(http.StatusNoContent)
	l := d.line(child, line.ID)
	if l.State != "met" || l.Criterion.Title != "The dog stays calm" || !strings.Contains(strings.Join(l.Evidence, " "), "Two visits.") {
		d.t.Errorf("met: %+v", l)
	}
	d.Pass(time.Minute)
	d.post(path("/criteria/%s/evidence", line.ID), educator, api.EvidenceForm{Word: "not met"}).is(http.StatusNoContent)
	d.Pass(time.Minute)
	d.post(path("/criteria/%s/waiver", line.ID), educator, api.CriterionWaiver{Reason: "No dog any more."}).is(http.StatusNoContent)
	if l = d.line(child, line.ID); l.State != "waived" {
		d.t.Errorf("waived: %+v", l)
	}
	d.Pass(time.Minute)
	d.post(path("/criteria/%s/waiver-end", line.ID), educator, api.CriterionWaiver{Reason: "A new dog."}).is(http.StatusNoContent)
	if l = d.line(child, line.ID); l.State != "not met" {
		d.t.Errorf("no longer waived: %+v", l)
	}
	d.delete("/criteria/"+line.ID, d.Coordinator).is(http.StatusNoContent)
	d.planning(child)
	var s api.Shift
	d.post(at+"/shifts", d.Coordinator, api.ShiftForm{Person: string(learner.Person), Starts: d.Now().Add(48 * time.Hour), Ends: d.Now().Add(56 * time.Hour)}).into(http.StatusCreated, &s)
	r := d.readiness(child)
	if r.Ready || r.Left == 0 || len(r.Shifts) != 1 || !slices.Contains(r.Family, learner.Name) {
		d.t.Errorf("readiness: %+v", r)
	}
	d.delete("/shifts/"+s.ID, d.Coordinator).is(http.StatusNoContent)
	d.paper(path("%s/readiness.pdf?at=%s", at, d.Now().Format(time.RFC3339)), learner, "%PDF readiness en Mira")
	d.paper(path("%s/readiness.pdf?language=es", at), learner, "%PDF readiness es Mira")
}

// planning keeps the template of plans, when the child goes home, and who signed.
func (d *desk) planning(child assessment.ClientID) {
	d.t.Helper()
	at := path("/clients/%s", child)
	var v api.PlanTemplate
	d.get("/plan-template", d.Coordinator).into(http.StatusOK, &v)
	if v.Own || len(v.Lines) != 14 {
		d.t.Errorf("at first: %+v", v)
	}
	d.post("/plan-template", d.Coordinator, nil).is(http.StatusNoContent)
	spanish := &api.PlanForm{TitleSpanish: "El coche está listo", Says: "coordinator"}
	car := api.NewTemplateLine{TemplateLineForm: api.TemplateLineForm{CriterionForm: api.CriterionForm{Title: "The car is ready", Plan: spanish}, Source: "our own"}, Kind: "attested"}
	var line api.CriterionID
	d.post("/plan-template/lines", d.Coordinator, car).into(http.StatusCreated, &line)
	d.put("/plan-template/lines/"+line.ID, d.Coordinator, api.TemplateLineForm{CriterionForm: api.CriterionForm{Title: "The car and the lift are ready"}}).is(http.StatusNoContent)
	d.get("/plan-template", d.Coordinator).into(http.StatusOK, &v)
	if last := v.Lines[len(v.Lines)-1]; !v.Own || last.Says != "coordinator" || last.TitleSpanish != "" || last.Title != "The car and the lift are ready" {
		d.t.Errorf("the last line: %+v", last)
	}
	d.delete("/plan-template/lines/"+line.ID, d.Coordinator).is(http.StatusNoContent)
	d.delete("/plan-template", d.Coordinator).is(http.StatusNoContent)
	home := d.Today().AddDays(20).String()
	d.put(at+"/plan-days", d.Coordinator, api.PlanDays{Home: home}).is(http.StatusNoContent)
	d.signedReady()
	r := d.readiness(child)
	if r.Days.Home != home || r.Signed != nil || r.Version == "" || r.Lines[0].Todo[0].By != home || r.Lines[0].Todo[0].Who != "family" {
		d.t.Errorf("going home: %+v", r)
	}
	d.post(at+"/plan-signature", d.Educators[0], api.PlanSignatureForm{Version: r.Version, Signing: api.Signing{Password: ward.Password}}).is(http.StatusUnprocessableEntity)
}

// signedReady is a plan of one line, which is met, signed as ready by a clinician.
func (d *desk) signedReady() {
	d.t.Helper()
	child, educator := d.Client("3T", "Theo"), d.Educators[0]
	at := path("/clients/%s", child)
	var line api.CriterionID
	d.post(at+"/criteria", d.Coordinator, api.NewCriterion{CriterionForm: api.CriterionForm{Title: "The stairs are safe"}, Kind: "attested"}).into(http.StatusCreated, &line)
	sign := func(version string) *answer {
		d.t.Helper()
		return d.post(at+"/plan-signature", educator, api.PlanSignatureForm{Version: version, Signing: api.Signing{Password: ward.Password}})
	}
	sign(d.readiness(child).Version).is(http.StatusUnprocessableEntity) // it is not ready
	d.post(path("/criteria/%s/evidence", line.ID), educator, api.EvidenceForm{Word: "met"}).is(http.StatusNoContent)
	d.Pass(time.Minute)
	sign("0").is(http.StatusConflict) // nobody has read that
	sign(d.readiness(child).Version)
	if r := d.readiness(child); !r.Ready || r.Signed == nil || !r.Signed.Stands {
		d.t.Errorf("signed: %+v", r)
	}
}

func (d *desk) readiness(child assessment.ClientID) api.Readiness {
	d.t.Helper()
	var r api.Readiness
	d.get(path("/clients/%s/readiness?at=%s", child, d.Now().Format(time.RFC3339)), d.Coordinator).into(http.StatusOK, &r)
	return r
}

func (d *desk) line(child assessment.ClientID, id string) api.ReadinessLine {
	d.t.Helper()
	for _, l := range d.readiness(child).Lines {
		if l.Criterion.ID == id {
			return l
		}
	}
	d.t.Fatalf("the plan has no line %s", id)
	return api.ReadinessLine{}
}

func (d *desk) itself() {
	d.t.Helper()
	var k api.ProblemKind
	d.get("/problems/invalid", assessment.Actor{}).into(http.StatusOK, &k)
	if k.Status != http.StatusUnprocessableEntity || k.Help == "" {
		d.t.Errorf("explained: %+v", k)
	}
	for _, name := range []string{"/openapi.json", "/openapi.yaml"} {
		a := d.get(name, assessment.Actor{}).is(http.StatusOK)
		if !strings.Contains(string(a.body), "/sheets/{id}/marks/{step}") {
			d.t.Errorf("%s is not the document", name)
		}
	}
}
