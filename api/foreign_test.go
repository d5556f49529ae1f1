package api_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gin-gonic/gin"

	"wellshown/api"
	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/intake"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// stranger is somebody of another agency with every role and a licence, who asks
// under one and the same number, so that answers can be compared byte for byte.
type stranger struct {
	t      *testing.T
	engine *gin.Engine
}

func (d *desk) stranger() stranger {
	d.t.Helper()
	by := d.found("larkmoor")
	var roles []string
	for _, r := range assessment.Roles {
		roles = append(roles, string(r))
	}
	self, err := d.Office.Person(d.t.Context(), by, by.Person)
	if err != nil {
		d.t.Fatal(err)
	}
	_, err = d.Office.EditPerson(d.t.Context(), by, by.Person, office.PersonForm{Version: self.Version, Name: "Head", Email: "head@larkmoor.example", Kind: "nurse", Roles: roles})
	if err != nil {
		d.t.Fatal(err)
	}
	by.Roles = assessment.Roles
	clerk, err := d.Office.AddPerson(d.t.Context(), by, office.PersonForm{Name: "Clerk", Roles: []string{string(assessment.Coordinator)}})
	if err != nil {
		d.t.Fatal(err)
	}
	seen := assessment.Actor{Agency: by.Agency, Person: clerk.ID, Name: clerk.Name, Roles: clerk.Roles}
	if _, err := d.Office.RecordLicence(d.t.Context(), seen, by.Person, office.LicenceForm{Kind: "RN", Number: "1"}); err != nil {
		d.t.Fatal(err)
	}
	beside, err := d.Office.FoundBeside(d.t.Context(), office.SecondFounder{Code: "larkmoor", Name: "Second", Email: "second@larkmoor.example", Password: ward.Password, Role: assessment.Educator})
	d.need(err)
	_, err = d.Office.RecordLicence(d.t.Context(), seen, beside.Person, office.LicenceForm{Kind: "RN", Number: "2"})
	d.need(err)
	for _, code := range []string{"bagging", "go-bag"} {
		r, err := d.Office.AdoptStarter(d.t.Context(), by, code)
		if err != nil {
			d.t.Fatal(err)
		}
		form := office.PutInForceForm{Revision: r.ID, Version: r.Version, Statement: "Read.", Proof: ward.Proof}
		if err := ward.TwoPutInForce(d.t.Context(), d.Office, by, beside, form, ward.Proof); err != nil {
			d.t.Fatal(err)
		}
	}
	s := stranger{d.t, gin.New()}
	s.engine.Use(func(c *gin.Context) { c.Header("X-Request-Id", nowhere) })
	api.Routes(s.engine, d.Office, func(*http.Request) (assessment.Actor, error) { return by, nil }, papers(d.Office))
	return s
}

func (s stranger) ask(method, at string, body any) (int, string) {
	s.t.Helper()
	kind, text := encode(s.t, body)
	r := httptest.NewRequest(method, at, strings.NewReader(text))
	r.Header.Set("Content-Type", kind)
	w := ask(s.engine, r)
	return w.Code, w.Body.String()
}

// treasure is one id of everything that an agency has.
type treasure struct {
	proposal, client, sheet, demonstration, withdrawal, stretch, criterion, shift, certificate, requirement, appointment, skill, draft, list, card, token, access, erasure, device, skillsDay, rosterShift, pattern, visit, incident, session, supervised, sitting, drill, packet, planLine, taught, practised, neighbour string
	learner                                                                                                                                                                                                                                                                                                               assessment.Actor
}

func (d *desk) treasure() treasure {
	d.t.Helper()
	ctx := d.t.Context()
	child := d.Client("7K", "Mira")
	lan := d.Family("Lan Nguyễn", child)
	won := treasure{client: string(child), learner: lan, appointment: string(d.Appoint(d.Educator("Ines Park"), d.Educators[1], "bagging"))}
	shown := d.Award(lan, "go-bag", child)
	won.demonstration, won.certificate, won.skill = string(shown.ID), string(shown.Certificate.ID), string(shown.SkillID)
	d.need(d.Office.Withdraw(ctx, d.Coordinator, office.ExceptionForm{Person: lan.Person, Skill: "go-bag", Client: child, Reason: "Seen without.", Proof: ward.Proof}, assessment.Reinstated, false))
	standing := d.Standing(lan, "go-bag", child, d.Today())
	won.withdrawal = standing.Because[0]
	c, err := d.Office.Client(ctx, d.Coordinator, child)
	d.need(err)
	won.stretch = string(c.Team[0].ID)
	line, err := d.Office.AddCriterion(ctx, d.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "Calm"})
	d.need(err)
	at := d.Now().In(d.Zone)
	shift, err := d.Office.PlanShift(ctx, d.Coordinator, child, office.ShiftForm{Person: lan.Person, Starts: at.Format("2006-01-02T15:04"), Ends: at.AddDate(0, 0, 1).Format("2006-01-02T15:04")})
	d.need(err)
	packet, err := d.Office.AskPacket(ctx, d.Coordinator, office.PacketForm{Kind: "person", Person: lan.Person})
	d.need(err)
	won.packet = string(packet.ID)
	card, err := d.Office.RecordCard(ctx, d.Coordinator, lan.Person, office.CardForm{Issuer: "Lifeline Courses", IssuedOn: d.Today().String()})
	d.need(err)
	won.card = string(card.ID)
	r, err := d.Office.SetRequirement(ctx, d.Coordinator, office.RequirementForm{Skill: "go-bag", From: d.Today().String()})
	d.need(err)
	won.criterion, won.shift, won.requirement = string(line), string(shift.ID), string(r.ID)
	draft, err := d.Office.DraftRevision(ctx, d.Educators[0], shown.SkillID)
	d.need(err)
	sheet, err := d.Office.Open(ctx, d.Educators[0], office.OpenForm{Learner: lan.Person, Skill: "bagging", Client: child, Place: "at home", Formal: true})
	d.need(err)
	won.draft, won.sheet = string(draft.ID), string(sheet.ID)
	bagging, err := d.Office.Checklist(ctx, d.Educators[0], assessment.RevisionID(d.revision("bagging")))
	d.need(err)
	next, err := d.Office.DraftRevision(ctx, d.Educators[0], bagging.Skill)
	d.need(err)
	proposed, err := ward.Propose(ctx, d.Office, d.Educators[0], office.PutInForceForm{Revision: next.ID, Version: next.Version, Statement: "Read.", Proof: ward.Proof})
	d.need(err)
	won.proposal = string(proposed.ID)
	token, err := d.Office.MakeToken(ctx, d.Admin, office.TokenForm{Name: "Rota", Acts: []string{string(assessment.ReadPeople)}})
	d.need(err)
	won.token = string(token.ID)
	access, err := d.Office.GiveAccess(ctx, d.Admin, office.AccessForm{Person: d.Unseeing("Halina Wren").Person, Whole: true, Reason: "The yearly survey.", Through: d.Today().String()})
	d.need(err)
	won.access = access.ID
	won.neighbour = d.neighbour()
	gone := d.Nurse("Somebody Gone")
	d.need(d.Office.PersonLeaves(ctx, d.Admin, gone.Person, civil.MustParse("2015-03-02")))
	d.need(d.Office.SetRetention(ctx, d.Admin, office.RetentionForm{Years: "6", Reason: "Agreed."}))
	asked, err := d.Office.AskErasure(ctx, d.Admin, office.ErasureForm{Person: gone.Person, Reason: "Asked for by letter."})
	d.need(err)
	won.erasure = string(asked.ID)
	won.device = string(d.Device(d.Educators[0]).ID)
	day, err := d.Office.PlanSkillsDay(ctx, d.Coordinator, office.SkillsDayForm{On: d.Today().String(), Name: "Winter", Place: "hall", Learners: []assessment.PersonID{lan.Person},
		Stations: []office.StationForm{{No: 1, Skill: "bagging", Observer: d.Educators[0].Person, Client: child}}})
	d.need(err)
	won.skillsDay = string(day.ID)
	single, err := d.Office.AddRosterShift(ctx, d.Coordinator, office.RosterShiftForm{Client: child, Starts: at.Format("2006-01-02T15:04"), Ends: at.AddDate(0, 0, 1).Format("2006-01-02T15:04")})
	d.need(err)
	weekly, err := d.Office.AddPattern(ctx, d.Coordinator, office.PatternForm{Client: child, Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "07:00", Until: "08:00", FromOn: d.Today().String()})
	d.need(err)
	won.rosterShift, won.pattern = string(single), string(weekly)
	visit, err := d.Office.PlanVisit(ctx, d.Coordinator, office.VisitForm{Client: child, Educator: d.Educators[0].Person, On: weekday(d.Today().AddDays(3)).String()})
	d.need(err)
	won.visit = string(visit.Visit.ID)
	incident, err := d.Office.RecordIncident(ctx, d.Coordinator, office.IncidentForm{Person: d.Nurse("Olga Brandt").Person, Skill: "go-bag", Client: child, Happened: d.Today().AddDays(-1).String() + "T08:00", Seen: "x.", Proof: ward.Proof})
	d.need(err)
	won.incident = string(incident)
	list, err := d.Office.SendList(ctx, d.Coordinator, intake.People, "staff.csv", []byte("name,kind\nBea Lund,nurse\n"))
	d.need(err)
	won.list = string(list)
	aide := d.Aide("Ida Moss").Person
	session, err := d.Office.AddSession(ctx, d.Coordinator, office.InServiceForm{HeldOn: d.Today().String(), Hours: "1", Topic: "T", Trainer: "T", People: []assessment.PersonID{aide}})
	d.need(err)
	supervised, err := d.Office.AddSupervision(ctx, d.Coordinator, office.SupervisionForm{Client: child, Aide: aide, Supervisor: d.Educators[0].Person, On: d.Today().String(), How: "on site"})
	d.need(err)
	won.drill = d.drilled(won)
	won.sitting = d.sat(d.Nurse("Tess Vale"))
	won.session, won.supervised = string(session), string(supervised)
	d.need(d.Office.OwnTemplate(ctx, d.Coordinator))
	patterned, err := d.Office.AddTemplateLine(ctx, d.Coordinator, office.TemplateLineForm{CriterionForm: office.CriterionForm{Kind: "attested", Title: "Calm"}})
	d.need(err)
	won.planLine = string(patterned)
	taught, err := d.Office.LogTeaching(ctx, d.Educators[0], office.TeachingForm{HeldOn: d.Today().String(), Minutes: "30", Trainer: d.Educators[0].Person, Skills: []string{"bagging"}, Learners: []office.TaughtForm{{Person: lan.Person, TaughtHow: assessment.TaughtHow{Shown: true}}}})
	d.need(err)
	practised, err := d.Office.LogPracticeRun(ctx, d.Educators[0], office.PracticeRunForm{Person: lan.Person, Revision: bagging.ID, DoneOn: d.Today().String(), Marks: map[int]assessment.PracticeMark{1: assessment.WentAlone}})
	d.need(err)
	won.taught, won.practised = string(taught), string(practised)
	return won
}

func (d *desk) need(err error) {
	d.t.Helper()
	if err != nil {
		d.t.Fatal(err)
	}
}

// ids says which of an agency's ids stands where in the paths of the table.
func (w treasure) id(at string) string {
	for begins, id := range map[string]string{
		"/people/": string(w.learner.Person), "/appointments/": w.appointment, "/clients/": w.client, "/skills/": w.skill, "/revisions/": w.draft,
		"/sheets/": w.sheet, "/demonstrations/": w.demonstration, "/withdrawals/": w.withdrawal, "/requirements/": w.requirement,
		"/bedside/devices/": w.device, "/proposals/": w.proposal, "/skills-days/": w.skillsDay, "/visits/": w.visit, "/sittings/": w.sitting, "/drills/": w.drill, "/in-service/": w.session, "/supervision/": w.supervised, "/incidents/": w.incident, "/packets/": w.packet, "/imports/": w.list, "/roster/": w.rosterShift, "/patterns/": w.pattern, "/tokens/": w.token, "/neighbours/": w.neighbour, "/survey-access/": w.access, "/erasures/": w.erasure, "/criteria/": w.criterion, "/plan-template/lines/": w.planLine, "/entries/": w.withdrawal, "/papers/": w.card, "/shifts/": w.shift, "/teaching-sessions/": w.taught, "/practice-runs/": w.practised, "/certificates/": w.certificate,
	} {
		if strings.HasPrefix(at, api.Base+begins) {
			return id
		}
	}
	return ""
}

// bodies are good ones for every operation that names a record by its id.
func (d *desk) bodies(w treasure) map[string]any {
	today, now := d.Today().String(), d.Now()
	signed := api.SignedReason{Reason: "Wrong.", Signing: api.Signing{Password: ward.Password}}
	src, err := d.Office.DraftSource(d.t.Context(), d.Educators[0], assessment.RevisionID(w.draft))
	d.need(err)
	return map[string]any{
		"edit-person": api.ChangedPerson{PersonForm: api.PersonForm{Name: "New"}}, "person-leaves": api.Departure{On: today}, "vouch": api.Signing{Password: ward.Password}, "carry-out-erasure": api.Signing{Password: ward.Password},
		"record-licence": api.LicenceForm{Kind: "RN", Number: "3"}, "record-card": api.CardForm{Issuer: "X", IssuedOn: today}, "end-appointment": api.Reason{Reason: "Over."},
		"edit-client": api.ClientForm{Code: "1A", FirstName: "Bo"}, "client-leaves": api.ClientDeparture{On: today},
		"set-home-record": api.HomeRecord{Contacts: []api.HomeContact{{Office: "emergency number", Telephone: "911"}}},
		"set-parameters":  api.Orders{Parameters: []api.Order{{Name: "cuff", Words: "none"}}}, "tell-holding": api.Holding{}, "set-equipment": api.EquipmentForm{Kind: "ventilator", Type: "x", From: today}, "preview-equipment": api.EquipmentForm{Kind: "ventilator", Type: "x", From: today}, "preview-leaving": api.Departure{On: today}, "preview-requirement-end": api.LastDay{Through: today},
		"add-to-team": api.MemberForm{Person: string(w.learner.Person), From: today}, "end-on-team": api.LastDay{Through: today},
		"save-draft": raw{"application/yaml", src.Source}, "preview-in-force": api.ForceLook{Version: "0"}, "propose-in-force": api.ForceProposal{Statement: "Read.", Signing: api.Signing{Password: ward.Password}},
		"agree-in-force": api.Agreement{Seen: "0", Signing: api.Signing{Password: ward.Password}}, "drop-proposal": api.Dropping{Reason: "Not yet."}, "retire-revision": api.Signing{Password: ward.Password},
		"mark-steps": api.StepMarks{Marks: []api.StepMark{{Step: 1, MarkForm: api.MarkForm{Mark: "cued"}}}}, "mark-step": api.MarkForm{Mark: "cued"}, "stop-sheet": api.Stop{}, "attach-page": picture(d.t, 7),
		"sign": api.SignatureForm{Part: "observer", Signing: api.Signing{Password: ward.Password}}, "ask-passkey": api.SignaturePart{Part: "observer"}, "correct": signed, "reinstate": signed, "take-back": signed, "take-back-paper": signed, "end-requirement": api.LastDay{Through: today},
		"add-criterion": api.NewCriterion{CriterionForm: api.CriterionForm{Title: "T"}, Kind: "attested"}, "edit-criterion": api.CriterionForm{Title: "T"},
		"add-evidence": api.EvidenceForm{Word: "met"}, "waive-criterion": api.CriterionWaiver{Reason: "X."}, "end-criterion-waiver": api.CriterionWaiver{Reason: "X."},
		"begin-drill": api.DrillForm{Learner: string(w.learner.Person), Skill: "decannulation", Client: w.client, Place: "skills room"}, "time-drill": api.DrillMoments{},
		"set-learning-target": api.LearningTarget{Goal: "other"}, "choose-learning": api.LearningChoice{Skill: "bagging"}, "take-practice-back": api.PlainReason{Reason: "X."},
		"add-practice-run": api.PracticeRunForm{Revision: d.revision("bagging"), DoneOn: today, Marks: []api.PracticeMark{{Step: 1, Went: "alone"}}},
		"correct-teaching": api.TeachingCorrection{TeachingForm: api.TeachingForm{HeldOn: today, Minutes: 30, Teacher: string(d.Educators[0].Person), Skills: []string{"bagging"}, Learners: []api.TaughtForm{}}, SignedReason: signed},
		"answer-item":      api.AnswerForm{}, "say-presence": api.PresenceForm{Present: true},
		"set-plan-days": api.PlanDays{Home: today}, "sign-plan": api.PlanSignatureForm{Version: "0", Signing: api.Signing{Password: ward.Password}}, "edit-template-line": api.TemplateLineForm{CriterionForm: api.CriterionForm{Title: "T"}},
		"set-weeks":      api.WeeksForm{DaysOff: []int{7}, PerDay: 2},
		"close-incident": api.IncidentClosing{Record: w.demonstration, Note: "X.", Signing: api.Signing{Password: ward.Password}}, "take-incident-back": signed,
		"agree-neighbour": api.NeighbourAgreement{Compared: true}, "end-neighbour": api.Reason{Reason: "X."}, "take-in-file": api.TakeInForm{File: "{}", Same: true},
		"carry-out-import":  api.ImportForm{Version: "0"},
		"take-session-back": api.PlainReason{Reason: "X."}, "set-hired": api.HiredForm{On: today}, "set-skilled-care": api.SkilledCareForm{From: today},
		"move-visit":        api.VisitMoved{On: today, Educator: string(w.learner.Person), Version: "0"},
		"change-skills-day": api.ChangedSkillsDay{SkillsDayForm: api.SkillsDayForm{On: today, Name: "Winter", Place: "hall", Stations: []api.StationForm{}, Learners: []string{}}, Version: "0"},
		"add-roster-shift":  api.RosterShiftForm{Starts: now, Ends: now.Add(3600e9)}, "change-roster-shift": api.RosterShiftForm{Starts: now, Ends: now.Add(3600e9)}, "remove-roster-shift": api.ReadVersion{Version: "0"},
		"add-pattern": api.PatternForm{Weekdays: []int{1}, From: "07:00", Until: "19:00", FromOn: today}, "change-pattern": api.PatternForm{Weekdays: []int{1}, From: "07:00", Until: "19:00", FromOn: today}, "end-pattern": api.ReadVersion{Version: "0"},
		"set-pattern-day": api.PatternDayForm{Version: "0", On: today, LeftOut: true}, "lift-pattern-day": api.ThatDay{On: today},
		"plan-shift": api.ShiftForm{Person: string(w.learner.Person), Starts: now, Ends: now.Add(3600e9)},
	}
}

// What belongs to another agency and what never was are answered alike, byte for
// byte, on every route that names a record; and what is no id is not there either.
func TestAnotherAgencysRecordsAreNotThere(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	won := d.treasure()
	s, bodies, walked := d.stranger(), d.bodies(won), 0
	for _, line := range api.Table() {
		if line.Public || !strings.Contains(line.Path, "{id}") || line.Operation == "open-sheet" || line.Operation == "begin-drill" || line.Operation == "send-sheet" {
			continue // a sheet is opened or sent under an id of one's own: nobody else's is in the way
		}
		id := won.id(line.Path)
		if id == "" {
			t.Fatalf("whose id stands in %s?", line.Path)
		}
		walked++
		at := func(id, stretch string) string {
			path := strings.ReplaceAll(filled(line, id), "/team/"+id, "/team/"+stretch)
			if line.Operation == "compare-revisions" {
				path += "?with=" + stretch
			}
			return path
		}
		status, theirs := s.ask(line.Method, at(id, won.stretch), bodies[line.Operation])
		_, none := s.ask(line.Method, at(nowhere, nowhere), bodies[line.Operation])
		malformed, said := s.ask(line.Method, at("not-an-id", "neither"), bodies[line.Operation])
		if status != http.StatusNotFound || theirs != none {
			t.Errorf("%s %s:\nanother agency's: %d %s\nno one's:         %s", line.Method, line.Path, status, theirs, none)
		}
		if malformed != http.StatusNotFound {
			t.Errorf("%s %s with what is no id: %d %s", line.Method, line.Path, malformed, said)
		}
	}
	if walked < 50 {
		t.Errorf("only %d routes name a record", walked)
	}
}

// The same where the id stands in the body or in a parameter.
func TestAnotherAgencysRecordsCannotBeNamed(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	won := d.treasure()
	s, today, learner := d.stranger(), d.Today().String(), string(won.learner.Person)
	for name, q := range map[string]struct {
		method, at string
		body       map[string]any
	}{
		"appointment": {"POST", "/appointments", map[string]any{"person": learner, "skills": []string{"bagging"}, "from": today, "through": today, "evidence": "x"}},
		"withdrawal":  {"POST", "/withdrawals", map[string]any{"person": learner, "skill": "bagging", "until": "reinstated", "reason": "x", "password": ward.Password}},
		"waiver":      {"POST", "/waivers", map[string]any{"person": learner, "skill": "bagging", "from": today, "through": today, "reason": "x", "password": ward.Password}},
		"log":         {"POST", "/logs", map[string]any{"person": learner, "skill": "bagging", "kind": "teaching", "on": today}},
		"requirement": {"POST", "/requirements", map[string]any{"skill": "go-bag", "client": won.client, "from": today}},
		"standing":    {"GET", "/standings?skill=bagging&person=" + learner, nil},
	} {
		var answers []string
		for _, id := range []string{"", nowhere, "not-an-id"} {
			at, body := q.at, q.body
			if id != "" {
				swap := strings.NewReplacer(learner, id, won.client, id)
				at = swap.Replace(at)
				src, err := json.Marshal(body)
				d.need(err)
				body = nil
				d.need(json.Unmarshal([]byte(swap.Replace(string(src))), &body))
			}
			var sent any
			if body != nil {
				sent = body
			}
			status, answer := s.ask(q.method, api.Base+at, sent)
			if status != http.StatusNotFound {
				t.Errorf("%s with the id %q: %d %s", name, id, status, answer)
			}
			answers = append(answers, answer)
		}
		if answers[0] != answers[1] || answers[0] != answers[2] {
			t.Errorf("%s: %q", name, answers)
		}
	}
}
