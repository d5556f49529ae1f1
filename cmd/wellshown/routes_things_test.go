package main

import (
	"crypto/rand"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/civil"
	"wellshown/assessment/intake"
	"wellshown/assessment/ledger"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// things are the ids of one of everything that an agency has, by the word that
// stands for it in `stands` and `sends`.
type things map[string]string

// never are ids that nothing ever had.
func (th things) never() things {
	none := things{}
	for kind, id := range th {
		switch kind {
		case "session":
			none[kind] = strings.Repeat("0", len(id))
		case "certificate-code":
			none[kind] = "0000-0000-0000"
		default:
			none[kind] = "01941f29-7c3a-7d52-8000-000000000000"
		}
	}
	return none
}

// casefile makes one of everything about a parent and a child.
func casefile(t *testing.T, w *ward.Ward, skill, code, name string) (things, assessment.Actor) {
	t.Helper()
	ctx := t.Context()
	child := w.Client(code, name)
	parent := w.Family("Parent of "+name, child)
	shown := w.Award(parent, skill, child)
	need(t, w.Office.Withdraw(ctx, w.Coordinator, office.ExceptionForm{Person: parent.Person, Skill: skill, Client: child, Reason: "Seen without.", Proof: ward.Proof}, assessment.Reinstated, false))
	c := got(w.Office.Client(ctx, w.Coordinator, child))(t)
	th := things{"client": string(child), "person": string(parent.Person), "demonstration": string(shown.ID), "certificate": string(shown.Certificate.ID),
		"certificate-code": shown.Certificate.Code, "skill": string(shown.SkillID), "withdrawal": w.Standing(parent, skill, child, w.Today()).Because[0],
		"member": string(c.Team[0].ID), "appointment": string(w.Appoint(w.Educator("Observer of "+name), w.Educators[1], skill))}
	card := got(w.Office.RecordCard(ctx, w.Coordinator, parent.Person, office.CardForm{Issuer: "Lifeline Courses", IssuedOn: w.Today().String()}))(t)
	rule := got(w.Office.SetRequirement(ctx, w.Coordinator, office.RequirementForm{Skill: skill, Client: child, From: w.Today().String()}))(t)
	need(t, w.Office.StartPlan(ctx, w.Coordinator, child))
	th["card"], th["requirement"], th["other-revision"] = string(card.ID), string(rule.ID), revisionOf(t, w, th["skill"], assessment.InForce)
	th["aide"] = string(w.Aide("Aide of " + name).Person)
	th["educator"] = string(w.Educators[0].Person)
	th["surveyor"] = string(w.Unseeing("Surveyor beside " + name).Person)
	th["device-owner"] = string(w.Educators[0].Person)
	th["passkey"], th["session"] = th["card"], strings.Repeat("1", 24) // replaced for who asks
	for kind := range passing {
		th.renew(t, w, kind)
	}
	th["lesson-in-force"] = taughtBagging(t, w)
	th["list"] = sentList(t, w, w.Coordinator)
	old := carriedIn(t, w, parent)
	need(t, w.Office.AttachCarriedPaper(ctx, w.Coordinator, parent.Person, []assessment.RecordID{old}, []byte(photo(t))))
	th["old-paper"] = string(got(w.Office.CarriedIn(ctx, w.Coordinator, parent.Person))(t).Papers[0].ID)
	th["packet"] = string(w.Packet(w.Coordinator, office.PacketForm{Kind: string(office.PacketOfPerson), Person: parent.Person}))
	th["sitting"], th["sitting-handed"] = satFor(t, w, parent)
	th["asked-skill"] = string(got(w.Office.CheckBank(ctx, w.Educators[0], "bagging"))(t).Skill.ID)
	th["typed"] = string(typedIn(t, w, parent, skill, child))
	return th, parent
}

// taughtBagging puts the starter lesson of bagging in force, once, and says which it is.
func taughtBagging(t *testing.T, w *ward.Ward) string {
	t.Helper()
	ctx, by := t.Context(), w.Educators[0]
	w.Office.TakeStarterLessons(ctx, by, "bagging", wording.English) // refused where it is there
	for _, of := range got(w.Office.Lessons(ctx, by))(t).Skills {
		if of.Skill.Code != "bagging" {
			continue
		}
		if there := of.Lines[0].InForce.ID; there != "" {
			return string(there)
		}
		d := of.Lines[0].Draft
		need(t, w.Office.PutLessonInForce(ctx, by, office.ForceLessonForm{Lesson: d.ID, Version: d.Version, Statement: "Read.", Proof: ward.Proof}))
		return string(d.ID)
	}
	return ""
}

// satFor is a check that somebody takes, and one that they handed in.
func satFor(t *testing.T, w *ward.Ward, who assessment.Actor) (open, handed string) {
	t.Helper()
	ctx, by := t.Context(), w.Educators[0]
	got(w.Office.TakeStarterItems(ctx, by, "bagging"))(t)
	need(t, w.Office.SetCheckRule(ctx, by, office.RuleForm{Skill: "bagging", Asked: "to learn", Length: "10", PassMark: "9/10"}))
	first := got(w.Office.BeginCheck(ctx, who, "bagging", "en"))(t)
	need(t, w.Office.HandIn(ctx, who, first))
	return string(got(w.Office.BeginCheck(ctx, who, "bagging", "en"))(t)), string(first)
}

// sentList is a file that somebody sent and did not bring in.
func sentList(t *testing.T, w *ward.Ward, by assessment.Actor) string {
	t.Helper()
	return string(got(w.Office.SendList(t.Context(), by, intake.People, "staff.csv", []byte("name,kind\nBea Lund,nurse\n")))(t))
}

// carriedIn carries something in of somebody that was not carried in before.
func carriedIn(t *testing.T, w *ward.Ward, who assessment.Actor) assessment.RecordID {
	t.Helper()
	ctx, by := t.Context(), w.Coordinator
	place := "hospital " + rand.Text()
	id := got(w.Office.SendList(ctx, by, intake.CarriedIn, "old.csv", []byte("person,skill,observed on,signed by,where\n"+w.Email(who)+",bagging,2025-05-05,A. Roe,"+place+"\n")))(t)
	v := got(w.Office.Import(ctx, by, id, nil))(t)
	_, _, err := w.Office.CarryOutImport(ctx, by, office.ImportForm{ID: id, Version: v.Version})
	need(t, err)
	for _, l := range got(w.Office.CarriedIn(ctx, by, who.Person))(t).Lines {
		if l.Place == place {
			return l.ID
		}
	}
	t.Fatal("nothing was carried in")
	return ""
}

// typedIn is a record that was marked on paper, with one page.
func typedIn(t *testing.T, w *ward.Ward, learner assessment.Actor, skill string, child assessment.ClientID) assessment.DemonstrationID {
	t.Helper()
	ctx, by := t.Context(), w.Educators[0]
	s := got(w.Office.Open(ctx, by, office.OpenForm{Learner: learner.Person, Skill: skill, Client: child, Place: "at home", Formal: true, PerformedAt: w.Now(), FromPaper: true, PaperRevision: 1}))(t)
	for _, step := range s.Checklist.Steps() {
		got(w.Office.Mark(ctx, by, s.ID, ward.Form(t, step, s.Parameters, assessment.Independent)))(t)
	}
	got(w.Office.AttachPage(ctx, by, s.ID, 1, []byte(photo(t))))(t)
	return got(w.Office.Record(ctx, by, s.ID))(t).ID
}

// revisionOf is a revision of a skill in some state; nothing where there is none.
func revisionOf(t *testing.T, w *ward.Ward, skill string, state assessment.State) string {
	t.Helper()
	skills, _, err := w.Office.Skills(t.Context(), w.Admin)
	need(t, err)
	for _, s := range skills {
		for _, r := range s.Revisions {
			if string(r.Skill) == skill && r.State == state {
				return string(r.ID)
			}
		}
	}
	return ""
}

// shifts, visits and letters count those that were made.
var shifts, visits, letters atomic.Int64

// passing is what routes remove: each request that may do so gets a new one.
var passing = map[string]func(t *testing.T, w *ward.Ward, th things) string{
	"sheet": func(t *testing.T, w *ward.Ward, th things) string {
		v := got(w.Office.Open(t.Context(), w.Educators[0], office.OpenForm{Learner: assessment.PersonID(th["person"]), Skill: "bagging",
			Client: assessment.ClientID(th["client"]), Place: "at home", Formal: true, PerformedAt: w.Now(), FromPaper: true, PaperRevision: 1}))(t)
		return string(v.ID)
	},
	"drill": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.BeginDrill(t.Context(), w.Educators[0], office.DrillForm{Learner: assessment.PersonID(th["person"]), Skill: "decannulation",
			Client: assessment.ClientID(th["client"]), Place: "skills room", Scenario: "decannulation-01"}))(t).ID)
	},
	"device": func(t *testing.T, w *ward.Ward, th things) string {
		owner := w.Educators[0]
		if th["device-owner"] == string(w.Educators[1].Person) {
			owner = w.Educators[1]
		}
		if before := assessment.DeviceID(th["device"]); before != "" { // nobody has more than so many at a time
			need(t, w.Office.RevokeDevice(t.Context(), owner, before))
		}
		return string(w.Device(owner).ID)
	},
	"criterion": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.AddCriterion(t.Context(), w.Coordinator, assessment.ClientID(th["client"]), office.CriterionForm{Kind: "attested", Title: "Calm"}))(t))
	},
	"plan-line": func(t *testing.T, w *ward.Ward, _ things) string {
		if !got(w.Office.PlanTemplate(t.Context(), w.Coordinator))(t).Own {
			need(t, w.Office.OwnTemplate(t.Context(), w.Coordinator))
		}
		return string(got(w.Office.AddTemplateLine(t.Context(), w.Coordinator, office.TemplateLineForm{CriterionForm: office.CriterionForm{Kind: "attested", Title: "Calm"}}))(t))
	},
	"shift": func(t *testing.T, w *ward.Ward, th things) string {
		at := w.Now().In(w.Zone).AddDate(0, 0, 2*int(shifts.Add(1))) // two at one time are refused
		v := got(w.Office.PlanShift(t.Context(), w.Coordinator, assessment.ClientID(th["client"]), office.ShiftForm{Person: assessment.PersonID(th["person"]),
			Starts: at.Format("2006-01-02T15:04"), Ends: at.AddDate(0, 0, 1).Format("2006-01-02T15:04")}))(t)
		return string(v.ID)
	},
	"roster-shift": func(t *testing.T, w *ward.Ward, th things) string {
		at := w.Now().In(w.Zone).AddDate(0, 0, 1)
		return string(got(w.Office.AddRosterShift(t.Context(), w.Coordinator, office.RosterShiftForm{Client: assessment.ClientID(th["client"]), Starts: at.Format("2006-01-02T15:04"), Ends: at.Add(time.Hour).Format("2006-01-02T15:04")}))(t))
	},
	"pattern": func(t *testing.T, w *ward.Ward, th things) string {
		id := got(w.Office.AddPattern(t.Context(), w.Coordinator, office.PatternForm{Client: assessment.ClientID(th["client"]), Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "07:00", Until: "08:00", FromOn: w.Today().String()}))(t)
		roster := got(w.Office.ClientRoster(t.Context(), w.Coordinator, assessment.ClientID(th["client"])))(t)
		for _, p := range roster.Patterns {
			if p.ID == id {
				need(t, w.Office.SetPatternDay(t.Context(), w.Coordinator, id, office.PatternDayForm{Version: p.Version, On: w.Today().AddDays(1).String(), LeftOut: true}))
			}
		}
		return string(id)
	},
	"neighbour": func(t *testing.T, w *ward.Ward, _ things) string {
		house := ward.NewID(w.Now())
		key := strings.SplitN(got(ledger.NewKey(rand.Reader, "elsewhere"))(t), "\n", 2)[0]
		need(t, w.Office.EnterNeighbour(t.Context(), w.Admin, office.NeighbourForm{Name: "Elm Nursing", Line: key + " " + house}))
		for _, n := range got(w.Office.Neighbours(t.Context(), w.Admin))(t).All {
			if n.House == house {
				return string(n.ID)
			}
		}
		t.Fatal("no neighbour was entered")
		return ""
	},
	"carried": func(t *testing.T, w *ward.Ward, th things) string {
		return string(carriedIn(t, w, assessment.Actor{Agency: w.Coordinator.Agency, Person: assessment.PersonID(th["person"])}))
	},
	"erasure": func(t *testing.T, w *ward.Ward, th things) string {
		gone := got(w.Office.AddPerson(t.Context(), w.Admin, office.PersonForm{Name: "Somebody Gone"}))(t)
		need(t, w.Office.PersonLeaves(t.Context(), w.Admin, gone.ID, civil.MustParse("2015-03-02")))
		need(t, w.Office.SetRetention(t.Context(), w.Admin, office.RetentionForm{Years: "6", Reason: "Agreed."}))
		return string(got(w.Office.AskErasure(t.Context(), w.Admin, office.ErasureForm{Person: gone.ID, Reason: "Asked for by letter."}))(t).ID)
	},
	"letter": func(t *testing.T, w *ward.Ward, th things) string {
		d := postgres.Digest{ID: assessment.DigestID(got(w.Office.NewID())(t)), PersonID: assessment.PersonID(th["person"]), FallsOn: w.Today().AddDays(int(letters.Add(1))), Language: "en", MadeAt: w.Now()}
		d.MessageID = string(d.ID) + "@ward.example"
		need(t, w.Postgres.InAgency(t.Context(), w.Coordinator.Agency, func(tx *postgres.Tx) error { return tx.Mail.Add(t.Context(), d) }))
		return string(d.ID)
	},
	"program": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.MakeToken(t.Context(), w.Admin, office.TokenForm{Name: "Roster", Acts: []string{string(assessment.ReadChecklists)}, Reading: true}))(t).ID)
	},
	"access": func(t *testing.T, w *ward.Ward, th things) string {
		return got(w.Office.GiveAccess(t.Context(), w.Admin, office.AccessForm{Person: assessment.PersonID(th["surveyor"]), Whole: true, Reason: "The yearly survey.", Through: w.Today().String()}))(t).ID
	},
	"visit": func(t *testing.T, w *ward.Ward, th things) string {
		on := w.Today().AddDays(int(visits.Add(1)))
		for on.Weekday() == time.Saturday || on.Weekday() == time.Sunday { // nobody visits then unless it is said
			on = w.Today().AddDays(int(visits.Add(1)))
		}
		return string(got(w.Office.PlanVisit(t.Context(), w.Coordinator, office.VisitForm{Client: assessment.ClientID(th["client"]), Educator: w.Educators[0].Person, On: on.String()}))(t).Visit.ID)
	},
	"incident": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.RecordIncident(t.Context(), w.Coordinator, office.IncidentForm{Person: assessment.PersonID(th["person"]), Skill: "bagging", Happened: w.Now().Format(time.RFC3339), Seen: "It slipped.", Proof: ward.Proof}))(t))
	},
	"session-held": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.AddSession(t.Context(), w.Coordinator, office.InServiceForm{HeldOn: w.Today().String(), Hours: "1", Topic: "Falls", Trainer: "Ruth", People: []assessment.PersonID{assessment.PersonID(th["aide"])}}))(t))
	},
	"taught": func(t *testing.T, w *ward.Ward, th things) string {
		f := office.TeachingForm{HeldOn: w.Today().String(), Minutes: "30", Trainer: w.Educators[0].Person, Skills: []string{"bagging"}, Learners: []office.TaughtForm{{Person: assessment.PersonID(th["person"]), TaughtHow: assessment.TaughtHow{Shown: true}}}}
		return string(got(w.Office.LogTeaching(t.Context(), w.Educators[0], f))(t))
	},
	"practised": func(t *testing.T, w *ward.Ward, th things) string {
		f := office.PracticeRunForm{Person: assessment.PersonID(th["person"]), Revision: assessment.RevisionID(th["other-revision"]), DoneOn: w.Today().String(), Marks: map[int]assessment.PracticeMark{1: assessment.WentAlone}}
		themself := assessment.Actor{Agency: w.Admin.Agency, Person: f.Person, Roles: []assessment.Role{assessment.Caregiver}}
		return string(got(w.Office.LogPracticeRun(t.Context(), themself, f))(t))
	},
	"supervised": func(t *testing.T, w *ward.Ward, th things) string {
		return string(got(w.Office.AddSupervision(t.Context(), w.Coordinator, office.SupervisionForm{Client: assessment.ClientID(th["client"]), Aide: assessment.PersonID(th["aide"]), Supervisor: w.Educators[0].Person, On: w.Today().String(), How: "on site"}))(t))
	},
	"days-off": func(t *testing.T, w *ward.Ward, th things) string {
		need(t, w.Office.AddDaysOff(t.Context(), w.Coordinator, w.Educators[1].Person, "2027-03-01", ""))
		v := got(w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{}))(t)
		for _, e := range v.Educators {
			if len(e.Off) > 0 {
				return string(e.Off[0].ID)
			}
		}
		return ""
	},
	"way": func(t *testing.T, w *ward.Ward, th things) string {
		need(t, w.Office.SetTravelTime(t.Context(), w.Coordinator, office.TravelForm{From: assessment.ClientID(th["client"]), Base: "Office", Minutes: "20"}))
		v := got(w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{}))(t)
		return string(v.Ways[0].ID)
	},
	"skills-day": func(t *testing.T, w *ward.Ward, th things) string {
		person, client := assessment.PersonID(th["person"]), assessment.ClientID(th["client"])
		v := got(w.Office.PlanSkillsDay(t.Context(), w.Coordinator, office.SkillsDayForm{On: w.Today().String(), Name: "Winter", Place: "hall", Learners: []assessment.PersonID{person},
			Stations: []office.StationForm{{No: 1, Skill: "bagging", Observer: w.Educators[0].Person, Client: client}}}))(t)
		need(t, w.Office.TakeAtStation(t.Context(), w.Educators[0], office.MoveForm{Day: v.ID, Station: 1, Learner: person}))
		return string(v.ID)
	},
	"proposal": func(t *testing.T, w *ward.Ward, th things) string {
		ctx, by := t.Context(), w.Educators[0]
		for _, p := range got(w.Office.Proposals(ctx, by))(t) {
			if string(p.ID) == th["proposal"] {
				return th["proposal"]
			}
		}
		source := strings.Replace(string(got(catalog.Source("go-bag"))(t)), "code: go-bag", "code: bag-"+strings.ToLower(rand.Text()[:8]), 1) // of a skill of its own: one skill has one draft
		r := got(w.Office.AddChecklist(ctx, by, "bag.yaml", source))(t)
		return string(got(ward.Propose(ctx, w.Office, by, office.PutInForceForm{Revision: r.ID, Version: r.Version, Statement: "Read.", Proof: ward.Proof}))(t).ID)
	},
	"lesson": func(t *testing.T, w *ward.Ward, th things) string {
		by, skill := w.Educators[0], assessment.SkillID(th["skill"])
		for _, of := range got(w.Office.Lessons(t.Context(), by))(t).Skills {
			if of.Skill.ID == skill && of.Lines[0].Draft.ID != "" { // one draft at a time
				return string(of.Lines[0].Draft.ID)
			}
		}
		return string(got(w.Office.DraftLesson(t.Context(), by, skill, wording.English))(t).ID)
	},
	"revision": func(t *testing.T, w *ward.Ward, th things) string {
		if there := revisionOf(t, w, th["skill"], assessment.Draft); there != "" { // one skill has one draft at a time
			return there
		}
		return string(got(w.Office.DraftRevision(t.Context(), w.Educators[0], assessment.SkillID(th["skill"])))(t).ID)
	},
}

// renew makes another one of a kind, or gives the one there is.
func (th things) renew(t *testing.T, w *ward.Ward, kind string) {
	t.Helper()
	th[kind] = passing[kind](t, w, th)
}

func need(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// got hands on what a call gave, and fails the test where it gave an error.
func got[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		need(t, err)
		return v
	}
}

// deviceKey is the public half of a key: the one of RFC 6979, appendix A.2.5.
const deviceKey = "MFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAEYP7UuiVanTHJYet0xjVtaMBJuJI7Yfps5mliLmDyn7Z5A_4QCLi8maQa6elWKLxk8vGyDC1-n1F3o8KU1EYimQ"
