package web

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// From a shift that breaks to one that is covered, by pages alone (common practice, no
// source): a pattern of somebody who is not current, found on the page of coverage, given to
// somebody who is.
func TestAShiftIsCoveredOnPages(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	nan, ola := w.Nurse("Nan Orme"), w.Nurse("Ola Reed")
	w.Require("bagging", assessment.Nurse)
	w.Award(nan, "bagging", mira)
	at := as(t, engine(w), w, w.Coordinator)
	roster := "/clients/" + string(mira) + "/roster"
	form := at.get("/clients/" + string(mira)).follow("Shifts").wants(http.StatusOK).says("There is no weekly pattern").form(roster + "/patterns")
	form.fields["weekdays"] = []string{"1", "2", "3", "4", "5", "6", "7"}
	refused := form.send("from", "7", "until", "19:00", "person", string(ola.Person)).wants(http.StatusUnprocessableEntity).says("The pattern was not added", "write it as HH:MM")
	again := refused.form(roster + "/patterns")
	if again.fields.Get("from") != "7" || len(again.fields["weekdays"]) != 7 || again.fields.Get("person") != string(ola.Person) {
		t.Errorf("what was typed is lost: %v", again.fields)
	}
	again.send("from", "07:00", "through_on", w.Today().AddDays(2).String()).wants(http.StatusOK).says("The pattern is on the roster", "every day", "Ola Reed")
	page := at.get("/coverage").wants(http.StatusOK).says("break", "Ola Reed", "is not current in Manual ventilation")
	at.get("/today").says("Shifts that break", "Find somebody else")
	at.get("/coverage?from=2026-02-31").wants(http.StatusUnprocessableEntity).says("This cannot be shown")
	at.get("/coverage?state=odd").wants(http.StatusUnprocessableEntity).says("Choose one of the states")
	broken, err := w.Office.Coverage(t.Context(), w.Coordinator, office.CoverageQuery{})
	if err != nil || len(broken.Lines) != 3 || !page.has("/coverage/shifts/"+string(broken.Lines[0].ID)) {
		t.Fatalf("the page leads to the shift that breaks: %+v, %v", broken.Counts, err)
	}
	shift := at.get("/coverage/shifts/"+string(broken.Lines[0].ID)).wants(http.StatusOK).says("One person could take it", "Nan Orme")
	address, _, _ := strings.Cut(shift.at, "?")
	given := shift.form(address+"/giving", "person", string(nan.Person)).send().wants(http.StatusOK).says("The shift is given", "Nan Orme covers it")
	shift.form(address+"/giving", "person", string(nan.Person)).send().wants(http.StatusUnprocessableEntity).says("Somebody has changed this shift since you read it")
	given.follow("All shifts that need somebody").wants(http.StatusOK)
	v, err := w.Office.Coverage(t.Context(), w.Coordinator, office.CoverageQuery{})
	if err != nil || v.Counts.Covered != 1 || v.Counts.Shifts != 3 {
		t.Errorf("afterwards: %+v, %v", v.Counts, err)
	}
	for _, ending := range []string{"pdf", "csv", "xlsx"} {
		at.get("/coverage." + ending).wants(http.StatusOK)
	}
	educator := as(t, engine(w), w, w.Educators[0])
	educator.get(address).wants(http.StatusOK).saysNot("Give it to")
	educator.get(roster).wants(http.StatusOK).saysNot("Add a weekly pattern")
}

// A page of many shifts shows whole days of them, and leads to the next ones; none is shown
// twice or left out (common practice, no source).
func TestManyShiftsArePaged(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	for i := range 14 {
		child := w.Client(fmt.Sprintf("%dK", i+1), "Mira")
		if _, err := w.Office.AddPattern(t.Context(), w.Coordinator, office.PatternForm{Client: child, Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "07:00", Until: "15:00", FromOn: w.Today().String()}); err != nil {
			t.Fatal(err)
		}
	}
	at := as(t, engine(w), w, w.Coordinator)
	page := at.get("/coverage").wants(http.StatusOK).says("See the 70 shifts from")
	first := strings.Count(page.body, "Find somebody")
	page.follow("Propose who takes the first 50").wants(http.StatusOK).headed("None of these can be filled")
	second := page.follow("See the 70 shifts from Wednesday 14 January on").wants(http.StatusOK).saysNot("See the")
	if n := strings.Count(second.body, "Find somebody"); first != 126 || n != 70 {
		t.Errorf("%d shifts on the first page, %d on the second", first, n)
	}
	// What is over is shared out no more, though it is looked at.
	from := w.Today()
	w.Pass(24 * time.Hour)
	page = as(t, engine(w), w, w.Coordinator).get("/coverage?from=" + from.String() + "&through=" + from.AddDays(2).String()).wants(http.StatusOK)
	if ticks := strings.Count(page.body, `name="shift"`); ticks != 28 || strings.Count(page.body, "Find somebody") != 42 {
		t.Errorf("%d shifts can be ticked: %s", ticks, page.text())
	}
	page.follow("Propose who takes these 28").wants(http.StatusOK).headed("None of these can be filled")
}
