package api_test

import (
	"net/http"
	"testing"
	"time"

	"wellshown/api"
	"wellshown/assessment"
)

// surveyors tells of somebody who is let in for one child and shut out again.
func (d *desk) surveyors() {
	d.t.Helper()
	child, other := d.Client("9S", "Sol"), d.Client("9T", "Tau")
	nurse, stranger, halina := d.Nurse("Nan Orme"), d.Nurse("Per Lind"), d.Unseeing("Halina Wren")
	d.Join(nurse, child)
	d.get("/people/"+string(nurse.Person), halina).problem(http.StatusForbidden)
	form := api.SurveyAccessForm{Person: string(halina.Person), Clients: []string{string(child)}, Reason: "The survey after the night of the 3rd.", Through: d.Today().AddDays(6).String()}
	d.post("/survey-access", d.Coordinator, form).problem(http.StatusForbidden)
	var given api.SurveyAccess
	d.post("/survey-access", d.Admin, form).into(http.StatusCreated, &given)
	if !given.Open || given.Whole || len(given.Clients) != 1 || given.Clients[0].FirstName != "Sol" || len(given.People) != 0 || given.GivenBy.Name != d.Admin.Name ||
		!given.Until.Equal(d.Today().AddDays(7).In(d.Zone)) {
		d.t.Errorf("given %+v", given)
	}
	for at, want := range map[string]int{"/people/" + string(nurse.Person): 200, "/people/" + string(stranger.Person): 404, "/clients/" + string(child): 200,
		"/clients/" + string(other): 404, "/overdue": 403, "/ledger/head": 200} {
		if a := d.get(at, halina); a.status != want {
			d.t.Errorf("%s answers %d to the surveyor, want %d: %s", at, a.status, want, a.body)
		}
	}
	var own, all api.List[api.SurveyAccess]
	d.get("/me/survey-access", halina).into(http.StatusOK, &own)
	d.get("/me/survey-access", d.Coordinator).into(http.StatusOK, &all)
	if len(own.Items) != 1 || own.Items[0].ID != given.ID || len(all.Items) != 0 {
		d.t.Errorf("their own: %+v; a coordinator's: %+v", own, all)
	}
	d.delete("/survey-access/"+given.ID, d.Admin).is(http.StatusNoContent)
	d.delete("/survey-access/"+given.ID, d.Admin).problem(http.StatusConflict)
	d.get("/people/"+string(nurse.Person), halina).problem(http.StatusForbidden)
	d.get("/survey-access", d.Admin).into(http.StatusOK, &all)
	if len(all.Items) == 0 || all.Items[0].EndedAt == nil || all.Items[0].Open {
		d.t.Errorf("listed: %+v", all)
	}
}

// The form is refused field by field, and an id that is none is nobody's.
func TestLettingASurveyorInByProgram(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	halina := d.Unseeing("Halina Wren")
	form := api.SurveyAccessForm{Person: string(halina.Person), Whole: true, Reason: "The yearly survey.", Through: d.Today().AddDays(30).String()}
	if says := field(t, d.post("/survey-access", d.Admin, form).problem(http.StatusUnprocessableEntity), "through"); says == "" {
		t.Error("a day too many is not refused at its field")
	}
	form.Through, form.People = d.Today().String(), []string{"somebody"}
	d.post("/survey-access", d.Admin, form).problem(http.StatusNotFound)
	d.Pass(time.Hour)
	token := d.made(1, assessment.ReadPeople)
	d.by(token.Secret, "GET", "/survey-access", nil).problem(http.StatusForbidden)
}
