package api_test

import (
	"net/http"

	"wellshown/api"
	"wellshown/assessment"
)

// practice tells of training at work and of assessments of an aide: written down, read, taken back.
func (d *desk) practice(child assessment.ClientID) {
	d.t.Helper()
	aide := d.Aide("Bo Aaker")
	d.Join(aide, child)
	today := d.Today().String()
	d.put(path("/people/%s/hired", aide.Person), d.Coordinator, api.HiredForm{On: today}).is(http.StatusNoContent)
	session := api.InServiceForm{ID: "0197a1d0-0000-7000-8000-0000000000f1", HeldOn: today, Hours: "1:30", Topic: "Preventing falls", Trainer: "Ruth Adeyemi", Counts: true, People: []string{string(aide.Person)}}
	d.post("/in-service", aide, session).problem(http.StatusForbidden)
	d.post("/in-service", d.Educators[0], session).is(http.StatusNoContent)
	d.post("/in-service", d.Educators[0], session).is(http.StatusNoContent)
	var hours api.InService
	d.get(path("/in-service?person=%s", aide.Person), d.Coordinator).into(http.StatusOK, &hours)
	if len(hours.Aides) != 1 || hours.Aides[0].Minutes != 90 || hours.Aides[0].Short != hours.Asked-90 || len(hours.Sessions) != 1 {
		d.t.Errorf("hours %+v", hours)
	}
	d.post(path("/in-service/%s/correction", session.ID), d.Coordinator, api.PlainReason{Reason: "It was another day."}).is(http.StatusNoContent)
	d.put(path("/clients/%s/skilled-care", child), d.Coordinator, api.SkilledCareForm{From: today, Skilled: true, Episodes: today}).is(http.StatusNoContent)
	made := api.SupervisionForm{ID: "0197a1d0-0000-7000-8000-0000000000f2", Aide: string(aide.Person), Client: string(child), Supervisor: string(d.Educators[0].Person), On: today, How: "on site", Watched: true}
	d.post("/supervision", d.Coordinator, made).is(http.StatusNoContent)
	var due api.Supervision
	at := path("/supervision?aide=%s&client=%s", aide.Person, child)
	d.get(at, d.Coordinator).into(http.StatusOK, &due)
	if len(due.Due) != 1 || due.Due[0].By != d.Today().AddDays(14).String() || due.Due[0].WatchBy != d.Today().AddMonths(12).String() || len(due.Made) != 1 || due.Overdue != 0 {
		d.t.Errorf("due %+v", due)
	}
	d.delete(path("/supervision/%s", made.ID), d.Coordinator).is(http.StatusNoContent)
	d.get(at, d.Coordinator).into(http.StatusOK, &due)
	if len(due.Made) != 1 || !due.Made[0].TakenBack {
		d.t.Errorf("taken back: %+v", due)
	}
}
