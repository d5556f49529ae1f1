package api_test

import (
	"net/http"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// packets tells of a packet that is asked for, made beside, looked at and taken away.
func (d *desk) packets(learner assessment.Actor) {
	d.t.Helper()
	form := api.PacketForm{ID: "0197a1d0-0000-7000-8000-0000000000e1", About: "person", Person: string(learner.Person), On: d.Today().String()}
	var made, again api.Packet
	d.post("/packets", d.Coordinator, form).into(http.StatusCreated, &made)
	d.post("/packets", d.Coordinator, form).into(http.StatusCreated, &again)
	if made.ID != form.ID || again.ID != form.ID || made.State != postgres.PacketWaiting || made.Person != learner.Name {
		d.t.Errorf("%+v, %+v", made, again)
	}
	at := path("/packets/%s", made.ID)
	d.get(at+"/packet.pdf", d.Coordinator).problem(http.StatusConflict)
	d.Work(func() bool {
		d.get(at, d.Coordinator).into(http.StatusOK, &again)
		return again.State == postgres.PacketReady
	})
	if again.Total == 0 || again.Done != again.Total || again.Pages != 1 || len(again.SHA256) != 64 || again.Until == nil {
		d.t.Errorf("%+v", again)
	}
	d.paper(at+"/packet.pdf", d.Coordinator, "%PDF packet pdf "+learner.Name)
	d.paper(at+"/packet.json", d.Coordinator, `{"packet":"json `+learner.Name)
	d.paper(at+"/packet.zip", d.Coordinator, "PK packet zip")
	var list api.List[api.Packet]
	d.get("/packets", d.Coordinator).into(http.StatusOK, &list)
	if len(list.Items) != 1 || list.Items[0].ID != made.ID {
		d.t.Errorf("%+v", list)
	}
	form.ID, form.On = "", "2040-01-01"
	d.post("/packets", d.Coordinator, form).problem(http.StatusUnprocessableEntity)
	d.get(at, learner).problem(http.StatusForbidden)
}
