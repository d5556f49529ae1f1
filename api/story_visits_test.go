package api_test

import (
	"net/http"
	"slices"
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
	d.paper("/visits.ics?weeks=4", d.Coordinator, "BEGIN:VCALENDAR "+v.Until)
	d.paper("/visits.pdf?weeks=4", d.Coordinator, "%PDF visits "+v.Until)
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
	d.weeksAndWays(child)
}

// weeksAndWays says how an educator's weeks are and how long a way is, and takes both back.
func (d *desk) weeksAndWays(child assessment.ClientID) {
	d.t.Helper()
	who := d.Educators[1]
	weeks := api.WeeksForm{DaysOff: []int{7}, PerDay: 2, Base: "Office"}
	d.put(path("/visits/weeks/%s", who.Person), d.Coordinator, weeks).is(http.StatusNoContent)
	d.put(path("/visits/weeks/%s", who.Person), d.Educators[0], weeks).problem(http.StatusForbidden)
	weeks.PerDay = 13
	d.put(path("/visits/weeks/%s", who.Person), d.Coordinator, weeks).problem(http.StatusUnprocessableEntity)
	off := api.DaysOffForm{Educator: string(who.Person), From: d.Today().AddDays(1).String()}
	d.post("/visits/days-off", d.Coordinator, off).is(http.StatusNoContent)
	way := api.WayForm{Client: string(child), Base: "office", Minutes: 25}
	d.post("/visits/ways", d.Coordinator, way).is(http.StatusNoContent)
	way.Other = string(child)
	d.post("/visits/ways", d.Coordinator, way).problem(http.StatusUnprocessableEntity)
	seen := func() (api.VisitWeeks, []api.Way) {
		var v api.Visits
		d.get("/visits", d.Coordinator).into(http.StatusOK, &v)
		i := slices.IndexFunc(v.Weeks, func(w api.VisitWeeks) bool { return w.Educator.ID == string(who.Person) })
		return v.Weeks[i], v.Ways
	}
	w, ways := seen()
	if !w.Set || !slices.Equal(w.DaysOff, []int{7}) || w.PerDay != 2 || w.Base != "Office" || len(w.Off) != 1 || w.Off[0].From != off.From || w.Off[0].Through != off.From || len(ways) != 1 || ways[0].To != "Office" || ways[0].Minutes != 25 {
		d.t.Errorf("set: %+v, %+v", w, ways)
	}
	d.delete("/visits/days-off/"+w.Off[0].ID, d.Coordinator).is(http.StatusNoContent)
	d.delete("/visits/ways/"+ways[0].ID, d.Coordinator).is(http.StatusNoContent)
	d.delete("/visits/ways/"+ways[0].ID, d.Coordinator).problem(http.StatusNotFound)
	if w, ways = seen(); len(w.Off) != 0 || len(ways) != 0 {
		d.t.Errorf("taken back: %+v, %+v", w, ways)
	}
}
