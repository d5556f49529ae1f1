package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment"
)

// A drill through the pages: chosen, read out, timed without script, marked, and told of on
// its record, to the learner in Spanish too; the child is refused, and who is drilled sees no
// scenario beforehand (common practice, no source).
func TestADrillThroughThePages(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Join(b.learner, b.mira)
	theirs := as(t, b.site, b.Ward, b.learner)
	start := "/drills/new?learner=" + string(b.learner.Person) + "&skill=decannulation&client=" + string(b.mira)
	b.at.get("/drills").wants(http.StatusOK).says("Begin a drill", "Nobody was drilled yet")
	person := "/people/" + string(b.learner.Person)
	if p := b.at.get(person).wants(http.StatusOK).says("Begin a drill with them"); !strings.Contains(p.body, `href="/drills/new?learner=`+string(b.learner.Person)+`"`) {
		t.Error("their page leads to no drill of them")
	}
	for _, who := range []assessment.Actor{b.Coordinator, b.learner} {
		as(t, b.site, b.Ward, who).get(person).wants(http.StatusOK).saysNot("Begin a drill")
	}
	p := b.at.get(start).wants(http.StatusOK).says("never done on the child", "draw one at random")
	p.form("/drills").send("setting", "real", "purpose", "practice", "place", "at home").wants(http.StatusUnprocessableEntity).says("never done on the child")
	p.form("/drills").send("scenario", "blocked-tube-01", "purpose", "practice", "place", "hall").wants(http.StatusUnprocessableEntity).says("not offered for this skill")
	p = p.form("/drills").send("scenario", "decannulation-01", "purpose", "practice", "place", "skills room").wants(http.StatusOK).says("Read this out", "The tube is out after a bath")
	at := p.at
	theirs.get(at).wants(http.StatusForbidden)
	theirs.get("/scenarios/decannulation-01").wants(http.StatusForbidden)
	theirs.get("/drills").wants(http.StatusForbidden)
	p = p.form(at).send("recognised", "4", "acted", "4.5", "called", "9").wants(http.StatusUnprocessableEntity).says("whole seconds")
	if typed := p.form(at).fields; typed.Get("acted") != "4.5" || typed.Get("called") != "9" {
		t.Errorf("what was typed is lost: %v", typed)
	}
	p = p.form(at).send("recognised", "4", "acted", "31", "called", "9", "taken_back", "acted 2, called 3").wants(http.StatusOK).says("The moments are kept", "drill: scenario and clock")
	if kept := b.at.get(at).wants(http.StatusOK).says("“Acted” at 2 s was taken back."); kept.form(at).fields.Get("acted") != "31" {
		t.Error("the moment is not shown again")
	}
	b.at.get(at).form(at).send("taken_back", "slept 3").wants(http.StatusUnprocessableEntity)
	demonstration := strings.TrimSuffix(at, "/drill")
	b.at.get(demonstration+"/stop").form(demonstration+"/stop").send("reason", "The manikin fell.").wants(http.StatusOK)
	b.at.get(demonstration + "/review").form(demonstration + "/record").send().wants(http.StatusOK)
	b.at.get(demonstration).wants(http.StatusOK).says("Called for help after 9 s.", "No limit is published", "chosen by the observer", "in simulation")
	b.at.get(at).wants(http.StatusOK).says("Called for help") // leads to the record
	theirs.get("/account").form("/account/language").send("language", "es")
	theirs.get(demonstration).wants(http.StatusOK).says("Pidió ayuda a los 9 s.", "Fue un simulacro", "No hay un límite publicado")
	b.at.get("/drills").wants(http.StatusOK).says("Nguyễn Thị Lan", "Acted after 31 s.")
}

// A scenario through the pages: written, refused with all that was typed, kept, and not
// written over by who read an older one (common practice, no source).
func TestAScenarioThroughThePages(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	const at = "/scenarios/decannulation-01"
	b.at.get(at).wants(http.StatusOK).says("Not used yet", "La cánula")
	old := b.at.get(at + "/edit").wants(http.StatusOK)
	p := old.form(at).send("en_title", "Out at the playground", "es_call", " ", "then_after", "0").wants(http.StatusUnprocessableEntity).says("Give whole seconds")
	p = p.form(at).send("then_after", "45").wants(http.StatusUnprocessableEntity).says("Both languages are asked for")
	p.form(at).send("es_call", "Pide ayuda.").wants(http.StatusOK).says("The new version is kept", "version 1", "after 45 seconds")
	again := old.form(at).send("en_title", "Out in the garden").wants(http.StatusUnprocessableEntity).says("meanwhile")
	again.form(at).send().wants(http.StatusOK).says("Out in the garden", "version 2")
	b.at.get(at).form(at+"/retirement").send("retired", "yes").wants(http.StatusOK).says("not offered any more")
	b.at.get("/scenarios/new").wants(http.StatusOK).form("/scenarios").send("skill", "decannulation", "source", "x").wants(http.StatusUnprocessableEntity).says("This is empty")
	as(t, b.site, b.Ward, b.Coordinator).get(at + "/edit").wants(http.StatusForbidden)
}
