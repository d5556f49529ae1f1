package web

import (
	"net/http"
	"testing"
)

// A surveyor is let in for one child by the page, sees what it says, and is shut out.
func TestLettingASurveyorIn(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira, tam := w.Client("7K", "Mira"), w.Client("8Q", "Tam")
	nurse, stranger, halina := w.Nurse("Nan Orme"), w.Nurse("Per Lind"), w.Unseeing("Halina Wren")
	w.Join(nurse, mira)
	her := as(t, site, w, halina)
	her.get("/").headed("You are not let in now").says("You have not been let in as a surveyor yet").sound()
	her.get("/survey").wants(http.StatusForbidden).says("not been let in")

	admin := as(t, site, w, w.Admin)
	form := admin.get("/people").follow("Surveyors").headed("No surveyor is let in").sound().form("/survey-access")
	again := form.send("person", string(halina.Person), "clients", string(mira), "reason", "The night of the 3rd.", "through", "2026-02-30").
		wants(http.StatusUnprocessableEntity).says("2026-02-30").sound().form("/survey-access")
	if again.fields.Get("clients") != string(mira) || again.fields.Get("reason") != "The night of the 3rd." || again.fields.Get("person") != string(halina.Person) {
		t.Errorf("what was filled in is lost: %v", again.fields)
	}
	again.send("through", w.Today().AddDays(3).String()).wants(http.StatusOK).says("Halina Wren is let in")
	admin.get("/survey-access").headed("One surveyor is let in").says("Mira, 7K", "The night of the 3rd.", "Open now").sound()

	her.get("/").headed("Who was competent, on which day?").saysNot("whole agency").sound()
	her.get("/survey/access").headed("What you may look at").says("Mira, 7K").sound()
	her.get("/survey?find=o").says("Nan Orme").saysNot("Per Lind")
	her.get("/clients/" + string(mira)).wants(http.StatusOK).says("Nan Orme")
	her.get("/clients/" + string(tam)).wants(http.StatusNotFound)
	her.get("/people/" + string(nurse.Person)).wants(http.StatusOK)
	her.get("/people/" + string(stranger.Person)).wants(http.StatusNotFound)
	her.get("/standings").wants(http.StatusForbidden).says("whole agency")

	d, err := w.Office.Access(t.Context(), w.Admin)
	if err != nil {
		t.Fatal(err)
	}
	admin.get("/survey-access").form("/survey-access/" + d.Given[0].ID + "/end").send().says("The access is ended")
	her.get("/").headed("You are not let in now").says("is over")
	admin.get("/survey-access").headed("No surveyor is let in").says("Ended by")
	as(t, site, w, w.Coordinator).get("/survey/access").headed("You are no surveyor here")
}
