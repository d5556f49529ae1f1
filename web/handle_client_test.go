package web

import (
	"net/http"
	"testing"

	"wellshown/assessment"
)

func TestChildren(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get("/clients").headed("No child is here yet").follow("Add a child").headed("Add a child")
	page = page.form("/clients").send("code", "seven kay", "first_name", "").wants(http.StatusUnprocessableEntity).sound().says("No child was added.", "Give the first name.")
	if kept := page.form("/clients").fields; kept.Get("code") != "seven kay" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	mira := page.form("/clients").send("code", "7k", "first_name", "Mira").headed("Mira, 7K").says("Mira is added.", "by default", "No equipment yet.", "Nobody is on the care team.", "Nothing is required yet.")
	cory.get("/clients/new").form("/clients").send("code", "7K", "first_name", "Theo").wants(http.StatusUnprocessableEntity).sound().says("There is a child with this code already.")
	mira.follow("Change").headed("Change Mira, 7K").form(mira.at+"/edit").send("first_name", "Mirabel").headed("Mirabel, 7K").says("The change is saved.")
	cory.get("/clients").headed("Children").says("Mirabel", "No plan for going home yet", "0 people on the care team").
		form("/clients").send("find", "zz").headed("No child fits")
	as(t, site, w, w.Nurse("Ada Marsh")).get("/clients").headed("No child is yours today").saysNot("Mirabel")
}

func TestAChildsNumbersAndEquipment(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	w.Require("suction", "")
	cory, edda := as(t, site, w, w.Coordinator), as(t, site, w, w.Educators[0])
	at := cory.get("/clients/new").form("/clients").send("code", "7K", "first_name", "Mira").wants(http.StatusOK).at
	// What a required skill judges by is missed before somebody stands at the bedside.
	page := edda.get(at).headed("Mira, 7K").says("numbers are missing", "suction")
	if cory.get(at).has(at+"/parameters/new") || !page.has(at+"/parameters/new") {
		t.Error("ordered values are an educator's to set, and of nobody else")
	}
	form := page.follow("Add a number").headed("A number for Mira, 7K").form(at + "/parameters")
	page = form.send("parameter", "suction_depth", "value", "eleven", "unit", "mm").wants(http.StatusUnprocessableEntity).sound().says("Nothing was set.")
	if kept := page.form(at + "/parameters").fields; kept.Get("parameter") != "suction_depth" || kept.Get("value") != "eleven" || kept.Get("unit") != "mm" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/parameters").send("value", "11.5", "unit", "cm").headed("Mira, 7K").says("It is set.", "11.5 cm", w.Educators[0].Name)
	edda.get(at + "/parameters/new?parameter=suction_depth").headed("A number for Mira, 7K").says("Now it is 11.5 cm")
	page.form2nd(t, edda, at)
	cory.posts(at+"/parameters", "parameter", "suction_depth", "value", "3").wants(http.StatusForbidden)

	page = cory.get(at).follow("Add equipment").headed("Equipment for Mira, 7K")
	page = page.form(at+"/equipment").send("kind", "ventilator", "type", "portable, single limb", "from", "tomorrow").wants(http.StatusUnprocessableEntity).sound().says("Nothing was changed.")
	if kept := page.form(at + "/equipment").fields; kept.Get("kind") != "ventilator" || kept.Get("type") != "portable, single limb" || kept.Get("from") != "tomorrow" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page.form(at+"/equipment").send("from", w.Today().String()).headed("Mira, 7K").says("The equipment is noted.", "portable, single limb", "from "+day(w.Today()))
	page.form(at+"/equipment").send("from", w.Today().String()).wants(http.StatusUnprocessableEntity).sound().says("already")
	page.form(at+"/equipment").send("kind", "oxygen source", "type", "concentrator", "from", w.Today().AddDays(5).String()).headed("Mira, 7K").says("none today", "concentrator from "+day(w.Today().AddDays(5)))
}

// form2nd sets a value in words, and is refused both at once.
func (p *page) form2nd(t *testing.T, b *browser, at string) {
	t.Helper()
	b.posts(at+"/parameters", "parameter", "vent_settings", "words", "rate 22 per min").headed("Mira, 7K").says("rate 22 per min")
	b.posts(at+"/parameters", "parameter", "suction_depth", "value", "12", "words", "or so").wants(http.StatusUnprocessableEntity).sound().says("Give a number or words, not both.")
	b.posts(at+"/parameters", "parameter", "").wants(http.StatusUnprocessableEntity).sound().says("Nothing was set.")
}

func TestATeam(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan, ada := w.Family("Lan", mira), w.Nurse("Ada Marsh")
	w.Require("humidifier", "")
	w.Require("bagging", assessment.Nurse)
	at := "/clients/" + string(mira)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get(at).headed("Mira, 7K").says("Lan", "mother", "not started", "0 of 1 skill current", "each caregiver", "each nurse")
	page = page.form(at+"/team").send("person", "", "from", w.Today().String()).wants(http.StatusUnprocessableEntity).sound().says("Nobody joined the team.", "Choose who is to look after the child.")
	page = page.form(at+"/team").send("person", string(ada.Person), "through", w.Today().AddDays(30).String()).headed("Mira, 7K").says("They are on the team.", "Ada Marsh", "0 of 2 skills current")
	page = page.form(at+"/team").send("person", string(ada.Person)).wants(http.StatusUnprocessableEntity).sound().says("Ada Marsh is on this child's team on some of these days already.")
	if kept := page.form(at + "/team").fields; kept.Get("person") != string(ada.Person) {
		t.Errorf("after a fault the form holds %v", kept)
	}
	// A mother sees who looks after her child, and not how they stand.
	mother := as(t, site, w, lan).get(at).headed("Mira, 7K").says("Ada Marsh", "0 of 1 skill current").saysNot("0 of 2")
	if mother.has(at+"/edit") || mother.has(at+"/team") || mother.has("/people/"+string(ada.Person)) || mother.has("/standings?client="+string(mira)) {
		t.Error("a mother is offered what is not hers")
	}
	ended := 0
	for _, n := range nodes(cory.get(at).node, "form") {
		if f := readForm(page, n); f.fields.Has("through") && !f.fields.Has("person") {
			f.send().headed("Mira, 7K").says("Today is their last day on the team.")
			f.send("through", "2020-01-01").wants(http.StatusUnprocessableEntity).sound().says("Their last day was not set.")
			ended++
		}
	}
	if ended != 2 {
		t.Errorf("%d people could be taken off the team, not 2", ended)
	}
	cory.posts(at+"/team/"+nobody+"/end", "through", "2026-02-01").wants(http.StatusNotFound)
}
