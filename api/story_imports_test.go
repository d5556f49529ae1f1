package api_test

import (
	"net/http"
	"reflect"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// list sends a list as a program does and looks at what it will do.
func (d *desk) list(kind, content string) api.Import {
	d.t.Helper()
	var sent api.ListSent
	at := d.post("/imports?name=staff.csv&kind="+kind, d.Coordinator, raw{"application/octet-stream", content}).into(http.StatusCreated, &sent).header.Get("Location")
	if at != api.Base+"/imports/"+sent.ID {
		d.t.Errorf("a list was sent to %q", at)
	}
	var v api.Import
	d.get(path("/imports/%s", sent.ID), d.Coordinator).into(http.StatusOK, &v)
	return v
}

// lists tells of lists: sent, looked at, refused, answered, brought in, thrown away.
func (d *desk) lists() {
	d.t.Helper()
	known := d.Nurse("Quill Ashby")
	bad := d.list("people", "name;kind\nSol Marsh;doctor\n")
	if len(bad.Faults) != 1 || bad.Faults[0].Row != 2 || bad.Faults[0].Column != "kind" || bad.Rows[0].Does != "fault" {
		d.t.Errorf("faults: %+v", bad)
	}
	refusal := d.post(path("/imports/%s/carrying-out", bad.ID), d.Coordinator, api.ImportForm{Version: bad.Version}).problem(http.StatusUnprocessableEntity)
	if !strings.Contains(refusal.Detail, "row 2, kind") {
		d.t.Errorf("refused with %q", refusal.Detail)
	}
	d.delete(path("/imports/%s", bad.ID), d.Coordinator).is(http.StatusNoContent)
	d.delete(path("/imports/%s", bad.ID), d.Coordinator).problem(http.StatusNotFound)
	good := d.list("people", "name;kind\nASHBY, Quill;nurse\nSol Marsh;aide\n")
	if good.Form != "CSV" || good.Encoding != "UTF-8" || good.Rows[0].Does != "asks" || good.Rows[0].Asks.Choices[0].ID != string(known.Person) || good.Rows[1].Does != "new" {
		d.t.Errorf("looked at: %+v", good)
	}
	var waiting []api.WaitingList
	d.get("/imports", d.Coordinator).into(http.StatusOK, &waiting)
	if len(waiting) != 1 || waiting[0].ID != good.ID || waiting[0].Name != "staff.csv" {
		d.t.Errorf("waiting: %+v", waiting)
	}
	at, form := path("/imports/%s/carrying-out", good.ID), api.ImportForm{Version: good.Version}
	d.post(at, d.Coordinator, form).problem(http.StatusUnprocessableEntity)
	form.Answers = []api.ImportAnswer{{Row: 2, Person: string(known.Person)}}
	d.post(at, d.Educators[0], form).problem(http.StatusForbidden)
	var done api.Imported
	d.post(at, d.Coordinator, form).into(http.StatusCreated, &done)
	if done != (api.Imported{Kind: "people", New: 1, There: 1}) {
		d.t.Errorf("brought in %+v", done)
	}
	d.post("/imports?kind=people", d.Coordinator, raw{"application/octet-stream", "%PDF-1.7"}).problem(http.StatusUnprocessableEntity)
	too := d.post("/imports?kind=people", d.Coordinator, raw{"application/octet-stream", strings.Repeat("x", office.MostImportBytes+1)}).problem(http.StatusRequestEntityTooLarge)
	if !strings.Contains(too.Detail, "a list has at most 4 MB") {
		d.t.Errorf("too large: %q", too.Detail)
	}
	d.carried(known)
}

// carried tells of what was shown elsewhere; it is no standing.
func (d *desk) carried(who assessment.Actor) {
	d.t.Helper()
	v := d.list("carried-in", "person,skill,observed on,valid through,signed by,where\nQuill Ashby,bagging,2025-05-05,2030-05-05,A. Roe,Old Town Hospital\n")
	d.post(path("/imports/%s/carrying-out", v.ID), d.Coordinator, api.ImportForm{Version: v.Version}).is(http.StatusCreated)
	var c api.CarriedIn
	d.get(path("/people/%s/carried-in", who.Person), who).into(http.StatusOK, &c)
	if len(c.Lines) != 1 || c.Lines[0].Skill.Code != "bagging" || c.Lines[0].ByThePaper != "2030-05-05" || !reflect.DeepEqual(c.Lines[0].Papers, []int{}) {
		d.t.Errorf("carried in: %+v", c)
	}
	if word := d.Standing(who, "bagging", "", d.Today()).Word; word != assessment.NotStarted {
		d.t.Errorf("their standing is %s", word)
	}
}
