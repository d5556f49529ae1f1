package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// The grid, the report and the papers say what the fold says, on any day.
func TestStandingsOnAnyDay(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Require("bagging", assessment.Nurse)
	b.Require("suction", assessment.Nurse)
	b.Join(b.learner, b.mira)
	shown := b.Today()
	b.Award(b.learner, "bagging", b.mira)
	coordinator := as(t, b.site, b.Ward, b.Coordinator)
	p := coordinator.get("/standings").wants(http.StatusOK).says(b.learner.Name, "current, through", "not started")
	if got := p.heading(); got != "Nothing has lapsed; 1 needed skill was never held" {
		t.Errorf("the grid finds %q", got)
	}
	p.follow("30 days on").wants(http.StatusOK).says("On " + day(b.Today().AddDays(30)))
	far := b.Today().AddMonths(14)
	p = coordinator.get("/standings").form("/standings").send("on", far.String(), "kind", "nurse").wants(http.StatusOK).says("On "+day(far), "lapsed, through")
	if got := p.heading(); got != "One needed skill no longer holds" {
		t.Errorf("the grid finds %q", got)
	}
	coordinator.get("/standings?on=" + shown.AddDays(-30).String()).wants(http.StatusOK).saysNot("current, through")
	coordinator.get("/standings?find=nobody").wants(http.StatusOK).says("Nobody fits")
	if p := coordinator.get("/standings?skill=suction"); len(nodes(p.node, "option")) < 12+1 {
		t.Error("a chosen skill hides the others from the list")
	}
	p = coordinator.get("/standings?on=2026-13-01&client=mira&kind=king").wants(http.StatusUnprocessableEntity).says("There is no such child.", "is not a kind of caregiver")
	if got := p.form("/standings").fields.Get("on"); got != "2026-13-01" {
		t.Errorf("the day as typed is %q", got)
	}
}

// Who was last observed by whom, and who stands how, narrow the grid; a shape leads to what made
// it so on that day; what is shown leaves as a table, by the same question.
func TestStandingsNarrowedAndTakenAway(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Require("bagging", assessment.Nurse)
	b.Join(b.learner, b.mira)
	b.Award(b.learner, "bagging", b.mira, ward.SeenBy(b.Educators[1]))
	other := b.Nurse("Nobody Yet")
	b.Join(other, b.mira)
	coordinator := as(t, b.site, b.Ward, b.Coordinator)
	p := coordinator.get("/standings?observer=" + string(b.Educators[1].Person)).wants(http.StatusOK).says(b.learner.Name).saysNot(other.Name)
	if at := "/people/" + string(b.learner.Person) + "?on=" + b.Today().String() + "#skill-bagging"; !p.has(at) {
		t.Errorf("no shape leads to %s", at)
	}
	if whole := coordinator.get("/people/" + string(b.learner.Person)).wants(http.StatusOK); !strings.Contains(whole.body, `id="skill-bagging"`) {
		t.Error("the page that a shape leads to has no such place")
	}
	coordinator.get("/standings?observer=" + string(b.Educators[0].Person)).wants(http.StatusOK).says("Nobody fits")
	p = coordinator.get("/standings?skill=bagging&standing=not+started").wants(http.StatusOK).says(other.Name).saysNot(b.learner.Name)
	if csv := p.follow("CSV").wants(http.StatusOK); csv.body != "on,"+b.Today().String()+" of 1" {
		t.Errorf("the table holds %q", csv.body)
	}
	if book := p.follow("XLSX").wants(http.StatusOK); !strings.HasPrefix(book.body, "PK") {
		t.Errorf("the workbook holds %q", book.body)
	}
	coordinator.get("/standings.csv?standing=splendid&observer=x").wants(http.StatusUnprocessableEntity).says("There is no such standing.", "There is no such educator.")
	coordinator.get("/standings?after=" + string(b.learner.Person)).wants(http.StatusOK)
}

func TestOverdueAndPapers(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	b.Require("bagging", assessment.Nurse)
	b.Require("suction", assessment.Nurse)
	b.Join(b.learner, b.mira)
	b.Award(b.learner, "bagging", b.mira)
	educator := as(t, b.site, b.Ward, b.Educators[0])
	on := b.Today().AddMonths(14).String()
	p := educator.get("/overdue?on="+on).wants(http.StatusOK).says("lapsed", "days over", "One competent demonstration.", "not started")
	if !p.has(startAddress(b.learner.Person, "bagging", "")) && !p.has(startAddress(b.learner.Person, "bagging", b.mira)) {
		t.Error("what has lapsed is not led to be observed")
	}
	p = p.form("/overdue").send("within", "30", "group", "skill").wants(http.StatusOK)
	if pdf := p.follow("PDF").wants(http.StatusOK); pdf.body != "overdue on "+on+" within 30" {
		t.Errorf("the paper holds %q", pdf.body)
	}
	if csv := p.follow("CSV").wants(http.StatusOK); csv.header.Get("Content-Type") != "text/csv; charset=utf-8" {
		t.Errorf("the table is %s", csv.header.Get("Content-Type"))
	}
	educator.get("/overdue?within=0&on=" + on).wants(http.StatusUnprocessableEntity).says("Give a number of days from 1 to 3660.")
	papersKeepWhatWasChosen(t, b, educator)
}

func papersKeepWhatWasChosen(t *testing.T, b *bedside, educator *browser) {
	t.Helper()
	p := educator.get("/papers").wants(http.StatusOK).says("Certificates issued lately", b.learner.Name)
	p = p.form("/overdue.pdf").send("within", "many").wants(http.StatusUnprocessableEntity).says("This paper cannot be drawn.")
	if got := p.form("/overdue.pdf").fields.Get("within"); got != "many" {
		t.Errorf("what was typed is %q", got)
	}
	educator.get("/readiness.pdf?client=&on=2026-02-01").wants(http.StatusUnprocessableEntity).says("Choose the child.")
	for address, want := range map[string]string{
		"/readiness.pdf?on=2026-02-01&client=" + string(b.mira):            "readiness of Mira at 1 Feb 2026 in en",
		"/clients/" + string(b.mira) + "/readiness.pdf?on=2026-02-01":      "readiness of Mira at 1 Feb 2026 in en",
		"/transcript.pdf?person=" + string(b.learner.Person):               "transcript of " + b.learner.Name + " in en",
		"/blank.pdf?revision=" + url.QueryEscape(skillOf(t, b, "suction")): "blank Tracheostomy suctioning",
		"/demonstrations/" + lastRecord(t, b) + "/record.pdf":              "record of " + b.learner.Name,
	} {
		if p := educator.get(address).wants(http.StatusOK); p.body != want || p.header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s holds %q (%s)", address, p.body, p.header.Get("Cache-Control"))
		}
	}
	own := as(t, b.site, b.Ward, b.learner)
	own.get("/transcript.pdf?person=" + string(b.learner.Person)).wants(http.StatusOK)
	own.get("/transcript.pdf?person=" + string(b.Coordinator.Person)).wants(http.StatusNotFound)
	own.get("/transcript.pdf?person=x").wants(http.StatusUnprocessableEntity)
}

func lastRecord(t *testing.T, b *bedside) string {
	t.Helper()
	awaiting := b.Demonstrate(b.learner, "bagging", b.mira, ward.UnsignedByLearner)
	return strings.TrimSpace(string(awaiting.ID))
}
