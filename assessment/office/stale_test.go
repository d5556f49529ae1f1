package office_test

import (
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A request that was let in before a role ended or a day of leaving was written down
// does not sign afterwards (OWASP ASVS 5.0, 8.3.2).
func TestRolesAreReadAgainWhereSomebodySigns(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	w.Demonstrate(nan, "humidifier", mira)
	w.Pass(48 * time.Hour)
	wantNone(t, w.Office.Withdraw(t.Context(), w.Educators[0], about(nan, "humidifier", mira), assessment.Redemonstrated, false))
	d := must(w.Office.PersonDesk(t.Context(), w.Coordinator, nan.Person, w.Today()))(t)
	var back office.TakeBackForm
	for _, h := range d.Happenings {
		if h.Kind == assessment.WithdrawalEntry {
			back = office.TakeBackForm{Kind: h.Kind, ID: h.ID, Reason: "Not so.", Proof: ward.Proof}
		}
	}
	stale := w.Educators[1]
	p := must(w.Office.Person(t.Context(), w.Admin, stale.Person))(t)
	must(edited(t, w, w.Admin, stale.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: []string{}}))(t)
	wantRefusal(t, w.Office.TakeBack(t.Context(), stale, back), fault.Refused, "roles have changed")
	must(edited(t, w, w.Admin, stale.Person, office.PersonForm{Name: p.Name, Email: p.Email, Roles: []string{"educator"}}))(t)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Admin, stale.Person, w.Today()))
	wantRefusal(t, w.Office.TakeBack(t.Context(), stale, back), fault.Refused, "left the agency")
	if got := word(t, w, nan, "humidifier", mira); got != assessment.Withdrawn {
		t.Errorf("it is %s", got)
	}
}

// A founding appointment stands in for a competency until its holder has been seen:
// once for a person and a skill (common practice, no source).
func TestAFoundingAppointmentIsGivenOnce(t *testing.T) {
	t.Parallel()
	w := ward.New(t)
	fay := w.Educator("Fay Marsh")
	propose := func(skills []string, days int, founding bool) (office.AppointmentView, error) {
		return w.Office.ProposeAppointment(t.Context(), w.Admin, office.AppointmentForm{Person: fay.Person, Skills: skills,
			From: w.Today().String(), Through: w.Today().AddDays(days).String(), Founding: founding, Evidence: "Seen elsewhere."})
	}
	both := []string{"humidifier", "bagging"}
	first := must(propose(both, 300, true))(t)
	beside := must(propose([]string{"bagging"}, 200, true))(t) // two wait at once
	must(w.Office.AgreeAppointment(t.Context(), w.Educators[1], first.ID))(t)
	_, err := w.Office.AgreeAppointment(t.Context(), w.Educators[1], beside.ID)
	wantRefusal(t, err, fault.Refused, "granted once")
	w.Pass(340 * 24 * time.Hour)
	_, err = propose([]string{"humidifier"}, 300, true)
	wantRefusal(t, err, fault.Refused, "first observers for humidifier already")
	must(propose([]string{"humidifier"}, 300, false))(t)
	must(propose([]string{"stoma-ties"}, 300, true))(t)
}

// Leaving ends what a surveyor was let in for; moving the day back does not bring it
// back. Nor is a team told through the list of people to whoever may not know the child.
func TestASurveyorWhoLeftIsNotInAgain(t *testing.T) {
	t.Parallel()
	w, mira, nan := quick(t, "humidifier")
	tam := w.Client("9Q", "Tam")
	w.Join(nan, mira)
	w.Join(nan, tam)
	sid := w.LetIn(w.Unseeing("Sid Vane"), office.AccessForm{Clients: []assessment.ClientID{mira}})
	if got, _, err := w.Office.People(t.Context(), sid, office.PeopleQuery{Client: mira}); err != nil || len(got) == 0 {
		t.Errorf("who looks after the child they were let in for: %v, %v", got, err)
	}
	_, _, err := w.Office.People(t.Context(), sid, office.PeopleQuery{Client: tam})
	wantRefusal(t, err, fault.NotFound, "no such record")
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, sid.Person, w.Today()))
	w.Pass(time.Hour)
	wantNone(t, w.Office.PersonLeaves(t.Context(), w.Coordinator, sid.Person, w.Today().AddDays(100)))
	d := must(w.Office.MySurvey(t.Context(), sid))(t)
	if d.Survey.Open() {
		t.Error("a later day of leaving has let the surveyor in again")
	}
}
