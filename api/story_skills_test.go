package api_test

import (
	"net/http"
	"slices"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// skillsDays tells of a skills day: planned, changed, looked at from all sides, ended.
func (d *desk) skillsDays(learner assessment.Actor, child assessment.ClientID) {
	d.t.Helper()
	nurse := d.Nurse("Pia Lund")
	form := api.SkillsDayForm{On: d.Today().String(), Name: "Winter skills day", Place: "skills room", Learners: []string{string(learner.Person), string(nurse.Person)},
		Stations: []api.StationForm{{No: 1, Skill: "bagging", Observer: string(d.Educators[0].Person), Client: string(child)}}}
	plan := api.NewSkillsDay{SkillsDayForm: form, ID: "0197a1d0-0000-7000-8000-0000000000dd"}
	var v, again api.SkillsDay
	made := d.post("/skills-days", d.Coordinator, plan).into(http.StatusCreated, &v)
	d.post("/skills-days", d.Coordinator, plan).into(http.StatusCreated, &again)
	at := "/skills-days/" + v.ID
	if v.ID != plan.ID || again.Version != v.Version || made.header.Get("Location") != api.Base+at || len(v.Stations) != 1 || v.Stations[0].Closed != "" || len(v.Learners) != 2 || v.Learners[0].Visits[0].Station != 1 {
		d.t.Errorf("planned %+v at %q, then %+v", v, made.header.Get("Location"), again)
	}
	change := api.ChangedSkillsDay{SkillsDayForm: form, Version: v.Version}
	change.Stations = append(change.Stations, api.StationForm{No: 4, Skill: "go-bag", Observer: string(d.Educators[0].Person), Client: string(child)})
	d.put(at, d.Educators[0], change).into(http.StatusOK, &v)
	d.put(at, d.Educators[0], change).problem(http.StatusConflict)
	d.get(at, d.Admin).into(http.StatusOK, &v)
	if len(v.Stations) != 2 || v.Stations[1].No != 4 || v.Stations[1].Client.ID != string(child) {
		d.t.Errorf("changed to %+v", v)
	}
	var own api.List[api.SkillsDay]
	d.get(path("/me/skills-days?on=%s", d.Today()), d.Educators[0]).into(http.StatusOK, &own)
	if len(own.Items) != 1 || own.Items[0].ID != v.ID || len(own.Items[0].Stations) != 2 {
		d.t.Errorf("the educator takes along %+v", own)
	}
	shown := d.Demonstrate(nurse, "bagging", child, ward.Simulated)
	var card api.SkillsDayLearner
	d.get(path("%s/learners/%s", at, nurse.Person), d.Coordinator).into(http.StatusOK, &card)
	i := slices.IndexFunc(card.Visits, func(v api.Visit) bool { return v.Station == 1 })
	if s := card.Visits[i].Shown; card.Person.Name != "Pia Lund" || len(s) != 1 || s[0].ID != string(shown.ID) || !s[0].Signed || s[0].Outcome != "competent" {
		d.t.Errorf("the card says %+v", card)
	}
	var floor api.StationFloor
	d.get(at+"/stations/1", d.Coordinator).into(http.StatusOK, &floor)
	if len(floor.Done) != 1 || floor.Done[0].Name != "Pia Lund" || floor.Station.Skill.Code != "bagging" {
		d.t.Errorf("at station 1: %+v", floor)
	}
	for _, none := range []string{"/stations/9", "/stations/one", "/learners/" + string(d.Coordinator.Person)} {
		d.get(at+none, d.Coordinator).problem(http.StatusNotFound)
	}
	d.daysTakenAlong(v, nurse, string(shown.ID))
	d.paper(at+"/cards.pdf", d.Coordinator, "%PDF cards Winter skills day")
	d.post(at+"/end", d.Coordinator, nil).is(http.StatusNoContent)
	d.post(at+"/end", d.Coordinator, nil).problem(http.StatusConflict)
	var all api.List[api.SkillsDaySummary]
	d.get("/skills-days", d.Coordinator).into(http.StatusOK, &all)
	if len(all.Items) != 1 || all.Items[0].EndedAt == nil || all.Items[0].StationCount != 2 || all.Items[0].LearnerCount != 2 {
		d.t.Errorf("listed: %+v", all)
	}
}

// daysTakenAlong has the first educator's device take the day along, on which a learner
// has shown bagging at station 1.
func (d *desk) daysTakenAlong(day api.SkillsDay, learner assessment.Actor, shown string) {
	d.t.Helper()
	var p api.Pack
	d.get(path("/bedside/pack?device=%s", d.Device(d.Educators[0]).ID), d.Educators[0]).into(http.StatusOK, &p)
	if len(p.Days) != 1 || p.Days[0].ID != day.ID || p.Days[0].On != day.On || len(p.Days[0].Stations) != 2 {
		d.t.Fatalf("the pack has %+v", p.Days)
	}
	first, second := p.Days[0].Stations[0], p.Days[0].Stations[1]
	i := slices.IndexFunc(first.Learners, func(v api.PackVisit) bool { return v.ID == string(learner.Person) })
	if first.No != 1 || first.Skill != "bagging" || first.Specific || first.Closed != "" || i < 0 || first.Learners[i].Shown[0].ID != shown || !second.Specific || second.Client.FirstName == "" {
		d.t.Errorf("taken along: %+v", p.Days[0].Stations)
	}
}

// A plan is refused at its fields, and a program plans none.
func TestPlanningASkillsDayByProgram(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	form := api.NewSkillsDay{SkillsDayForm: api.SkillsDayForm{On: d.Today().String(), Name: "Winter", Place: "hall", Learners: []string{},
		Stations: []api.StationForm{{No: 1, Skill: "go-bag", Observer: string(d.Educators[0].Person)}}}}
	if says := field(t, d.post("/skills-days", d.Coordinator, form).problem(http.StatusUnprocessableEntity), "stations"); says == "" {
		t.Error("a station without its child is not refused at its field")
	}
	token := d.made(1, assessment.ReadSkillsDays)
	d.by(token.Secret, "POST", "/skills-days", form).problem(http.StatusForbidden)
	d.by(token.Secret, "GET", "/skills-days", nil).is(http.StatusOK)
	d.by(token.Secret, "GET", "/me/skills-days", nil).problem(http.StatusForbidden)
}
