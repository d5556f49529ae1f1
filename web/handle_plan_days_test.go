package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// The days of going home are set, and a plan of one line is signed as ready, through the
// pages: with a wrong password nothing is signed, and after a change the signature no
// longer counts (common practice, no source).
func TestSigningThePlanOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	line, err := w.Office.AddCriterion(t.Context(), w.Coordinator, mira, office.CriterionForm{Kind: "attested", Title: "The stairs are safe"})
	if err != nil {
		t.Fatal(err)
	}
	site := engine(w)
	edda := as(t, site, w, w.Educators[0])
	at := "/clients/" + string(mira) + "/readiness"
	page := edda.get(at).headed("Not yet: the one thing on the plan is left")
	page = page.form(at+"/days").send("meeting", "next week", "home", "2026-03-01").wants(http.StatusUnprocessableEntity).sound().says("The days were not set.")
	if kept := page.form(at + "/days").fields; kept.Get("meeting") != "next week" || kept.Get("home") != "2026-03-01" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/days").send("meeting", "2026-02-20").wants(http.StatusOK).says("The days are set.", "20 February 2026", "1 March 2026")
	if page.has(at + "/signature") {
		t.Error("what is not ready can be signed")
	}
	page = page.form(at+"/evidence", "criterion", string(line)).send("word", "met").headed("All is in place for Mira; a clinician has still to sign").says("A licensed clinician reads the plan and signs it", "Who: an educator of the agency with a licence. By 20 February 2026.")
	if page.says("You can: sign it here"); !strings.Contains(page.body, `href="#sign"`) || !strings.Contains(page.body, `id="sign"`) {
		t.Error("whoever can sign is not led to it")
	}
	edda.get("/clients").says("Nothing on the plan is left; a clinician has still to sign").saysNot("Ready: ")
	stale := page.form(at + "/signature")
	page = stale.send("password", "not mine").wants(http.StatusUnprocessableEntity).sound().says("Nothing was signed.", "does not match")
	page = page.form(at+"/signature").send("password", ward.Password).wants(http.StatusOK).says("The plan is signed.", "Signed as ready", w.Educators[0].Name).headed("Mira is ready to go home")
	edda.get("/clients").says("Ready: nothing on the plan is left")
	page.form(at+"/criteria").send("kind", "attested", "title", "The door is wide").headed("Not yet: one of 2 things is left").says("the signature does not count any more")
	lan := w.Family("Lan", mira)
	if err := w.Office.SetLanguage(t.Context(), lan, "es"); err != nil {
		t.Fatal(err)
	}
	mother := as(t, site, w, lan) // what is left is counted, not what there is: common practice, no source
	mother.get(at).headed("Todavía no: falta una de 2 cosas")
	mother.get("/home").says("Todavía no: falta una de 2 cosas.")
	mother.get("/clients").says("Todavía no: falta una de 2 cosas")
	mother.get("/clients/" + string(mira)).headed("Mira: todavía no, falta una de 2 cosas")
	if _, err := w.Office.Readiness(t.Context(), w.Educators[0], mira, w.Now()); err != nil {
		t.Fatal(err)
	}
	stale.send("password", ward.Password).wants(http.StatusUnprocessableEntity).says("Nothing was signed.")
}

// The template is taken, changed, added to and given back through its page; a family is
// shown none of it (common practice, no source).
func TestThePlanTemplateOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	cory := as(t, site, w, w.Coordinator)
	const at = "/plan-template"
	page := cory.get(at).headed("14 lines begin each plan")
	if page.has(at + "/lines") {
		t.Error("the standard template can be changed")
	}
	page = page.form(at).send().wants(http.StatusOK).says("The template is your agency’s own now.", "Your agency’s own template.")
	page = page.form(at+"/lines").send("kind", "attested", "title", "", "spanish", "Las escaleras", "source", "Our surgeon").wants(http.StatusUnprocessableEntity).sound()
	if kept := page.form(at + "/lines").fields; kept.Get("spanish") != "Las escaleras" || kept.Get("source") != "Our surgeon" || kept.Get("kind") != "attested" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/lines").send("title", "The stairs are safe").headed("15 lines begin each plan").says("The line is on the template.", "The stairs are safe", "Las escaleras", "Our surgeon")
	line := at + "/lines/" + page.lineOf("The stairs are safe")
	page = page.form(line).send("title", "Stairs and door are safe").wants(http.StatusOK).says("Stairs and door are safe").saysNot("The stairs are safe")
	page = page.form(line + "/removal").send().headed("14 lines begin each plan")
	page.form(at+"/standard").send().wants(http.StatusOK).says("New plans begin with the standard template again.", "The standard template.")
	as(t, site, w, w.Family("Rosa Quispe", w.Client("7K", "Mira"))).get(at).wants(http.StatusForbidden)
	surveyor := as(t, site, w, w.Surveyor("Sue Vey"))
	if surveyor.get(at).wants(http.StatusOK).has(at) {
		t.Error("a surveyor is offered to change the template")
	}
}
