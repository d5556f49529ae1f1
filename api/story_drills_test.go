package api_test

import (
	"net/http"

	"wellshown/api"
	"wellshown/integration/ward"
)

// scenarioForm is a scenario that can be kept.
var scenarioForm = api.ScenarioForm{Source: "Common practice, no source.", English: api.ScenarioText{Title: "T", Read: "R", Then: "T", Recognise: "R", Act: "A", Call: "C"},
	Spanish: api.ScenarioText{Title: "T", Read: "L", Then: "D", Recognise: "R", Act: "A", Call: "P"}}

// drilled begins a drill of somebody that nobody finishes.
func (d *desk) drilled(w treasure) string {
	d.t.Helper()
	id := ward.NewID(d.Now())
	d.put(path("/drills/%s", id), d.Educators[0], api.DrillForm{Learner: string(w.learner.Person), Skill: "decannulation", Client: w.client, Place: "skills room"}).is(http.StatusOK)
	return id
}

// drills tells of an emergency drill: a scenario written, drawn, timed, marked and recorded.
func (d *desk) drills() {
	d.t.Helper()
	ada, who, child := d.Educators[0], d.Nurse("Wim Oster"), d.Client("8D", "Otto")
	d.get("/drills", who).problem(http.StatusForbidden)
	var s api.Scenario
	d.get("/scenarios/decannulation-01", d.Coordinator).into(http.StatusOK, &s)
	form := api.ScenarioForm{Version: s.Version, Source: s.Source, ThenAfter: 40, English: s.English, Spanish: s.Spanish}
	d.put("/scenarios/decannulation-01", d.Coordinator, form).problem(http.StatusForbidden)
	d.put("/scenarios/decannulation-01", ada, form).is(http.StatusNoContent)
	form.Source = "Common practice, no source."
	d.put("/scenarios/decannulation-01", ada, form).problem(http.StatusConflict)
	var own api.ScenarioCode
	d.post("/scenarios", ada, api.NewScenario{Skill: "decannulation", ScenarioForm: form}).into(http.StatusCreated, &own)
	form.Spanish.Call = ""
	d.post("/scenarios", ada, api.NewScenario{Skill: "decannulation", ScenarioForm: form}).problem(http.StatusUnprocessableEntity)
	d.post(path("/scenarios/%s/retirement", own.Code), ada, api.ScenarioRetirement{Retired: true}).is(http.StatusNoContent)

	id := ward.NewID(d.Now())
	begin := api.DrillForm{Learner: string(who.Person), Skill: "decannulation", Client: string(child), Place: "skills room", Scenario: own.Code}
	at := path("/drills/%s", id)
	d.put(at, ada, begin).problem(http.StatusUnprocessableEntity) // it is not offered any more
	d.put(at, ada, map[string]any{"learner": begin.Learner, "skill": begin.Skill, "client": begin.Client, "place": "at home", "formal": false, "real": true}).problem(http.StatusUnprocessableEntity)
	begin.Scenario = ""
	var drill api.Drill
	d.put(at, ada, begin).into(http.StatusOK, &drill)
	if !drill.Drawn || drill.Real || drill.Timed || drill.Scenario.Code == own.Code || drill.Scenario.English.Read == "" {
		d.t.Errorf("begun as %+v", drill)
	}
	d.get(at, d.Educators[1]).problem(http.StatusNotFound)
	d.put(path("/sheets/%s", id), ada, api.SheetForm{Learner: begin.Learner, Skill: begin.Skill, Client: begin.Client, Place: "at home", Real: true}).problem(http.StatusConflict)
	one, beyond := 31, 3601
	d.put(at+"/moments", ada, api.DrillMoments{Recognised: &beyond}).problem(http.StatusUnprocessableEntity)
	d.put(at+"/moments", ada, api.DrillMoments{Acted: &one, TakenBack: []api.DrillTap{{Moment: "called", Seconds: 3}}}).is(http.StatusOK)
	d.get(at, ada).into(http.StatusOK, &drill)
	if !drill.Timed || drill.Moments.Recognised != nil || *drill.Moments.Acted != 31 || len(drill.Moments.TakenBack) != 1 {
		d.t.Errorf("timed as %+v", drill)
	}
	d.put(path("/sheets/%s/stop", id), ada, api.Stop{Reason: "The manikin fell."}).is(http.StatusOK)
	var r api.Demonstration
	d.post(path("/sheets/%s/record", id), ada, nil).into(http.StatusCreated, &r)
	if r.Drill == nil || *r.Drill.Moments.Acted != 31 || r.Real || r.Outcome != "stopped for safety" {
		d.t.Errorf("recorded as %+v", r.Drill)
	}
	var all api.Drills
	d.get("/drills", d.Coordinator).into(http.StatusOK, &all)
	if len(all.Last) != 1 || all.Last[0].Record.ID != id {
		d.t.Errorf("last drills: %+v", all.Last)
	}
}
