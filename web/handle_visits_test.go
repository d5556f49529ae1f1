package web

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// A visit is planned by hand, looked at for another day and moved there by forms alone.
func TestVisitsByForms(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	cory, edda := as(t, site, w, w.Coordinator), as(t, site, w, w.Educators[0])
	monday := w.Today().AddDays(7 - (int(w.Today().Weekday())+6)%7)
	who := string(w.Educators[0].Person)
	cory.get("/visits").wants(http.StatusOK).sound().headed("Nothing is due that a visit could meet")
	cory.posts("/visits", "client", string(mira), "educator", who, "on", monday.AddDays(-1).String()).wants(http.StatusUnprocessableEntity).sound().says("No visit was planned.", "off on that day")
	page := cory.posts("/visits", "client", string(mira), "educator", who, "on", monday.String()).wants(http.StatusOK).sound().says("The visit is on the plan.", "It meets nothing that is due.")
	at := strings.TrimSuffix(page.actions("/cancelling")[0], "/cancelling")
	if edda.get(at).has("/cancelling") {
		t.Error("an educator is offered to take a visit off the plan")
	}
	cory.get(at + "?on=" + monday.AddDays(5).String()).wants(http.StatusOK).sound().says("It cannot be: they are off on that day.")
	cory.get(at + "?on=" + monday.AddDays(1).String()).wants(http.StatusOK).sound().says("It breaks nothing.")
	there := office.VisitMove{On: monday.AddDays(1).String(), Educator: w.Educators[0].Person}
	read, err := w.Office.VisitDesk(t.Context(), w.Coordinator, assessment.VisitID(strings.TrimPrefix(at, "/visits/")), there)
	if err != nil {
		t.Fatal(err)
	}
	cory.posts(at, "on", there.On, "educator", who, "version", "0").wants(http.StatusUnprocessableEntity).sound().says("The visit was not moved.", "has changed")
	cory.posts(at, "on", there.On, "educator", who, "version", read.Version).wants(http.StatusOK).says("The visit is moved.")
	cory.get(at).form(at + "/cancelling").send().wants(http.StatusOK).says("The visit is off the plan.")
	page = cory.get("/visits/weeks").wants(http.StatusOK).sound().form("/visits/weeks").send("educator", who, "per_day", "13").wants(http.StatusUnprocessableEntity).sound().says("from 0 through 12")
	page.form("/visits/weeks").send("per_day", "2", "base", "Office").wants(http.StatusOK).says("2 visits a day at most", "starting from Office")
}

// Where five people need the same, a skills day is offered, and its form comes filled in with the
// skill and who needs it (how many is common practice, no source).
func TestASkillsDayIsOfferedToMany(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	w.Require("bagging", assessment.Nurse)
	var nurses []assessment.Actor
	for _, name := range []string{"Nan Orme", "Ola Reed", "Pia Voss", "Quin Hale", "Rae Moss"} {
		nurse := w.Nurse(name)
		w.Join(nurse, mira)
		nurses = append(nurses, nurse)
	}
	idle := w.Nurse("Sy Lark")
	at := as(t, engine(w), w, w.Coordinator)
	at.get("/visits").wants(http.StatusOK).says("Many need the same", "5 people")
	// What is asked for amiss is told on the page itself, with what was typed; and of one educator only
	// what their own visits meet is counted.
	for _, weeks := range []string{"99", "soon"} {
		page := at.get("/visits?weeks="+weeks).wants(http.StatusUnprocessableEntity).sound().says("This cannot be shown.", "Many need the same")
		if typed := page.form("/visits", "weeks", weeks).fields.Get("weeks"); typed != weeks {
			t.Errorf("what was typed is lost: %q", typed)
		}
	}
	all, err := w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{})
	if err != nil || all.Gaps == 0 || len(all.Proposed) == 0 {
		t.Fatalf("%+v, %v", all, err)
	}
	gaps := 0
	for _, e := range w.Educators {
		one, err := w.Office.Visits(t.Context(), w.Coordinator, office.VisitQuery{Educator: e.Person})
		if gaps += one.Gaps; err != nil || len(one.Kept)+len(one.Proposed) == 0 && one.Gaps > 0 {
			t.Errorf("%s has %d visits that meet %d: %v", e.Name, len(one.Proposed), one.Gaps, err)
		}
	}
	if gaps != all.Gaps {
		t.Errorf("%d are met by all together, and %d one by one", all.Gaps, gaps)
	}
	form := at.get("/visits").follow("Plan a skills day: Manual ventilation with a self-inflating bag").wants(http.StatusOK).form("/skills-days")
	if form.fields.Get("skill-1") != "bagging" || len(form.fields["learners"]) != 5 || slices.Contains(form.fields["learners"], string(idle.Person)) || !slices.Contains(form.fields["learners"], string(nurses[4].Person)) {
		t.Errorf("filled in: %v", form.fields)
	}
	at.get("/skills-days/new?on=2026-02-31&skill=juggling&learner=nobody").wants(http.StatusOK)
}
