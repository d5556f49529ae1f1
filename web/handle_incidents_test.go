package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// An incident recorded on its page: all that is missing is told at once and nothing typed is lost;
// whoever may not see shifts is told nothing of them, not even that none breaks; and the nurse
// whom it concerns reads what not to do (common practice, no source).
func TestAnIncidentIsRecordedOnItsPage(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira, nan := w.Client("7K", "Mira"), w.Nurse("Nan Orme")
	w.Award(nan, "bagging", mira)
	w.Join(nan, mira)
	w.Require("bagging", assessment.Nurse)
	form := office.PatternForm{Client: mira, Person: nan.Person, Weekdays: []int{1, 2, 3, 4, 5, 6, 7}, From: "07:00", Until: "20:00", FromOn: w.Today().String(), ThroughOn: w.Today().AddDays(13).String()}
	if _, err := w.Office.AddPattern(t.Context(), w.Coordinator, form); err != nil {
		t.Fatal(err)
	}
	edda := as(t, site, w, w.Educators[0])
	page := edda.get("/incidents/new").form("/incidents").send("seen", "The bag was squeezed too fast.").wants(http.StatusUnprocessableEntity).sound().
		says("The incident was not recorded, and nothing was withdrawn.", "Choose whose hands it was in.", "Choose the skill.", "Give the day and the time, such as 2027-01-15 19:30.")
	sheet := page.form("/incidents")
	if sheet.fields.Get("seen") != "The bag was squeezed too fast." {
		t.Errorf("what was typed is lost: %v", sheet.fields)
	}
	happened := w.Now().In(w.Zone).Add(-2 * 3600e9).Format("2006-01-02 15:04")
	page = sheet.send("person", string(nan.Person), "skill", "bagging", "client", string(mira), "happened", happened, "password", ward.Password).wants(http.StatusOK).sound().
		says("1 skill is withdrawn", "Shifts that break by it").saysNot("Propose who takes", "Do not do these alone")
	address, _, _ := strings.Cut(page.at, "?")
	cory := as(t, site, w, w.Coordinator).get(address).wants(http.StatusOK).says("more shifts break", "Propose who takes these")
	desk, err := w.Office.IncidentDesk(t.Context(), w.Coordinator, assessment.RecordID(strings.TrimPrefix(address, "/incidents/")))
	if n := strings.Count(cory.body, `href="/coverage/shifts/`); err != nil || n != len(desk.Breaks) || n <= mostBreaks {
		t.Errorf("%d of %d shifts stand there: %v", n, len(desk.Breaks), err)
	}
	own := as(t, site, w, nan)
	own.get(address).wants(http.StatusOK).sound().says("1 skill is withdrawn", "Do not do these alone").saysNot("shift breaks", "shifts break")
	own.get("/home").wants(http.StatusOK).sound().says("Do not do alone what is withdrawn").follow("Why it was withdrawn").wants(http.StatusOK).says("The bag was squeezed too fast.")
	ola := as(t, site, w, w.Nurse("Ola Reed"))
	ola.get("/incidents").headed("No incident about you is open")
}
