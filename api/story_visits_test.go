package api_test

import (
	"net/http"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// weekday is a day, or the Monday after it: nobody is visited at weekends unless it is said.
func weekday(d civil.Date) civil.Date {
	for d.Weekday() == time.Saturday || d.Weekday() == time.Sunday {
		d = d.AddDays(1)
	}
	return d
}

// visits tells of the plan of visits: asked for, kept, planned by hand, moved, taken off.
func (d *desk) visits(child assessment.ClientID) {
	d.t.Helper()
	d.Require("go-bag", assessment.Nurse)
	nurse := d.Nurse("Una Berg")
	d.Join(nurse, child)
	var v api.Visits
	d.get("/visits?weeks=4", d.Coordinator).into(http.StatusOK, &v)
	if len(v.Proposed) == 0 || v.Gaps == 0 || v.Version == "" {
		d.t.Fatalf("nothing is proposed: %+v", v)
	}
	one := api.KeptVisits{Weeks: 4, Version: v.Version, Visits: []string{v.Proposed[0].Key}}
	d.post("/visits/proposal", d.Coordinator, one).is(http.StatusNoContent)
	d.post("/visits/proposal", d.Coordinator, one).problem(http.StatusConflict)
	planned := len(v.Planned)
	d.get("/visits?weeks=4", d.Educators[0]).into(http.StatusOK, &v)
	if len(v.Planned) != planned+1 || v.Planned[0].ID == "" {
		d.t.Errorf("kept: %+v", v.Planned)
	}
	day := weekday(d.Today().AddDays(50))
	form := api.VisitForm{ID: "0197a1d0-0000-7000-8000-0000000000de", Client: string(child), Educator: string(d.Educators[1].Person), On: day.String()}
	var made, then api.VisitThen
	at := d.post("/visits", d.Coordinator, form).into(http.StatusCreated, &made).header.Get("Location")
	d.post("/visits", d.Coordinator, form).into(http.StatusCreated, &made)
	if made.Visit.ID != form.ID || at != api.Base+"/visits/"+form.ID || made.Visit.On != form.On {
		d.t.Errorf("planned %+v at %q", made, at)
	}
	there := path("/visits/%s", form.ID)
	to := weekday(day.AddDays(1))
	d.get(path("/visits/%s?on=%s&educator=%s", form.ID, to, d.Educators[0].Person), d.Coordinator).into(http.StatusOK, &then)
	if then.On != to.String() || then.Educator.ID != string(d.Educators[0].Person) || len(then.Faults) != 0 {
		d.t.Errorf("moved it would be %+v", then)
	}
	move := api.VisitMoved{On: to.String(), Educator: string(d.Educators[0].Person), Version: then.Version}
	d.put(there, d.Educators[0], move).problem(http.StatusForbidden)
	d.put(there, d.Coordinator, move).is(http.StatusNoContent)
	d.put(there, d.Coordinator, move).problem(http.StatusConflict)
	d.delete(there, d.Coordinator).is(http.StatusNoContent)
	d.delete(there, d.Coordinator).problem(http.StatusNotFound)
}
