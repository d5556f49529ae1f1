package api_test

import (
	"net/http"
	"strings"

	"wellshown/api"
	"wellshown/assessment/handover"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// neighbour enters an agency elsewhere, and tells its id here.
func (d *desk) neighbour() string {
	d.t.Helper()
	there := ward.Elsewhere(d.t)
	theirs, err := there.Office.Neighbours(d.t.Context(), there.Admin)
	d.need(err)
	d.need(d.Office.EnterNeighbour(d.t.Context(), d.Admin, office.NeighbourForm{Name: "Elm Nursing", Line: theirs.Line}))
	v, err := d.Office.Neighbours(d.t.Context(), d.Admin)
	d.need(err)
	return string(v.All[0].ID)
}

// proofFromElsewhere tells of a neighbour whose key two people agree on, and of what it
// signed: looked at by anybody, carried in once, and no more once the neighbour has ended.
func (d *desk) proofFromElsewhere() {
	d.t.Helper()
	there := ward.Elsewhere(d.t)
	nan, here := there.Nurse("Nan Orme"), d.Nurse("Nan Orme")
	there.Award(nan, "bagging", there.Client("9Q", "Ana"))
	made, err := there.Office.Handover(d.t.Context(), nan, nan.Person)
	d.need(err)
	theirs, err := there.Office.Neighbours(d.t.Context(), there.Admin)
	d.need(err)
	looked := func(sent []byte, answer string) api.CheckedFile {
		var c api.CheckedFile
		body := d.raw(http.MethodPost, "/check", raw{"application/octet-stream", string(sent)}).into(http.StatusOK, &c).body
		if c.Answer != answer || c.Note != handover.Note || strings.Contains(strings.ReplaceAll(string(body), handover.Note, ""), "current") {
			d.t.Errorf("looked at as %s, not %s: %s", c.Answer, answer, body)
		}
		return c
	}
	if c := looked(made.File, "unknown"); c.Person != "Nan Orme" || c.Fingerprint != theirs.Fingerprint || len(c.Held) == 0 || c.Held[0].How != "was held" || len(c.Entries) == 0 || c.Entries[0].There != nil {
		d.t.Errorf("whose key nobody knows: %+v", c)
	}
	if c := looked([]byte(strings.Replace(string(made.File), `"competent"`, `"perfect!!"`, 1)), "changed"); len(c.Changed) == 0 || c.Person != "" || len(c.Held)+len(c.Entries) != 0 {
		d.t.Errorf("changed, and it tells %+v", c)
	}
	looked([]byte("%PDF-1.7"), "another")
	own, err := d.Office.Handover(d.t.Context(), here, here.Person)
	d.need(err)
	looked(own.File, "here")

	d.post("/neighbours", d.Coordinator, api.NeighbourForm{Name: "Elm Nursing", Line: theirs.Line}).problem(http.StatusForbidden)
	d.post("/neighbours", d.Admin, api.NeighbourForm{Name: "Elm Nursing", Line: "half a line"}).problem(http.StatusUnprocessableEntity)
	d.post("/neighbours", d.Admin, api.NeighbourForm{Name: "Elm Nursing", Line: theirs.Line}).is(http.StatusNoContent)
	var list api.Neighbours
	d.get("/neighbours", d.Coordinator).into(http.StatusOK, &list)
	if len(list.Neighbours) != 1 || list.Neighbours[0].Known || list.Neighbours[0].Fingerprint != theirs.Fingerprint || list.Line == "" {
		d.t.Fatalf("entered: %+v", list)
	}
	at, form := path("/neighbours/%s", list.Neighbours[0].ID), api.TakeInForm{File: string(made.File), Same: true}
	into := path("/people/%s/carried-in/files", string(here.Person))
	d.post(into, d.Educators[0], form).problem(http.StatusUnprocessableEntity) // one person alone says whose key it is
	d.post(at+"/agreement", d.Admin, api.NeighbourAgreement{Compared: true}).problem(http.StatusUnprocessableEntity)
	d.post(at+"/agreement", d.Educators[0], api.NeighbourAgreement{}).problem(http.StatusUnprocessableEntity)
	d.post(at+"/agreement", d.Educators[0], api.NeighbourAgreement{Compared: true}).is(http.StatusNoContent)
	if c := looked(made.File, "known"); len(c.KnownBy) != 1 || c.KnownBy[0].As != "Elm Nursing" {
		d.t.Errorf("agreed to: %+v", c.KnownBy)
	}
	form.Same = false
	d.post(into, d.Educators[0], form).problem(http.StatusUnprocessableEntity)
	form.Same = true
	for n, want := range []int{1, 0} {
		var t api.TakenIn
		d.post(into, d.Educators[0], form).into(http.StatusCreated, &t)
		if t.From != "Elm Nursing" || t.New != want && (n > 0 || t.New == 0) {
			d.t.Errorf("taken in, time %d: %+v", n+1, t)
		}
	}
	d.post(at+"/end", d.Educators[0], api.Reason{Reason: "Their key was lost."}).is(http.StatusNoContent)
	looked(made.File, "ended")
	list = api.Neighbours{}
	d.get("/neighbours", d.Admin).into(http.StatusOK, &list)
	if n := list.Neighbours[0]; n.Known || n.EndedAt == nil || n.EndReason != "Their key was lost." || n.AgreedBy != d.Educators[0].Name {
		d.t.Errorf("ended: %+v", n)
	}
}
