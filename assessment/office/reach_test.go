package office_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// things are ids of one of everything that an agency keeps.
type things struct {
	person      assessment.PersonID
	client      assessment.ClientID
	stretch     assessment.RecordID
	appointment assessment.AppointmentID
	requirement assessment.RequirementID
	criterion   assessment.CriterionID
	shift       assessment.RecordID
	surveyor    assessment.PersonID
	access      string
}

// nobodys is an id that nobody has.
const nobodys = "01950000-0000-7000-8000-00000000dead"

var nothing = things{nobodys, nobodys, nobodys, nobodys, nobodys, nobodys, nobodys, nobodys, nobodys}

func everything(t *testing.T, w *ward.Ward) things {
	t.Helper()
	child := w.Client("7K", "Tam")
	nurse := w.Nurse("Nan Orme")
	w.Join(nurse, child)
	it := things{person: nurse.Person, client: child}
	it.stretch = must(w.Office.Client(t.Context(), w.Coordinator, child))(t).Team[0].ID
	it.appointment = must(w.Office.ProposeAppointment(t.Context(), w.Admin, office.AppointmentForm{Person: w.Educators[0].Person,
		Skills: []string{"bagging"}, From: "2026-01-05", Through: "2026-02-05", Evidence: "Seen."}))(t).ID
	it.requirement = must(w.Office.SetRequirement(t.Context(), w.Coordinator, office.RequirementForm{Skill: "bagging", Client: child, From: "2026-01-05"}))(t).ID
	it.criterion = must(w.Office.AddCriterion(t.Context(), w.Coordinator, child, office.CriterionForm{Kind: "attested", Title: "Stable"}))(t)
	it.shift = must(w.Office.PlanShift(t.Context(), w.Coordinator, child, office.ShiftForm{Person: nurse.Person, Starts: "2026-02-01T19:00", Ends: "2026-02-02T07:00"}))(t).ID
	it.surveyor = w.Unseeing("Halina Wren").Person
	it.access = must(w.Office.GiveAccess(t.Context(), w.Admin, office.AccessForm{Person: it.surveyor, Whole: true, Reason: "The yearly survey.", Through: "2026-01-20"}))(t).ID
	return it
}

// farOff is a day long after all the others.
var farOff = civil.MustParse("2030-01-01")

// reach is a use case with what it asks of the permission table. Its call is made
// so that with the ids of the actor's own agency it is done, or refused for a
// reason that is not about who or whose.
type reach struct {
	name string
	act  assessment.Act
	call func(context.Context, *office.Office, assessment.Actor, things) error
}

func drop[T any](_ T, err error) error { return err }

var reaches = []reach{
	{"person", assessment.ReadPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.Person(ctx, by, it.person))
	}},
	{"edit person", assessment.EditPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.EditPerson(ctx, by, it.person, office.PersonForm{Name: "Nan Orme", Kind: "nurse"}))
	}},
	{"person leaves", assessment.EditPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.PersonLeaves(ctx, by, it.person, farOff)
	}},
	{"link", assessment.GiveRoles, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.MakeLink(ctx, by, it.person))
	}},
	{"identity", assessment.ReadPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.Identity(ctx, by, it.person))
	}},
	{"vouch", assessment.VouchFor, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.Vouch(ctx, by, it.person, ward.Proof)
	}},
	{"confirm", assessment.SignRecord, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.Confirm(ctx, by, it.person, ward.Proof)
	}},
	{"qualifications", assessment.ReadPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.Qualifications(ctx, by, it.person))
	}},
	{"licence", assessment.EditPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.RecordLicence(ctx, by, it.person, office.LicenceForm{Kind: "RN", Number: by.Name}))
	}},
	{"card", assessment.EditPeople, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.RecordCard(ctx, by, it.person, office.CardForm{Issuer: by.Name, IssuedOn: "2026-01-01"}))
	}},
	{"propose", assessment.Appoint, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.ProposeAppointment(ctx, by, office.AppointmentForm{Person: it.person, Skills: []string{"bagging"}, From: "2026-01-05", Through: "2026-02-05", Evidence: "Seen."}))
	}},
	{"agree", assessment.Appoint, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.AgreeAppointment(ctx, by, it.appointment))
	}},
	{"end appointment", assessment.Appoint, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.EndAppointment(ctx, by, it.appointment, "Over."))
	}},
	{"child", assessment.ReadClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.Client(ctx, by, it.client))
	}},
	{"edit child", assessment.EditClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.EditClient(ctx, by, it.client, office.ClientForm{Code: "7K", FirstName: "Tam"}))
	}},
	{"child leaves", assessment.EditClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.ClientLeaves(ctx, by, it.client, farOff))
	}},
	{"ordered values", assessment.SetParameters, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.SetParameters(ctx, by, it.client, []office.ParameterForm{{Name: "hr_low", Value: "90"}}))
	}},
	{"equipment", assessment.EditClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.SetEquipment(ctx, by, it.client, office.EquipmentForm{Kind: "ventilator", Type: by.Name, From: "2026-01-05"}))
	}},
	{"team of child", assessment.EditClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.AddToTeam(ctx, by, it.client, office.TeamForm{Person: by.Person, From: "2026-01-05", Through: "2026-01-05"}))
	}},
	{"end on team", assessment.EditClients, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.EndOnTeam(ctx, by, it.client, it.stretch, "2027-01-05"))
	}},
	{"requirement of child", assessment.EditRequirements, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.SetRequirement(ctx, by, office.RequirementForm{Skill: "bagging", Client: it.client, From: "2026-01-06"}))
	}},
	{"end requirement", assessment.EditRequirements, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.EndRequirement(ctx, by, it.requirement, "2027-01-05")
	}},
	{"start plan", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.StartPlan(ctx, by, it.client)
	}},
	{"add criterion", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.AddCriterion(ctx, by, it.client, office.CriterionForm{Kind: "attested", Title: "Home"}))
	}},
	{"edit criterion", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.EditCriterion(ctx, by, it.criterion, office.CriterionForm{Title: "Home"})
	}},
	{"evidence", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.AddEvidence(ctx, by, office.EvidenceForm{Criterion: it.criterion, Word: "met"})
	}},
	{"waive criterion", assessment.WaiveCriterion, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.WaiveCriterion(ctx, by, it.criterion, "", "Not needed.")
	}},
	{"end waiver", assessment.WaiveCriterion, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.EndWaiver(ctx, by, it.criterion, "", "Needed.")
	}},
	{"plan days", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.SetPlanDays(ctx, by, it.client, office.PlanDaysForm{Home: fmt.Sprintf("2027-01-%02d", 10+len(fmt.Sprint(by.Roles))%18)}) // another one for each role
	}},
	{"sign plan", assessment.SignReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.SignPlan(ctx, by, office.PlanSignForm{Client: it.client, Version: "x", Proof: ward.Proof})
	}},
	{"plan shift", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.PlanShift(ctx, by, it.client, office.ShiftForm{Person: by.Person, Starts: "2026-02-03T19:00", Ends: "2026-02-04T07:00"}))
	}},
	{"readiness", assessment.ReadReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.Readiness(ctx, by, it.client, time.Time{}))
	}},
	{"remove shift", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.RemoveShift(ctx, by, it.shift)
	}},
	{"let a surveyor in", assessment.GiveRoles, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return drop(o.GiveAccess(ctx, by, office.AccessForm{Person: it.surveyor, Clients: []assessment.ClientID{it.client}, Reason: "The yearly survey.", Through: "2026-01-20"}))
	}},
	{"end a surveyor's access", assessment.GiveRoles, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.EndAccess(ctx, by, it.access)
	}},
	{"remove criterion", assessment.EditReadiness, func(ctx context.Context, o *office.Office, by assessment.Actor, it things) error {
		return o.RemoveCriterion(ctx, by, it.criterion)
	}},
}

// Another agency's record is not found, word for word like one that never was,
// whoever asks.
func TestAnotherAgencysRecords(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	theirs := everything(t, w)
	other := must(w.Office.FoundAgency(t.Context(), office.NewAgency{Code: "other", Name: "Other", Zone: ward.Zone, AdminName: "Otto Rhee",
		AdminEmail: "otto@other.example", AdminPassword: "lent for one morning"}))(t)
	other.Roles = assessment.Roles
	must(w.Office.AdoptStarter(t.Context(), other, "bagging"))(t)
	for _, r := range reaches {
		foreign, unknown := r.call(t.Context(), w.Office, other, theirs), r.call(t.Context(), w.Office, other, nothing)
		if fault.KindOf(foreign) != fault.NotFound || unknown == nil || foreign.Error() != unknown.Error() {
			t.Errorf("%s: theirs %v, nobody's %v", r.name, foreign, unknown)
		}
	}
	// Their people and children in one's own forms.
	mine := must(w.Office.AddClient(t.Context(), other, office.ClientForm{Code: "1A", FirstName: "Bo"}))(t)
	for _, person := range []assessment.PersonID{theirs.person, nobodys} {
		_, err := w.Office.AddToTeam(t.Context(), other, mine.ID, office.TeamForm{Person: person, From: "2026-01-05"})
		wantRefusal(t, err, fault.NotFound, "not in this agency")
		_, err = w.Office.PlanShift(t.Context(), other, mine.ID, office.ShiftForm{Person: person, Starts: "2026-02-03T19:00", Ends: "2026-02-04T07:00"})
		wantRefusal(t, err, fault.NotFound, "no such record")
	}
	if p, _, err := w.Office.People(t.Context(), other, office.PeopleQuery{Left: true}); err != nil || len(p) != 1 {
		t.Errorf("people: %+v, %v", p, err)
	}
	if c := must(w.Office.Clients(t.Context(), other, ""))(t); len(c) != 1 {
		t.Errorf("children: %+v", c)
	}
	if a := must(w.Office.Appointments(t.Context(), other))(t); len(a) != 0 {
		t.Errorf("appointments: %+v", a)
	}
	if r := must(w.Office.Requirements(t.Context(), other))(t); len(r) != 0 {
		t.Errorf("requirements: %+v", r)
	}
}

// Each use case asks the one permission table, for each role and for none; and
// what is refused writes nothing, not even the journal.
func TestEachRoleReachesWhatTheTableSays(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	it := everything(t, w)
	lines := journal(t, w)
	for _, role := range append(assessment.Roles, "") {
		by := assessment.Actor{Agency: w.Admin.Agency, Person: w.Surveyor("Sue Vey").Person, Name: "Sue " + string(role), Survey: &assessment.Survey{Whole: true}}
		if role != "" {
			by.Roles = []assessment.Role{role}
		}
		for _, r := range reaches {
			before := lines()
			err := r.call(t.Context(), w.Office, by, it)
			kind, reach := fault.KindOf(err), by.Reach(r.act)
			switch {
			case (reach == assessment.Nothing) != (kind == fault.Forbidden):
				t.Errorf("%q, %s: reach %d, but %v", role, r.name, reach, err)
			case err != nil && kind == 0:
				t.Errorf("%q, %s: %v", role, r.name, err)
			case reach == assessment.Own && r.act != assessment.SignRecord && kind != fault.NotFound:
				t.Errorf("%q, %s reaches what is not their own: %v", role, r.name, err)
			}
			if wrote := lines() - before; (err != nil && wrote != 0) || (err == nil && changes(r.act) && wrote == 0) {
				t.Errorf("%q, %s: %v, and %d lines in the journal", role, r.name, err, wrote)
			}
		}
	}
}

// changes reports whether an act changes something.
func changes(a assessment.Act) bool {
	switch a {
	case assessment.ReadPeople, assessment.ReadClients, assessment.ReadReadiness, assessment.SignRecord:
		return false
	}
	return true
}

// journal counts the lines of the agency's journal.
func journal(t *testing.T, w *ward.Ward) func() int {
	t.Helper()
	db := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	t.Cleanup(func() { db.Close(context.Background()) })
	return func() int {
		var n int
		if err := db.QueryRow(t.Context(), `select count(*) from journal where agency_id = $1`, string(w.Admin.Agency)).Scan(&n); err != nil {
			t.Fatal(err)
		}
		return n
	}
}
