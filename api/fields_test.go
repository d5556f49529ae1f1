package api_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/integration/ward"
)

// Faults that the office finds are named by the field of the body that they are in.
func TestFaultsAreNamedByTheirField(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	lan := d.Family("Lan Nguyễn", child)
	educator, coordinator := d.Educators[0], d.Coordinator
	future := d.Now().Add(time.Hour)
	sheet := "/sheets/0197a1d0-0000-7000-8000-000000000001"
	open := api.SheetForm{Learner: string(lan.Person), Skill: "go-bag", Client: string(child), Place: "at home", Real: true}
	d.put(sheet, educator, open).is(http.StatusOK)
	timed := d.timedStep(sheet)
	late, noChild := open, open
	late.PerformedAt, noChild.Client = &future, ""
	draft := d.get(path("/revisions/%s/source", d.revision("bagging")), educator)
	for _, c := range []struct {
		name, method, path string
		who                assessment.Actor
		body               any
		location, says     string
	}{
		{"sign in", "POST", "/sessions", assessment.Actor{}, api.SignIn{Email: " ", Password: "x"}, "email", "Enter your e-mail"},
		{"a person", "POST", "/people", d.Admin, api.NewPerson{PersonForm: api.PersonForm{Name: "A", Email: "nobody"}}, "email", "not an e-mail"},
		{"a caregiver", "POST", "/people", d.Admin, api.NewPerson{PersonForm: api.PersonForm{Name: "A", Roles: []string{"caregiver"}}}, "kind", "what kind of caregiver"},
		{"a card", "POST", path("/people/%s/cards", lan.Person), d.Admin, api.CardForm{Issuer: "X", PrintedEnd: "13/2027"}, "printed_end", "06/2027"},
		{"an appointment", "POST", "/appointments", d.Admin, api.AppointmentForm{Person: string(lan.Person), Skills: []string{"juggling"}, From: "2026-01-05", Through: "2026-02-01", Evidence: "x"}, "skills", "juggling"},
		{"a child", "POST", "/clients", coordinator, api.ClientForm{Code: "much too long", FirstName: "A"}, "code", "12"},
		{"orders", "PUT", path("/clients/%s/parameters", child), educator, api.Orders{Parameters: []api.Order{{Name: "cuff", Words: "none"}, {Name: "suction_depth", Value: "deep"}}}, "parameters[1]", "not a number"},
		{"a missing field deep down", "PUT", path("/clients/%s/parameters", child), educator, raw{"application/json", `{"parameters":[{"words":"x"}]}`}, "parameters[0].name", "must be given"},
		{"equipment", "POST", path("/clients/%s/equipment", child), coordinator, api.EquipmentForm{Kind: "no. 7", From: "2026-01-05"}, "kind", "letters"},
		{"a team", "POST", path("/clients/%s/team", child), coordinator, api.MemberForm{Person: string(lan.Person), From: "2026-01-05", Through: "2026-01-01"}, "through", "before the first"},
		{"a checklist", "POST", "/skills", educator, raw{"application/yaml", strings.Replace(string(draft.body), "kind: done", "kind: dance", 1)}, "sections[0].steps[2].kind", "line"},
		{"in force", "POST", path("/revisions/%s/proposals", d.revision("bagging")), educator, api.ForceProposal{ForceLook: api.ForceLook{RecheckBy: "2020-01-01"}, Statement: "x", Signing: api.Signing{Password: ward.Password}}, "recheck_by", "past"},
		{"a sheet in the future", "PUT", "/sheets/0197a1d0-0000-7000-8000-000000000002", educator, late, "performed_at", "future"},
		{"a sheet without its child", "PUT", "/sheets/0197a1d0-0000-7000-8000-000000000002", educator, noChild, "client", "one child"},
		{"a mark", "PUT", sheet + "/marks/1", educator, api.MarkForm{NotApplicable: true}, "reason", "always applies"},
		{"a reading", "PUT", path("%s/marks/%d", sheet, timed.step), educator, api.MarkForm{Mark: "cued", Readings: map[string]api.Reading{timed.name: {Value: "about 9"}}}, "readings." + timed.name + ".value", "not a number"},
		{"several marks", "PUT", sheet + "/marks", educator, api.StepMarks{Marks: []api.StepMark{{Step: 2, MarkForm: api.MarkForm{Mark: "cued"}}, {Step: 1, MarkForm: api.MarkForm{NotApplicable: true}}}}, "marks[1].reason", "always applies"},
		{"a withdrawal", "POST", "/withdrawals", coordinator, api.WithdrawalForm{Person: string(lan.Person), Skill: "go-bag", Until: "reinstated", Reason: "x", Signing: api.Signing{Password: "x"}}, "client", "one child"},
		{"a signature", "POST", "/waivers", educator, api.WaiverForm{Person: string(lan.Person), Skill: "bagging", From: "2026-01-05", Through: "2026-01-06", Reason: "x", Signing: api.Signing{Password: "not mine"}}, "password", "does not match"},
		{"a log", "POST", "/logs", educator, api.LogForm{Person: string(lan.Person), Skill: "bagging", Kind: "teaching", On: "2027-01-01"}, "on", "not come yet"},
		{"a requirement", "POST", "/requirements", coordinator, api.RequirementForm{Skill: "juggling", From: "2026-01-05"}, "skill", "juggling"},
		{"a criterion", "POST", path("/clients/%s/criteria", child), coordinator, api.NewCriterion{CriterionForm: api.CriterionForm{Title: "x", Hours: 9999}, Kind: "attested"}, "hours", "2000"},
		{"a shift", "POST", path("/clients/%s/shifts", child), coordinator, api.ShiftForm{Person: string(lan.Person), Starts: d.Now(), Ends: d.Now()}, "ends", "before it starts"},
	} {
		p := d.send(c.method, c.path, c.who, c.body).problem(http.StatusUnprocessableEntity)
		if got := field(t, p, c.location); !strings.Contains(got, c.says) {
			t.Errorf("%s: %q is said of %s, want a word of %q", c.name, got, c.location, c.says)
		}
	}
	var s api.Sheet
	d.get(sheet, educator).into(http.StatusOK, &s)
	if s.Marked != 0 {
		t.Errorf("of what was refused %+v stands on the sheet", s.Marks)
	}
}

type timedStep struct {
	step int
	name string
}

// timedStep is the first step of a sheet that asks for a value.
func (d *desk) timedStep(at string) timedStep {
	d.t.Helper()
	var s api.Sheet
	d.get(at, d.Educators[0]).into(http.StatusOK, &s)
	for _, section := range s.Checklist.Sections {
		for _, step := range section.Steps {
			if len(step.Measures) > 0 {
				return timedStep{step.No, step.Measures[0].Name}
			}
		}
	}
	d.t.Fatal("no step asks for a value")
	return timedStep{}
}

// A lost answer, a second tap, a replay: one demonstration, whatever comes how often.
func TestSendingASheetAgainIsHarmless(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	lan, educator := d.Family("Lan Nguyễn", child), d.Educators[0]
	sheet := "/sheets/0197a1d0-0000-7000-8000-000000000001"
	open := api.SheetForm{Learner: string(lan.Person), Skill: "go-bag", Client: string(child), Place: "at home", Real: true}
	d.token(educator)
	var rivals sync.WaitGroup
	for range 8 {
		rivals.Go(func() { // not over the desk, whose books are kept by one at a time
			kind, text := encode(t, open)
			r := httptest.NewRequest(http.MethodPut, api.Base+sheet, strings.NewReader(text))
			r.Header.Set("Content-Type", kind)
			r.Header.Set("Authorization", "Bearer "+d.tokens[educator.Person])
			if w := ask(d.engine, r); w.Code != http.StatusOK {
				t.Errorf("one of several at once: %d %s", w.Code, w.Body)
			}
		})
	}
	rivals.Wait()
	var list api.List[api.SheetHead]
	d.get("/sheets", educator).into(http.StatusOK, &list)
	if len(list.Items) != 1 {
		t.Errorf("of one sheet sent eight times there are %d", len(list.Items))
	}
	d.put(sheet+"/stop", educator, api.Stop{Reason: "The child coughed."}).is(http.StatusOK)
	d.post(sheet+"/record", educator, nil).is(http.StatusCreated)
	for _, again := range []*answer{d.put(sheet, educator, open), d.put(sheet+"/marks/1", educator, api.MarkForm{Mark: "independent"}), d.get(sheet, educator)} {
		if p := again.problem(http.StatusConflict); !strings.Contains(p.Detail, "recorded already") {
			t.Errorf("%s after it was recorded: %+v", again.asked, p)
		}
	}
	var r api.Demonstration
	d.get(strings.Replace(sheet, "/sheets/", "/demonstrations/", 1), educator).into(http.StatusOK, &r)
	if r.Outcome != "stopped for safety" {
		t.Errorf("the record says %s", r.Outcome)
	}
}

// What can be read and is against a rule, or comes too late, says which.
func TestRulesAndRivals(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	child := d.Client("7K", "Mira")
	lan, nurse := d.Family("Lan Nguyễn", child), d.Nurse("Ada Bram")
	educator, other, sheet := d.Educators[0], d.Educators[1], "/sheets/0197a1d0-0000-7000-8000-000000000001"
	open := api.SheetForm{Learner: string(lan.Person), Skill: "go-bag", Client: string(child), Place: "at home", Real: true, Formal: true}
	d.put(sheet, educator, open).is(http.StatusOK)
	self, late := open, open
	self.Learner, late.Skill, late.Real = string(educator.Person), "circuit-change", false
	for _, c := range []struct {
		name, method, path string
		who                assessment.Actor
		body               any
		status             int
		kind, says         string
	}{
		{"two of one code", "POST", "/clients", d.Coordinator, api.ClientForm{Code: "7K", FirstName: "Bo"}, 409, "conflict", "this code already"},
		{"two on one team", "POST", path("/clients/%s/team", child), d.Coordinator, api.MemberForm{Person: string(lan.Person), From: d.Today().String()}, 409, "conflict", "already"},
		{"another demonstration under one id", "PUT", sheet, educator, api.SheetForm{Learner: string(nurse.Person), Skill: "go-bag", Client: string(child), Place: "at home"}, 409, "conflict", "another demonstration"},
		{"a plan twice", "POST", path("/clients/%s/plan", child), d.Coordinator, nil, 204, "", ""},
		{"a plan twice, again", "POST", path("/clients/%s/plan", child), d.Coordinator, nil, 409, "conflict", "a plan already"},
		{"watching oneself", "PUT", "/sheets/0197a1d0-0000-7000-8000-000000000002", educator, self, 422, "refused", "cannot observe yourself"},
		{"what comes first is missing", "PUT", "/sheets/0197a1d0-0000-7000-8000-000000000003", educator, late, 422, "refused", "Not current in what comes first"},
		{"recording with open steps", "POST", sheet + "/record", educator, nil, 422, "refused", "still open"},
		{"the sheet of a colleague", "GET", sheet, other, nil, 404, "not-found", "no such record"},
		{"a step that there is not", "PUT", sheet + "/marks/99", educator, api.MarkForm{Mark: "cued"}, 404, "not-found", "no step 99"},
		{"a step that is no number", "PUT", sheet + "/marks/first", educator, api.MarkForm{Mark: "cued"}, 404, "not-found", "no such record"},
		{"editing what is in force", "PUT", path("/revisions/%s/source", d.revision("bagging")), educator, raw{"application/yaml", string(d.get(path("/revisions/%s/source", d.revision("bagging")), educator).body)}, 422, "refused", "never changes"},
		{"comparing two skills", "GET", path("/revisions/%s/comparison?with=%s", d.revision("bagging"), d.revision("suction")), educator, nil, 422, "invalid", "two different skills"},
		{"another's papers", "GET", path("/people/%s/transcript", lan.Person), nurse, nil, 404, "not-found", "no such record"},
		{"another's child", "GET", path("/clients/%s", child), nurse, nil, 404, "not-found", "no such record"},
		{"another's standing", "GET", path("/standings?person=%s&skill=bagging", lan.Person), nurse, nil, 404, "not-found", "no such record"},
		{"everybody's certificates", "GET", "/certificates", nurse, nil, 404, "not-found", "no such record"},
		{"no check code", "GET", "/check/4H7K-9QXM", assessment.Actor{}, nil, 422, "invalid", "not a whole check code"},
		{"a check code that was never issued", "GET", "/check/000000000000", assessment.Actor{}, nil, 404, "not-found", "ever issued"},
		{"the last administrator", "PUT", path("/people/%s", d.Admin.Person), d.Admin, raw{"application/json", fmt.Sprintf(`{"version":%q,"name":"Ada Minton","email":"ada.minton@ward.example","roles":[]}`, d.personVersion(d.Admin))}, 422, "refused", "last administrator"},
	} {
		a := d.send(c.method, c.path, c.who, c.body)
		if c.kind == "" {
			a.is(c.status)
			continue
		}
		p := a.problem(c.status)
		if p.Type != api.Base+"/problems/"+c.kind || !strings.Contains(p.Detail, c.says) {
			t.Errorf("%s: %+v, want %s with a word of %q", c.name, p, c.kind, c.says)
		}
	}
}

// personVersion is that of somebody as they are now.
func (d *desk) personVersion(who assessment.Actor) string {
	d.t.Helper()
	var p api.Person
	d.get(path("/people/%s", who.Person), d.Admin).into(http.StatusOK, &p)
	return p.Version
}
