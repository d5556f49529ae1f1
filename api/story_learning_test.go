package api_test

import (
	"net/http"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// learning tells of a plan: its target and choices, what was taught and corrected, and
// practice, of which nothing makes anybody current.
func (d *desk) learning(child assessment.ClientID) {
	d.t.Helper()
	ada, rosa, today := d.Educators[0], d.Family("Rosa Quintero", child), d.Today().String()
	at := path("/people/%s/learning-plan", rosa.Person)
	plan := func(by assessment.Actor) api.LearningPlan {
		var p api.LearningPlan
		d.get(at, by).into(http.StatusOK, &p)
		return p
	}
	before := plan(rosa)
	d.get(at, d.Family("Not Rosa", child)).problem(http.StatusNotFound)
	d.post("/requirements", d.Coordinator, api.RequirementForm{Skill: "bagging", Kind: "family", From: today}).is(http.StatusCreated)
	d.put(path("/people/%s/learning-target", rosa.Person), d.Coordinator, api.LearningTarget{Goal: "other", On: d.Today().AddDays(30).String()}).is(http.StatusNoContent)
	d.post(path("/people/%s/learning-choices", rosa.Person), d.Coordinator, api.LearningChoice{Skill: "bagging", Teacher: string(ada.Person), By: d.Today().AddDays(9).String()}).is(http.StatusNoContent)
	d.put("/learning-days/bagging", d.Coordinator, api.LearningDaysForm{Days: 0}).problem(http.StatusUnprocessableEntity)
	d.put("/learning-days/bagging", d.Coordinator, api.LearningDaysForm{Days: 4}).is(http.StatusNoContent)
	var days api.List[api.LearningDays]
	d.get("/learning-days", d.Coordinator).into(http.StatusOK, &days)
	bagging := func() api.LearningLine {
		for _, l := range plan(ada).Lines {
			if l.Skill.Code == "bagging" {
				return l
			}
		}
		d.t.Fatal("the plan has no bagging")
		return api.LearningLine{}
	}
	if l := bagging(); l.Stage != "not begun" || l.Teacher == nil || l.Teacher.Name != ada.Name || l.By != d.Today().AddDays(9).String() || !l.Chosen || len(days.Items) == 0 || len(plan(ada).Lines) <= len(before.Lines) {
		d.t.Errorf("planned %+v", l)
	}
	d.teaching(rosa)
	if l := bagging(); l.Stage != "not begun" || l.Sessions != 0 {
		d.t.Errorf("taught in a session that was none: %+v", l)
	}
	run := api.PracticeRunForm{Revision: d.revision("bagging"), DoneOn: today, Marks: []api.PracticeMark{{Step: 1, Went: "alone"}}}
	runs := path("/people/%s/practice-runs", rosa.Person)
	helped := run
	helped.Helper = string(ada.Person)
	var own, seen api.WrittenDown
	d.post(runs, rosa, helped).problem(http.StatusUnprocessableEntity)
	d.post(runs, rosa, run).into(http.StatusCreated, &own)
	d.post(runs, ada, helped).into(http.StatusCreated, &seen)
	d.post(runs, d.Nurse("Uli Brenner"), run).problem(http.StatusNotFound)
	if l := bagging(); l.Stage != "practised" || l.Practised != 2 || l.Unseen != 1 || l.Standing != "not started" {
		d.t.Errorf("practised %+v", l)
	}
	var r api.PracticeRun
	d.get(path("/practice-runs/%s", own.ID), rosa).into(http.StatusOK, &r)
	if !r.Unseen || r.Helper != nil || !strings.Contains(r.Says, "not observed") || len(r.Marks) != 1 {
		d.t.Errorf("her own practice is %+v", r)
	}
	back := api.PlainReason{Reason: "It was another day."}
	d.post(path("/practice-runs/%s/taking-back", seen.ID), rosa, back).problem(http.StatusUnprocessableEntity)
	d.post(path("/practice-runs/%s/taking-back", own.ID), rosa, back).is(http.StatusNoContent)
	if a := d.get(at+".pdf?language=es", rosa); !strings.HasPrefix(string(a.body), "%PDF learning plan es Rosa") {
		d.t.Errorf("on paper: %d %.40q", a.status, a.body)
	}
}

// teaching writes a session down twice as one, and corrects it to none.
func (d *desk) teaching(rosa assessment.Actor) {
	d.t.Helper()
	ada := d.Educators[0]
	f := api.TeachingForm{ID: "0197a1d0-0000-7000-8000-0000000000e1", HeldOn: d.Today().String(), Minutes: 30, Teacher: string(ada.Person), Skills: []string{"bagging"}, Learners: []api.TaughtForm{{Person: string(rosa.Person), TaughtHow: api.TaughtHow{Shown: true, TaughtBack: true}}}}
	d.post("/teaching-sessions", rosa, f).problem(http.StatusForbidden)
	d.post("/teaching-sessions", ada, f).is(http.StatusCreated)
	d.post("/teaching-sessions", ada, f).is(http.StatusCreated)
	var s api.TeachingSession
	d.get("/teaching-sessions/"+f.ID, ada).into(http.StatusOK, &s)
	if len(s.Learners) != 1 || !s.Learners[0].TaughtBack || s.Learners[0].Explained || s.Minutes != 30 || s.Teacher.Name != ada.Name {
		d.t.Errorf("taught %+v", s)
	}
	none := f
	none.ID, none.Learners = "", []api.TaughtForm{}
	var next api.WrittenDown
	d.post("/teaching-sessions/"+f.ID+"/correction", ada, api.TeachingCorrection{TeachingForm: none, SignedReason: api.SignedReason{Reason: "She was not there.", Signing: api.Signing{Password: ward.Password}}}).into(http.StatusCreated, &next)
	d.get("/teaching-sessions/"+f.ID, ada).into(http.StatusOK, &s)
	if s.Corrected != next.ID {
		d.t.Errorf("corrected by %q, not %q", s.Corrected, next.ID)
	}
}
