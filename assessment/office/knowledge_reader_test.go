package office_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// trainerWasThere has an educator's pass count, and sees that it did not before: whoever can
// read what a check asks must be competent like everybody, and their pass alone shows nothing
// (rule of this house, no published source; see knowledge.Pass).
func trainerWasThere(t *testing.T, w *ward.Ward, edda assessment.Actor, child assessment.ClientID, v office.SittingView) {
	t.Helper()
	code, other := v.Skill.Code, w.Educators[1]
	form := office.OpenForm{Learner: edda.Person, Skill: code, Client: child, Place: "at home", Real: true, Formal: true}
	opens := func() error {
		d, err := w.Office.Open(t.Context(), other, form)
		if err == nil {
			err = w.Office.Discard(t.Context(), other, d.ID)
		}
		return err
	}
	transcript := func() office.PassedCheck {
		all := must(w.Office.Transcript(t.Context(), edda, edda.Person, w.Today()))(t).Checks
		if len(all) != 1 || !all[0].Reader {
			t.Fatalf("the transcript tells %+v", all)
		}
		return all[0]
	}
	if !v.Result.Passed || !v.Reader || !v.Waits || !v.Through.IsZero() {
		t.Fatalf("an educator's pass: %+v", v)
	}
	w.Pass(time.Minute)
	if c := own(t, w, edda, code); c.Holds() || !c.Waits {
		t.Errorf("their check: %+v", c)
	}
	if c := transcript(); c.Holds || c.PresentBy != "" {
		t.Errorf("on the transcript: %+v", c)
	}
	wantRefusal(t, opens(), fault.Refused, "could read what it asks")
	wantRefusal(t, w.Office.SayPresence(t.Context(), edda, v.ID, true), fault.Refused, "somebody else")
	wantNone(t, w.Office.SayPresence(t.Context(), other, v.ID, false))
	wantRefusal(t, opens(), fault.Refused, "could read what it asks")
	w.Pass(time.Hour)
	wantNone(t, w.Office.SayPresence(t.Context(), other, v.ID, true))
	w.Pass(time.Minute)
	wantNone(t, opens())
	form.When = w.Now().Add(-30 * time.Minute).In(w.Zone).Format("2006-01-02T15:04") // before anybody said so
	wantRefusal(t, opens(), fault.Refused, "could read what it asks")
	if c := transcript(); !c.Holds || c.PresentBy != other.Name {
		t.Errorf("on the transcript: %+v", c)
	}
	if c := own(t, w, edda, code); !c.Holds() || c.Waits {
		t.Errorf("their check: %+v", c)
	}
}

// Whoever held a role that reads banks while any of the questions was in one could have read
// it; who held it only before could not (rule of this house, no published source).
func TestWhoCouldReadACheck(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	role := func(who assessment.Actor, roles ...string) {
		p := must(w.Office.Person(t.Context(), w.Admin, who.Person))(t)
		must(edited(t, w, w.Admin, who.Person, office.PersonForm{Name: p.Name, Email: "x" + string(who.Person[30:]) + "@ward.example", Kind: string(p.Kind), Roles: roles}))(t)
		w.Pass(time.Minute)
	}
	before, meanwhile, after := w.Nurse("Bea Fore"), w.Nurse("Mina While"), w.Nurse("Afra Ter")
	role(before, "caregiver", "coordinator")
	role(before, "caregiver")
	checked(t, w, "suction", "to learn")
	w.Pass(time.Minute)
	role(meanwhile, "caregiver", "educator")
	role(meanwhile, "caregiver")
	for _, c := range []struct {
		who    assessment.Actor
		reader bool
	}{{before, false}, {meanwhile, true}, {after, false}, {w.Coordinator, true}, {w.Admin, true}} {
		if v := takes(t, w, c.who, "suction"); v.Reader != c.reader || v.Waits != c.reader {
			t.Errorf("%s could read it: %v, their pass waits: %v", c.who.Name, v.Reader, v.Waits)
		}
	}
	w.Pass(time.Minute)
	role(after, "caregiver", "educator")
	for _, p := range must(w.Office.CheckBank(t.Context(), w.Educators[0], "suction"))(t).People {
		if held := p.Person.ID == before.Person || p.Person.ID == after.Person; p.Holds() != held || p.Waits == held {
			t.Errorf("%s: %+v", p.Person.Name, p.OwnCheck)
		}
	}
}

// Whoever read a question knows it when its words were changed since, and it is asked of them
// as somebody who could read it (rule of this house, no published source).
func TestWhoReadAQuestionInOtherWords(t *testing.T) {
	t.Parallel()
	w, _, _ := quick(t)
	ada, mina := w.Educators[0], w.Nurse("Mina While")
	role := func(roles ...string) {
		must(edited(t, w, w.Admin, mina.Person, office.PersonForm{Name: mina.Name, Email: w.Email(mina), Kind: "nurse", Roles: roles}))(t)
		w.Pass(time.Minute)
	}
	checked(t, w, "suction", "to learn")
	w.Pass(time.Minute)
	role("caregiver", "educator")
	role("caregiver")
	for _, i := range must(w.Office.CheckBank(t.Context(), ada, "suction"))(t).Items {
		changed := must(w.Office.BankItem(t.Context(), ada, "suction", i.Item.ID))(t).Typed
		said := changed.Said["en"]
		said.Teach += " That is all."
		changed.Said["en"] = said
		wantNone(t, w.Office.SaveItem(t.Context(), ada, office.ItemForm{Skill: "suction", Typed: changed, Version: 1}))
	}
	w.Pass(time.Minute)
	if v := takes(t, w, mina, "suction"); !v.Result.Passed || !v.Reader || !v.Waits {
		t.Errorf("they read all of it in other words: passed %v, could read it %v, waits %v", v.Result.Passed, v.Reader, v.Waits)
	}
	if v := takes(t, w, w.Nurse("Pia Lund"), "suction"); v.Reader || v.Waits {
		t.Error("a nurse who keeps no questions could read them")
	}
}

// It takes two that a pass of who could read the questions counts: nobody's own word, and not
// that of somebody whom one person alone could have been (the rule of assessment/hands.go);
// verify tells of a word that came otherwise.
func TestOnePersonBehindTwoWatchesNoCheck(t *testing.T) {
	t.Parallel()
	w, _, nan := quick(t)
	edda, rolf := w.Educators[0], w.Educators[1]
	checked(t, w, "suction", "to learn")
	must(edited(t, w, w.Admin, edda.Person, office.PersonForm{Name: edda.Name, Email: w.Email(edda), Roles: []string{"educator", "administrator"}}))(t)
	edda.Roles = []assessment.Role{assessment.Educator, assessment.Administrator}
	w.Pass(time.Minute)
	w.Take(w.Link(edda, rolf), ward.Password)
	w.Pass(time.Minute)
	v := takes(t, w, edda, "suction")
	wantRefusal(t, w.Office.SayPresence(t.Context(), rolf, v.ID, true), fault.Refused, "one person alone could have been both")
	wantNone(t, w.Office.SayPresence(t.Context(), rolf, v.ID, false)) // what withholds needs nobody beside
	wantNone(t, w.Office.SayPresence(t.Context(), rolf, takes(t, w, nan, "suction").ID, true))
	if c := own(t, w, edda, "suction"); c.Holds() || !c.Waits {
		t.Errorf("by one person alone: %+v", c)
	}
	owner := must(pgx.Connect(t.Context(), w.DB.OwnerURL))(t)
	defer owner.Close(t.Context())
	must(owner.Exec(t.Context(), `insert into knowledge_presence (agency_id, id, sitting_id, present, said_by, said_at)
		select agency_id, gen_random_uuid(), id, true, person_id, $2 from knowledge_sitting where id = $1`, v.ID, w.Now().Add(time.Second)))(t)
	w.Pass(time.Minute)
	if c := own(t, w, edda, "suction"); c.Holds() || !c.Waits {
		t.Errorf("by their own word: %+v", c)
	}
	if !slices.ContainsFunc(must(w.Office.Verify(t.Context()))(t).Findings, func(f office.Finding) bool {
		return f.Subject == string(v.ID) && strings.Contains(f.Says, "is said by whoever took the check")
	}) {
		t.Error("verify says nothing of their own word")
	}
	w.Pass(time.Minute)
	wantNone(t, w.Office.Vouch(t.Context(), w.Coordinator, rolf.Person, ward.Proof))
	wantNone(t, w.Office.SayPresence(t.Context(), rolf, v.ID, false))
	w.Pass(time.Minute)
	wantNone(t, w.Office.SayPresence(t.Context(), rolf, v.ID, true))
	w.Pass(time.Minute)
	if c := own(t, w, edda, "suction"); !c.Holds() || c.Waits {
		t.Errorf("by two: %+v", c)
	}
}
