package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/wording"
	"wellshown/integration/ward"
)

// Days, a target and a teacher are chosen through the pages, and what is refused keeps what
// was typed (common practice, no source).
func TestALearningPlanOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	rosa := w.Family("Rosa Quispe", mira)
	w.Require("bagging", assessment.Family)
	cory := as(t, engine(w), w, w.Coordinator)
	at := "/learning/" + string(rosa.Person)
	days := cory.get("/learning").wants(http.StatusOK)
	days = days.form("/learning/days").send("skill", "bagging", "days", "0").wants(http.StatusUnprocessableEntity).sound().says("The days were not kept.", "from 1 to 365")
	if kept := days.form("/learning/days").fields; kept.Get("skill") != "bagging" || kept.Get("days") != "0" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	days.form("/learning/days").send("days", "6").wants(http.StatusOK).says("The days are kept.", "6 days")
	page := cory.get(at).headed("Rosa Quispe: One skill is left to learn: Manual ventilation with a self-inflating bag").says("Ask your educator to teach you Manual ventilation")
	page = page.form(at+"/target").send("goal", "other", "on", "soon").wants(http.StatusUnprocessableEntity).sound().says("The target was not kept.")
	if kept := page.form(at + "/target").fields; kept.Get("on") != "soon" || kept.Get("goal") != "other" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/target").send("on", w.Today().AddDays(30).String()).wants(http.StatusOK).says("The target is kept.", "To be ready by", "ready by")
	page = page.form(at+"/choices").send("skill", "bagging ", "teacher", string(w.Educators[0].Person), "by", "x").wants(http.StatusUnprocessableEntity).sound().says("The choice was not kept.")
	page.form(at+"/choices").send("by", w.Today().AddDays(8).String()).wants(http.StatusOK).says("The choice is kept.", "Taught by "+w.Educators[0].Name)
	if paper := cory.get(at + "/plan.pdf?language=es").wants(http.StatusOK); paper.body != "learning plan of Rosa Quispe in es" {
		t.Errorf("on paper: %q", paper.body)
	}
}

// A session is written down, read and corrected to none through the pages: that it was held
// makes somebody a learner, and its correction takes that back (common practice, no source).
func TestTeachingOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	rosa := w.Family("Rosa Quispe", mira)
	w.Require("bagging", assessment.Family)
	edda := as(t, engine(w), w, w.Educators[0])
	at := "/learning/" + string(rosa.Person)
	form := edda.get(at).wants(http.StatusOK).form(at + "/sessions")
	form.fields["skills"] = []string{"bagging"}
	page := form.send("minutes", "none", "note", "Slow and sure.").wants(http.StatusUnprocessableEntity).sound().says("The session was not written down.", "Give whole minutes", "Say of Rosa Quispe what happened")
	if kept := page.form(at + "/sessions").fields; kept.Get("minutes") != "none" || kept.Get("note") != "Slow and sure." || kept.Get("skills") != "bagging" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	form = page.form(at + "/sessions")
	form.fields["learners"] = []string{"shown", "taught-back"}
	page = form.send("minutes", "30").wants(http.StatusOK).says("The session is written down.", "shown how and taught back; 30 minutes with "+w.Educators[0].Name, "Practise Manual ventilation")
	session := page.follow("Manual ventilation with a self-inflating bag").wants(http.StatusOK).says("It makes nobody current.", "Rosa Quispe: shown how and taught back")
	fix := session.form(session.at + "/correction")
	delete(fix.fields, "how-"+string(rosa.Person))
	wrong := fix.send("reason", "", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("The session was not corrected.")
	fix = wrong.form(strings.Split(wrong.at, "/correction")[0] + "/correction")
	if len(fix.fields["how-"+string(rosa.Person)]) != 0 {
		t.Errorf("ticks that were taken away are back: %v", fix.fields)
	}
	fix.send("reason", "She was not there.", "password", ward.Password).wants(http.StatusOK)
	edda.get(at).wants(http.StatusOK).says("Corrected later: another entry stands in its place.", "Ask your educator to teach you")
}

// A mother who reads Spanish writes down what she practised alone: it says that nobody
// observed it, and she may take it back; what staff wrote she may not (common practice, no
// source).
func TestOwnPracticeOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	rosa := w.Family("Rosa Quispe", mira)
	w.Require("bagging", assessment.Family)
	if err := w.Office.SetLanguage(t.Context(), rosa, string(wording.Spanish)); err != nil {
		t.Fatal(err)
	}
	site := engine(w)
	mother := as(t, site, w, rosa)
	at := "/learning/" + string(rosa.Person) + "/practice?what=bagging" // whoever has to sign in first comes back to what it asks for
	mother.get("/home").wants(http.StatusOK).says("Lo que sigue", "Pida que le enseñen esto: Dar respiraciones con la bolsa de reanimación.")
	page := mother.get("/plan").wants(http.StatusOK).follow("Ya practiqué esto: Dar respiraciones con la bolsa de reanimación").wants(http.StatusOK).sound().says("Nadie lo observó.", "No haga nada a solas").saysNot("Who helped", "with help", "con ayuda")
	page = page.form(at).send("note", "Con un muñeco.").wants(http.StatusUnprocessableEntity).sound().says("La práctica no se anotó.", "Diga de al menos un paso cómo salió")
	form := page.form(at)
	if form.fields.Get("note") != "Con un muñeco." {
		t.Errorf("after a fault the form holds %v", form.fields)
	}
	page = form.send("step-1", "alone", "step-2", "not yet").wants(http.StatusOK).says("La práctica quedó anotada. No cuenta para ninguna habilidad.", "por mi cuenta, sin que nadie observara: un paso sin ayuda")
	run := page.at
	edda := as(t, site, w, w.Educators[0])
	edda.get("/learning/"+string(rosa.Person)).wants(http.StatusOK).says("practised once by myself, not observed", "Practice: counts for no skill")
	as(t, site, w, w.Nurse("Uli Brenner")).get(run).wants(http.StatusNotFound)
	page = page.form(run+"/taking-back").send("reason", "").wants(http.StatusUnprocessableEntity).says("No se anuló nada.")
	page.form(run+"/taking-back").send("reason", "Fue otro día.").wants(http.StatusOK).says("Se anotó por error: Fue otro día.")
	theirs := edda.get(at).wants(http.StatusOK).says("Who helped").form(at)
	seen := theirs.send("done_on", w.Today().String(), "step-1", "with help", "helper", string(w.Educators[0].Person)).wants(http.StatusOK)
	if mother.get(seen.at).wants(http.StatusOK).has(seen.at + "/taking-back") {
		t.Error("a mother is offered to take back what staff wrote")
	}
	mother.takesBack(seen.at).wants(http.StatusUnprocessableEntity).says("No puede anular lo que otra persona anotó sobre usted.")
}

// takesBack sends an attempt to take a practice run back that no page offers.
func (b *browser) takesBack(run string) *page {
	b.t.Helper()
	return b.post(run+"/taking-back", url.Values{"csrf": {b.csrf()}, "reason": {"Not so."}})
}
