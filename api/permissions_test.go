package api_test

import (
	"maps"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// Whoever may do what a route says gets past the office's own question as well: the
// table asks for no other permission than the office does.
func TestWhoeverMayIsNotTurnedAwayByTheOffice(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	won := d.treasure()
	bodies := d.bodies(won)
	maps.Copy(bodies, d.otherBodies(won))
	acting := assessment.Actor{Agency: d.Admin.Agency, Person: won.learner.Person, Name: "Somebody", Survey: &assessment.Survey{Whole: true}}
	engine := engineFor(d.Office, func(*http.Request) (assessment.Actor, error) { return acting, nil })
	walked := 0
	for _, line := range api.Table() {
		for _, role := range assessment.Roles {
			acting.Roles = []assessment.Role{role}
			if line.Public || acting.Reach(line.Act) == assessment.Nothing {
				continue
			}
			walked++
			kind, text := encode(t, bodies[line.Operation])
			at := filled(line, nowhere)
			if line.Operation == "compare-revisions" {
				at += "?with=" + nowhere
			}
			if line.Operation == "check-head" {
				at += "?head=none"
			}
			if line.Operation == "show-standing" {
				at += "?skill=go-bag&person=" + nowhere
			}
			if line.Operation == "send-list" {
				at += "?kind=people"
			}
			if line.Operation == "take-pack" {
				at += "?device=" + nowhere
			}
			r := httptest.NewRequest(line.Method, at, strings.NewReader(text))
			r.Header.Set("Content-Type", kind)
			w := ask(engine, r)
			if w.Code == http.StatusForbidden || w.Code == http.StatusBadRequest || w.Code >= http.StatusInternalServerError {
				t.Errorf("%s %s as %s: %d %s", line.Method, line.Path, role, w.Code, w.Body)
			}
		}
	}
	if walked < 200 {
		t.Errorf("only %d pairs of route and role were tried", walked)
	}
}

// otherBodies are good ones for the operations that name nothing in their path,
// about what there is not.
func (d *desk) otherBodies(w treasure) map[string]any {
	today := d.Today().String()
	return map[string]any{
		"set-learning-days": api.LearningDaysForm{Days: 3}, "add-teaching": api.TeachingForm{HeldOn: today, Minutes: 30, Teacher: nowhere, Skills: []string{"bagging"}, Learners: []api.TaughtForm{}},
		"add-scenario": api.NewScenario{Skill: "juggling", ScenarioForm: scenarioForm}, "save-scenario": scenarioForm, "retire-scenario": api.ScenarioRetirement{Retired: true},
		"set-check-rule": api.CheckRuleForm{Asked: "to learn", Length: 5, PassMark: "9/10"}, "add-items": api.ItemsForm{Items: "skill: x"}, "begin-check": api.BeginCheckForm{Language: "en"},
		"change-password": api.OwnPassword{Old: "not this one", New: "seven otters wading"}, "set-pin": api.NewPIN{Password: "not this one", PIN: "592047"}, "add-person": api.NewPerson{PersonForm: api.PersonForm{Name: "New"}},
		"propose-appointment": api.AppointmentForm{Person: nowhere, Skills: []string{"bagging"}, From: today, Through: today, Evidence: "x"},
		"let-surveyor-in":     api.SurveyAccessForm{Person: nowhere, Whole: true, Reason: "x", Through: today},
		"add-session":         api.InServiceForm{HeldOn: today, Hours: "1", Topic: "T", Trainer: "T", People: []string{nowhere}}, "add-supervision": api.SupervisionForm{Aide: nowhere, Client: nowhere, Supervisor: string(d.Educators[0].Person), On: today, How: "on site"},
		"record-incident": api.IncidentForm{Person: nowhere, Skill: "bagging", Happened: today + "T00:01", Seen: "X.", Signing: api.Signing{Password: ward.Password}},
		"set-practice":    api.Practice{IncidentWithdraws: "skill alone", InServiceHours: "12", InServiceYear: "calendar year"},
		"plan-visit":      api.VisitForm{Client: nowhere, Educator: nowhere, On: today}, "keep-visits": api.KeptVisits{Version: "0"}, "add-days-off": api.DaysOffForm{Educator: nowhere, From: today}, "set-way": api.WayForm{Client: nowhere, Base: "Office", Minutes: 9},
		"plan-skills-day": api.NewSkillsDay{SkillsDayForm: api.SkillsDayForm{On: today, Name: "Winter", Place: "hall", Stations: []api.StationForm{}, Learners: []string{nowhere}}},
		"give-shift":      api.GiveShift{Version: "0"}, "give-shifts": api.GivenShifts{Shifts: []api.GivenShift{{Shift: nowhere, GiveShift: api.GiveShift{Version: "0", Person: nowhere}}}}, "set-rest": api.RestForm{Hours: "8"},
		"enter-neighbour":   api.NeighbourForm{Name: "Elm Nursing", Line: "x"},
		"send-list":         raw{"application/octet-stream", "name,kind\nBea Lund,nurse\n"},
		"add-template-line": api.NewTemplateLine{TemplateLineForm: api.TemplateLineForm{CriterionForm: api.CriterionForm{Title: "T"}}, Kind: "attested"},
		"ask-packet":        api.PacketForm{About: "person", Person: nowhere},
		"ask-erasure":       api.ErasureForm{Person: nowhere, Reason: "x"}, "set-retention": api.RetentionForm{Years: 6, Reason: "x"},
		"make-token": api.TokenForm{Name: "Rota", Acts: []string{string(assessment.ReadPeople)}},
		"add-client": api.ClientForm{Code: "7K", FirstName: "Again"}, "add-checklist": d.bodies(w)["save-draft"],
		"send-sheet":         api.SheetSent{Device: nowhere, Sheet: "{}", Signature: "x", SentAt: d.Now()},
		"enrol-device":       api.DeviceForm{ID: ward.NewID(d.Now()), Name: "Tablet", PublicKey: rfcKey},
		"open-sheet":         api.SheetForm{Learner: nowhere, Skill: "bagging", Place: "at home", Formal: true},
		"preview-withdrawal": api.WithdrawalLook{Person: nowhere, Skill: "bagging", Until: "reinstated"}, "preview-requirement": api.RequirementForm{Skill: "juggling", From: today},
		"withdraw": api.WithdrawalForm{Person: nowhere, Skill: "bagging", Until: "reinstated", Reason: "x", Signing: api.Signing{Password: ward.Password}},
		"waive":    api.WaiverForm{Person: nowhere, Skill: "bagging", From: today, Through: today, Reason: "x", Signing: api.Signing{Password: ward.Password}},
		"log":      api.LogForm{Person: nowhere, Skill: "bagging", Kind: "teaching", On: today}, "set-requirement": api.RequirementForm{Skill: "juggling", From: today},
	}
}
