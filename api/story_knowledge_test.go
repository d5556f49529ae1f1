package api_test

import (
	"net/http"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// sat begins a check of somebody.
func (d *desk) sat(who assessment.Actor) string {
	d.t.Helper()
	ctx := d.t.Context()
	_, err := d.Office.TakeStarterItems(ctx, d.Educators[0], "bagging")
	d.need(err)
	d.need(d.Office.SetCheckRule(ctx, d.Educators[0], office.RuleForm{Skill: "bagging", Asked: "to learn", Length: "10", PassMark: "9/10"}))
	id, err := d.Office.BeginCheck(ctx, who, "bagging", "en")
	d.need(err)
	return string(id)
}

// knowledge tells of a check: its items taken in, its rule set, taken, handed in and looked at.
func (d *desk) knowledge() {
	d.t.Helper()
	ada, who := d.Educators[0], d.Nurse("Uma Kerr")
	var added api.ItemsAdded
	d.post("/checks/suction/starters", who, nil).problem(http.StatusForbidden)
	d.post("/checks/suction/starters", ada, nil).into(http.StatusCreated, &added)
	if added.Added < 10 {
		d.t.Errorf("%d starter items", added.Added)
	}
	d.post("/checks/suction/sittings", who, api.BeginCheckForm{Language: "es"}).problem(http.StatusNotFound) // not asked yet
	rule := api.CheckRuleForm{Asked: "before it is shown", Length: 10, PassMark: "9/10", Months: 12, WaitHours: 24, Tries: 3}
	d.put("/checks/suction/rule", ada, rule).is(http.StatusNoContent)
	rule.PassMark = "10/9"
	d.put("/checks/suction/rule", ada, rule).problem(http.StatusUnprocessableEntity)
	var bank api.CheckBank
	d.get("/checks/suction", d.Coordinator).into(http.StatusOK, &bank)
	d.get("/checks/suction", who).problem(http.StatusForbidden)
	d.paper("/checks/suction/questions.pdf?language=es", ada, "%PDF 13 questions on Tracheostomy suctioning")
	d.get("/checks/suction/questions.pdf", who).problem(http.StatusForbidden)
	d.post("/checks/suction/items", ada, api.ItemsForm{Items: strings.Replace(bank.Text, "mmHg", "mmHg ", 1)}).is(http.StatusCreated)
	var s, again api.Sitting
	d.post("/checks/suction/sittings", who, api.BeginCheckForm{Language: "es"}).into(http.StatusCreated, &s)
	d.post("/checks/suction/sittings", who, api.BeginCheckForm{Language: "es"}).into(http.StatusCreated, &again)
	if s.ID != again.ID || len(s.Questions) != 10 || s.Language != "es" {
		d.t.Fatalf("begun twice: %+v", again)
	}
	for _, q := range s.Questions {
		if q.Teach != "" || q.Wanted != nil || q.Right != nil || q.Critical != nil {
			d.t.Errorf("question %d tells what is right before it was handed in", q.Place)
		}
		if q.Kind == "single" {
			at := path("/sittings/%s/answers/%d", s.ID, q.Place)
			d.put(at, who, api.AnswerForm{Chosen: []int{1}}).is(http.StatusNoContent)
			d.put(at, who, api.AnswerForm{Chosen: []int{8}}).problem(http.StatusUnprocessableEntity)
			d.put(at, d.Nurse("Not "+s.ID[:4]+q.Ask[:3]), api.AnswerForm{Chosen: []int{1}}).problem(http.StatusNotFound)
		}
	}
	d.post(path("/sittings/%s/presence", s.ID), ada, api.PresenceForm{Present: true}).problem(http.StatusUnprocessableEntity)
	d.post(path("/sittings/%s/handing-in", s.ID), who, nil).is(http.StatusNoContent)
	d.post(path("/sittings/%s/handing-in", s.ID), who, nil).is(http.StatusNoContent)
	d.post(path("/sittings/%s/presence", s.ID), ada, api.PresenceForm{Present: true}).is(http.StatusNoContent)
	d.get(path("/sittings/%s", s.ID), who).into(http.StatusOK, &s)
	if s.HandedInAt == nil || s.Passed == nil || *s.Passed || s.Present == nil || !*s.Present || s.Questions[0].Teach == "" {
		d.t.Errorf("handed in: %+v", s)
	}
	rule.Asked, rule.PassMark = "to learn", "90 %"
	d.put("/checks/suction/rule", ada, rule).is(http.StatusNoContent)
	var own api.Checks
	d.get("/checks", who).into(http.StatusOK, &own)
	if len(own.All) != 0 || len(own.Own) == 0 {
		d.t.Errorf("a nurse sees %+v", own)
	}
	for _, c := range own.Own {
		if c.Skill.Code == "suction" && (len(c.Tries) != 1 || c.NextFrom == nil || c.PassedOn != "") {
			d.t.Errorf("her own check is %+v", c)
		}
	}
}
