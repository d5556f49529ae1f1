package office_test

import (
	"testing"
	"time"

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
