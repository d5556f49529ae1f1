package web

import (
	"net/http"
	"slices"
	"testing"
)

func TestRequirements(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	cory := as(t, site, w, w.Coordinator)
	page := cory.get("/requirements").headed("Nobody must hold anything yet").says("No requirement here.")
	today := w.Today().String()
	page = page.form("/requirements", "from", today).send("skill", "humidifier", "kind", "nurse", "client", string(mira), "equipment_kind", "humidifier", "from", "2026-02-01", "through", "2026-01-01").
		wants(http.StatusUnprocessableEntity).sound().says("Nothing was required.", "The last day is before the first.")
	form := page.form("/requirements", "from", "2026-02-01", "through", "2026-01-01")
	if kept := form.fields; kept.Get("skill") != "humidifier" || kept.Get("kind") != "nurse" || kept.Get("client") != string(mira) || kept.Get("equipment_kind") != "humidifier" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	form.send("through", "").headed("One requirement stands").says("each nurse on the team of Mira, 7K, for children with: humidifier", "not before 1 Feb 2026")
	form.send("through", "").wants(http.StatusUnprocessableEntity).sound().says("This is required already.")
	page = form.send("skill", "bagging", "kind", "", "client", "", "equipment_kind", "", "from", today, "through", "").headed("Two requirements stand").says("each caregiver")
	find := cory.get("/requirements?find=NURSE").headed("One requirement fits")
	find.form("/requirements", "find", "NURSE").send("find", "zz").headed("No requirement fits")
	for _, n := range nodes(page.node, "form") {
		if f := readForm(page, n); f.fields.Has("through") && !f.fields.Has("skill") {
			f.send().headed("Two requirements stand").says("Today is its last day.", "through "+day(w.Today()))
		}
	}
	as(t, site, w, w.Educators[0]).get("/requirements").headed("Two requirements stand").saysNot("Add a requirement", "End today")
	as(t, site, w, w.Educators[0]).posts("/requirements", "skill", "suction", "from", today).wants(http.StatusForbidden)
}

func TestAppointments(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	nia := w.Educator("Nia Frost")
	admin, edda := as(t, site, w, w.Admin), as(t, site, w, w.Educators[0])
	page := admin.get("/appointments").headed("Two people may observe").says("Edda Lorne", "Rolf Teague", "one of the first observers", "proposed by: Ada Minton", "agreed by: ")
	form := page.form("/appointments")
	page = form.send("person", string(nia.Person), "founding", "yes", "evidence", "Judged these at a teaching hospital.").wants(http.StatusUnprocessableEntity).sound().says("Nobody was proposed.", "choose at least one skill")
	kept := page.form("/appointments").fields
	if kept.Get("person") != string(nia.Person) || kept.Get("founding") != "yes" || kept.Get("evidence") != "Judged these at a teaching hospital." {
		t.Errorf("after a fault the form holds %v", kept)
	}
	fields := page.form("/appointments").fields
	fields["skills"] = []string{"bagging", "suction"}
	fields.Set("from", "2026-13-01")
	page = admin.post("/appointments", fields).wants(http.StatusUnprocessableEntity).sound()
	if kept := page.form("/appointments").fields; !slices.Equal(kept["skills"], fields["skills"]) {
		t.Errorf("ticked after a fault: %v", kept["skills"])
	}
	fields.Set("from", w.Today().String())
	page = admin.post("/appointments", fields).headed("One appointment waits for a second person").says("Nia Frost", "You proposed it: somebody else agrees to it.")
	// A second click proposes nothing new.
	admin.post("/appointments", fields).headed("One appointment waits for a second person")
	own := as(t, site, w, nia).get("/appointments").wants(http.StatusOK).sound().says("It is your own: somebody else agrees to it.")
	offered := ""
	for _, n := range nodes(edda.get("/appointments").node, "form") {
		if a := attrOf(n, "action"); len(a) > 10 && a[len(a)-10:] == "/agreement" {
			offered = a
		}
	}
	if offered == "" || own.has(offered) || page.has(offered) {
		t.Fatalf("the second signature is offered at %q, or to whom it should not be", offered)
	}
	admin.posts(offered).wants(http.StatusUnprocessableEntity).sound().says("You have not agreed.", "You proposed this appointment")
	page = edda.posts(offered).headed("Three people may observe").says("You have agreed.", "agreed by: Edda Lorne")
	end := offered[:len(offered)-10] + "/end"
	page.form(end).send("reason", " ").wants(http.StatusUnprocessableEntity).sound().says("It has not ended.", "Say why.")
	page.form(end).send("reason", "On leave.").headed("Two people may observe").says("Ended", "On leave.")
	edda.posts(end, "reason", "Again.").wants(http.StatusUnprocessableEntity).sound().says("ended already")
	as(t, site, w, w.Coordinator).posts("/appointments/" + nobody + "/agreement").wants(http.StatusForbidden)
	edda.posts("/appointments/" + nobody + "/agreement").wants(http.StatusNotFound)
	as(t, site, w, w.Surveyor("Halina Wren")).get("/appointments").headed("Two people may observe").saysNot("Propose somebody", "End it")
}
