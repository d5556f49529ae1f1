package api_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// certified has somebody show a skill twice, on two days, and gives the certificate
// that comes of it.
func (d *desk) certified(learner assessment.Actor, child assessment.ClientID) api.Certificate {
	d.t.Helper()
	observer := d.Educators[0]
	d.sheetThrownAway(learner, child)
	first := d.demonstrate("0197a1d0-0000-7000-8000-000000000001", learner, child)
	if first.Certificate != nil {
		d.t.Error("the first of two demonstrations brings a certificate")
	}
	d.tomorrow()
	second := d.demonstrate("0197a1d0-0000-7000-8000-000000000002", learner, child)
	if second.Certificate == nil || len(second.Signatures) != 2 || second.Score == nil || second.Score.Percent != "100" {
		d.t.Fatalf("after the second: %+v", second.DemonstrationHead)
	}
	var list api.List[api.DemonstrationHead]
	d.get(path("/demonstrations?learner=%s&from=2026-01-01&limit=10", learner.Person), observer).into(http.StatusOK, &list)
	if len(list.Items) != 2 || list.Items[0].ID != second.ID {
		d.t.Errorf("listed: %+v", list)
	}
	d.paper(path("/demonstrations/%s/record.pdf", second.ID), learner, "%PDF record en Lan Nguyễn")
	d.certificate(learner, *second.Certificate)
	return *second.Certificate
}

func (d *desk) certificate(learner assessment.Actor, want api.Certificate) {
	d.t.Helper()
	var list api.List[api.Certificate]
	d.get(path("/certificates?person=%s", learner.Person), learner).into(http.StatusOK, &list)
	var got api.Certificate
	d.get("/certificates/"+want.ID, d.Coordinator).into(http.StatusOK, &got)
	if len(list.Items) != 1 || list.Items[0].Code != want.Code || got.SHA256 != want.SHA256 {
		d.t.Errorf("certificates: %+v, %+v, want %+v", list, got, want)
	}
	at := path("/certificates/%s/certificate.pdf", want.ID)
	d.paper(at, learner, "%PDF-1.4\nLan Nguyễn\n")
	tag := d.get(at, learner).header.Get("ETag")
	same := d.send(http.MethodGet, at, learner, nil, "If-None-Match", `"other", W/`+tag).is(http.StatusNotModified)
	if tag == "" || same.header.Get("ETag") != tag || len(same.body) > 0 || same.header.Get("Content-Type") != "" {
		d.t.Errorf("not modified: %v, %d bytes", same.header, len(same.body))
	}
	var c api.Checked
	d.get("/check/"+strings.ToLower(want.Code), assessment.Actor{}).into(http.StatusOK, &c)
	if c.Person != "Lan Nguyễn" || !c.Holds || c.Standing != "current" || c.SHA256 != want.SHA256 || !c.ForChild {
		d.t.Errorf("checked: %+v", c)
	}
}

// demonstrate goes from the open sheet to both signatures.
func (d *desk) demonstrate(id string, learner assessment.Actor, child assessment.ClientID) api.Demonstration {
	d.t.Helper()
	observer := d.Educators[0]
	at := "/sheets/" + id
	form := api.SheetForm{Learner: string(learner.Person), Skill: "go-bag", Client: string(child), Place: "at home", Real: true, Formal: true}
	var s, again api.Sheet
	d.put(at, observer, form).into(http.StatusOK, &s)
	d.put(at, observer, form).into(http.StatusOK, &again)
	d.fits(s)
	if s.ID != id || s.Checklist == nil || len(s.Open) == 0 || again.OpenedAt != s.OpenedAt {
		d.t.Errorf("opened %+v, then %+v", s.SheetHead, again.SheetHead)
	}
	d.markEverything(at, observer)
	d.get(at, observer).into(http.StatusOK, &s)
	if len(s.Open) > 0 || s.Marked != len(s.Marks) {
		d.t.Fatalf("all is marked, but open are %+v", s.Open)
	}
	var r, twice api.Demonstration
	made := d.post(at+"/record", observer, nil).into(http.StatusCreated, &r)
	d.post(at+"/record", observer, nil).into(http.StatusCreated, &twice)
	if r.Outcome != "competent" || made.header.Get("Location") != api.Base+"/demonstrations/"+id || twice.SHA256 != r.SHA256 {
		d.t.Errorf("recorded %+v at %q, then %+v", r.DemonstrationHead, made.header.Get("Location"), twice.DemonstrationHead)
	}
	var waiting api.List[api.DemonstrationHead]
	d.get("/demonstrations/awaiting-me", learner).into(http.StatusOK, &waiting)
	if len(waiting.Items) != 1 {
		d.t.Errorf("%d records wait for the learner", len(waiting.Items))
	}
	for _, part := range []string{"observer", "learner", "learner"} {
		d.post(path("/demonstrations/%s/signatures", id), observer, api.SignatureForm{Part: part, Signing: api.Signing{Password: ward.Password}}).into(http.StatusCreated, &r)
	}
	d.get("/demonstrations/"+id, learner).into(http.StatusOK, &r)
	return r
}

// fits checks that ranges stand on a sheet as they are for the child: the ward
// orders a tracheostomy tube of 4 mm, a suction pressure of 80 to 100 mmHg.
func (d *desk) fits(s api.Sheet) {
	d.t.Helper()
	found := 0
	for _, section := range s.Checklist.Sections {
		for _, step := range section.Steps {
			for _, m := range step.Measures {
				if strings.Contains(m.Accepted, "{") {
					d.t.Errorf("step %d: %s of a child's sheet is %q", step.No, m.Name, m.Accepted)
				}
				if m.Low == "80" && m.High == "100" && m.Unit == "mmHg" && strings.Contains(m.Accepted, "80 to 100 mmHg") {
					found++
				}
			}
		}
	}
	if found != 1 {
		d.t.Errorf("the range of the suction pressure stands %d times on the sheet", found)
	}
}

// markEverything marks the first step by itself and the others at once.
func (d *desk) markEverything(at string, observer assessment.Actor) {
	d.t.Helper()
	id := assessment.DemonstrationID(at[len("/sheets/"):])
	v, err := d.Office.Sheet(d.t.Context(), observer, id)
	if err != nil {
		d.t.Fatal(err)
	}
	var all api.StepMarks
	for _, step := range v.Checklist.Steps() {
		m := markOf(d.t, step, v.Parameters)
		if step.No == 1 {
			d.put(at+"/marks/1", observer, m).is(http.StatusOK)
			continue
		}
		all.Marks = append(all.Marks, api.StepMark{Step: step.No, MarkForm: m})
	}
	d.put(at+"/marks", observer, all).is(http.StatusOK)
}

func markOf(t *testing.T, step assessment.Step, known assessment.Parameters) api.MarkForm {
	t.Helper()
	f := ward.Form(t, step, known, assessment.Independent)
	m := api.MarkForm{Mark: f.Mark, Readings: map[string]api.Reading{}}
	for name, r := range f.Readings {
		m.Readings[name] = api.Reading{Value: r.Value, Unit: r.Unit}
	}
	return m
}

// sheetThrownAway marks, takes back, stops and goes on, which cannot be thrown away
// any more, and throws another away.
func (d *desk) sheetThrownAway(learner assessment.Actor, child assessment.ClientID) {
	d.t.Helper()
	observer, at := d.Educators[0], "/sheets/0197a1d0-0000-7000-8000-0000000000ff"
	d.put(at, observer, api.SheetForm{Learner: string(learner.Person), Skill: "go-bag", Client: string(child), Place: "at home", Formal: false}).is(http.StatusOK)
	var s api.Sheet
	d.put(at+"/marks/1", observer, api.MarkForm{Mark: "unsafe", Note: "Dropped it."}).into(http.StatusOK, &s)
	if len(s.Marks) != 1 || s.Marks[0].Mark != "unsafe" || s.Marks[0].Note != "Dropped it." {
		d.t.Errorf("marked: %+v", s.Marks)
	}
	d.delete(at+"/marks/1", observer).into(http.StatusOK, &s)
	if s.Marked != 0 {
		d.t.Errorf("taken back: %+v", s.Marks)
	}
	d.put(at+"/stop", observer, api.Stop{Reason: "The child coughed."}).into(http.StatusOK, &s)
	if !s.Stopped || s.StopReason != "The child coughed." {
		d.t.Errorf("stopped: %+v", s.SheetHead)
	}
	d.delete(at+"/stop", observer).into(http.StatusOK, &s)
	var list api.List[api.SheetHead]
	d.get("/sheets", observer).into(http.StatusOK, &list)
	if s.Stopped || len(list.Items) != 1 {
		d.t.Errorf("goes on: %+v, listed: %+v", s.SheetHead, list)
	}
	if refusal := d.delete(at, observer).problem(http.StatusUnprocessableEntity); !strings.Contains(refusal.Detail, "taken back") {
		d.t.Errorf("thrown away after a stop: %+v", refusal)
	}
	plain := at[:len(at)-1] + "e"
	d.put(plain, observer, api.SheetForm{Learner: string(learner.Person), Skill: "go-bag", Client: string(child), Place: "at home", Formal: false}).is(http.StatusOK)
	d.put(plain+"/marks/1", observer, api.MarkForm{Mark: "cued"}).is(http.StatusOK)
	d.delete(plain, observer).is(http.StatusNoContent)
	d.get(plain, observer).problem(http.StatusNotFound)
}

// exceptions take the competency away and give it back, excuse, log and correct.
func (d *desk) exceptions(learner assessment.Actor, child assessment.ClientID, c api.Certificate) {
	d.t.Helper()
	person, client, educator := string(learner.Person), string(child), d.Educators[0]
	at := path("/standings?person=%s&skill=go-bag&client=%s", person, client)
	d.post("/withdrawals", d.Coordinator, api.WithdrawalForm{Person: person, Skill: "go-bag", Client: client, Until: "reinstated", Reason: "Seen without it.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	var s api.Standing
	d.get(at, d.Coordinator).into(http.StatusOK, &s)
	if s.Standing != "withdrawn" || s.Holds || len(s.Because) != 1 || !s.Next.Reinstatement {
		d.t.Fatalf("withdrawn: %+v", s)
	}
	var public api.Checked
	d.get("/check/"+c.Code, assessment.Actor{}).into(http.StatusOK, &public)
	if public.Holds || public.Standing != "withdrawn" {
		d.t.Errorf("the certificate of what was withdrawn: %+v", public)
	}
	d.post(path("/withdrawals/%s/reinstatement", s.Because[0]), educator, api.SignedReason{Reason: "It was in the car.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	d.get(at, d.Coordinator).into(http.StatusOK, &s)
	if s.Standing != "current" || !s.Holds {
		d.t.Errorf("reinstated: %+v", s)
	}
	d.Pass(time.Hour)
	d.post("/withdrawals", d.Coordinator, api.WithdrawalForm{Person: person, Skill: "go-bag", Client: client, Until: "redemonstrated", Reason: "Seen without it.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	d.get(at, d.Coordinator).into(http.StatusOK, &s)
	d.post(path("/entries/withdrawal/%s/correction", s.Because[0]), educator, api.SignedReason{Reason: "It was somebody else.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	if d.get(at, d.Coordinator).into(http.StatusOK, &s); !s.Holds {
		d.t.Errorf("the withdrawal was taken back: %+v", s)
	}
	d.post("/waivers", educator, api.WaiverForm{Person: person, Skill: "bagging", From: d.Today().String(), Through: d.Today().AddDays(5).String(), Reason: "On leave.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	d.post("/logs", d.Coordinator, api.LogForm{Person: person, Skill: "go-bag", Client: client, Kind: "teaching", On: d.Today().String(), Note: "One hour."}).is(http.StatusNoContent)
	d.post(path("/demonstrations/%s/correction", c.DemonstrationID), d.Educators[1], api.SignedReason{Reason: "The wrong child.", Signing: api.Signing{Password: ward.Password}}).is(http.StatusNoContent)
	var r api.Demonstration
	d.get("/demonstrations/"+c.DemonstrationID, educator).into(http.StatusOK, &r)
	d.get(at, d.Coordinator).into(http.StatusOK, &s)
	if r.Correction == nil || r.Correction.Reason != "The wrong child." || s.Holds {
		d.t.Errorf("taken back: %+v, and the standing is %+v", r.Correction, s)
	}
}
