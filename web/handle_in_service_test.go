package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// keepsPractice has the agency use the rules for aides.
func keepsPractice(t *testing.T, o *office.Office, by assessment.Actor) {
	t.Helper()
	rules := office.PracticeForm{IncidentWithdraws: string(assessment.SkillAndRelated), IncidentByItself: true, InService: true, InServiceHours: "12", InServiceYear: "employment anniversary", Supervision: true}
	if err := o.SetPractice(t.Context(), by, rules); err != nil {
		t.Fatal(err)
	}
}

// A session that is not taken back keeps what was typed where it was typed; and an aide whose hours
// cannot be counted has a line that leads to what is missing (common practice, no source).
func TestInServiceOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	keepsPractice(t, w.Office, w.Admin)
	nan, ada := w.Nurse("Ada Orme"), w.Aide("Zoe Reed")
	cory := as(t, engine(w), w, w.Coordinator)
	page := cory.get("/in-service").wants(http.StatusOK).says("Of 1 aide the day of hire is not known")
	if strings.Index(page.body, `value="`+string(ada.Person)) > strings.Index(page.body, `value="`+string(nan.Person)) {
		t.Error("a nurse stands before the aide whose hours are counted")
	}
	hired := page.follow("Say the day of hire: Zoe Reed").wants(http.StatusOK).form("/in-service/hired")
	if hired.fields.Get("person") != string(ada.Person) {
		t.Errorf("chosen: %v", hired.fields)
	}
	hired.send("on", w.Today().AddDays(-20).String()).wants(http.StatusOK).says("The day of hire is written down.").saysNot("Say the day of hire")
	form := page.form("/in-service")
	form.fields["people"] = []string{string(ada.Person)}
	page = form.send("hours", "1:30", "topic", "Falls", "trainer", "Ruth Adeyemi, RN").wants(http.StatusOK).says("The session is written down.")
	held, err := w.Office.InService(t.Context(), w.Coordinator, "")
	if err != nil || len(held.Sessions) != 1 {
		t.Fatalf("%+v, %v", held.Sessions, err)
	}
	at := "/in-service/" + string(held.Sessions[0].ID) + "/taking-back"
	page = page.form(at).send("reason", "-").wants(http.StatusUnprocessableEntity).sound().says("Nothing was taken back.")
	if undo := page.form(at); undo.fields.Get("reason") != "-" || !page.has("#undo-"+string(held.Sessions[0].ID)+"-reason") {
		t.Errorf("what was typed is lost, or nothing leads to it: %v", undo.fields)
	}
	page.form(at).send("reason", "It was another day.").wants(http.StatusOK).says("It was another day.")
}

// What nobody has said of a child is said from its line, and the page of one aide leads back to all
// (common practice, no source).
func TestSupervisionOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	keepsPractice(t, w.Office, w.Admin)
	mira, zoe := w.Client("7K", "Mira"), w.Aide("Zoe Reed")
	w.Join(zoe, mira)
	cory := as(t, engine(w), w, w.Coordinator)
	page := cory.get("/supervision").wants(http.StatusOK).says("Not said yet").saysNot("Every aide")
	form := page.follow("Say it: Mira, 7K").wants(http.StatusOK).form("/supervision/skilled-care")
	if form.fields.Get("client") != string(mira) {
		t.Errorf("chosen: %v", form.fields)
	}
	page = form.send("skilled", "yes").wants(http.StatusOK).says("It is set.").saysNot("Not said yet", "Say it")
	one := page.follow("Write one down: Zoe Reed, Mira, 7K").wants(http.StatusOK).says("Every aide")
	if log := one.form("/supervision"); log.fields.Get("aide") != string(zoe.Person) || log.fields.Get("client") != string(mira) {
		t.Errorf("chosen: %v", log.fields)
	}
	one.follow("Every aide").wants(http.StatusOK).saysNot("Every aide")
}
