package api_test

import (
	"net/http"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// incidents tells of an incident: recorded, read, closed once it was shown again; of another
// that is taken back; and of the rules that say what they withdraw.
func (d *desk) incidents(child assessment.ClientID) {
	d.t.Helper()
	signing := api.Signing{Password: ward.Password}
	var rules api.Practice
	d.get("/practice", d.Coordinator).into(http.StatusOK, &rules)
	if rules.IncidentWithdraws != "skill and related" || !rules.IncidentByItself || rules.InService || rules.Supervision || rules.InServiceHours != "12" {
		d.t.Fatalf("rules that nobody has set: %+v", rules)
	}
	rules.InService, rules.Supervision, rules.InServiceYear = true, true, "calendar year"
	d.put("/practice", d.Coordinator, rules).problem(http.StatusForbidden)
	d.put("/practice", d.Admin, rules).is(http.StatusNoContent)
	nurse := d.Nurse("Ove Lindqvist")
	d.Award(nurse, "go-bag", child)
	d.tomorrow()
	form := api.IncidentForm{ID: "0197a1d0-0000-7000-8000-0000000000ef", Person: string(nurse.Person), Skill: "go-bag", Client: string(child), Happened: d.Now().Format(time.RFC3339), Seen: "The bag was at home, the child was not.", Signing: signing}
	var id api.IncidentID
	var made api.IncidentNow
	at := d.post("/incidents", d.Coordinator, form).into(http.StatusCreated, &id).header.Get("Location")
	there := path("/incidents/%s", form.ID)
	d.get(there, d.Educators[0]).into(http.StatusOK, &made)
	if at != api.Base+"/incidents/"+form.ID || !made.Open || len(made.Took) == 0 || !made.Took[0].Stands || made.Took[0].Before == "" || made.Waits == "" {
		d.t.Fatalf("recorded %+v at %q", made, at)
	}
	d.post("/incidents", d.Coordinator, form).into(http.StatusCreated, &id)
	d.get(there, nurse).into(http.StatusOK, &made)
	d.get(there, d.Nurse("Somebody Else")).problem(http.StatusNotFound)
	var all api.List[api.Incident]
	d.get(path("/incidents?person=%s&from=%s&through=%s", nurse.Person, d.Today(), d.Today()), d.Educators[0]).into(http.StatusOK, &all)
	if len(all.Items) != 1 || all.Items[0].Seen != form.Seen {
		d.t.Errorf("listed %+v", all)
	}
	d.tomorrow()
	again := d.Demonstrate(nurse, "go-bag", child)
	d.get(there, d.Educators[1]).into(http.StatusOK, &made)
	closing := api.IncidentClosing{Record: string(again.ID), Note: "Taught where the bag hangs.", Signing: signing}
	d.post(there+"/closing", d.Coordinator, closing).problem(http.StatusForbidden)
	d.post(there+"/closing", d.Educators[1], closing).is(http.StatusNoContent)
	d.post(there+"/closing", d.Educators[1], closing).problem(http.StatusConflict)
	form.ID = "0197a1d0-0000-7000-8000-0000000000f0"
	d.post("/incidents", d.Coordinator, form).into(http.StatusCreated, &id)
	back := api.SignedReason{Reason: "It was recorded twice.", Signing: signing}
	d.post(path("/incidents/%s/correction", form.ID), d.Educators[1], back).is(http.StatusNoContent)
	d.get(path("/incidents/%s", form.ID), d.Educators[1]).into(http.StatusOK, &made)
	if made.Open || made.TakenBack == nil || made.TakenBack.Words != back.Reason {
		d.t.Errorf("taken back: %+v", made)
	}
}
