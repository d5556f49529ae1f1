package web

import (
	"net/http"
	"testing"

	"wellshown/assessment"
)

// Whoever plans reads what will be sent and sets it; without a mail server the page says
// so first, and what cannot be a setting comes back as it was typed.
func TestTheRemindersPage(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	w.Require("bagging", assessment.Nurse)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get("/reminders").wants(http.StatusOK).sound().headed("No reminder is sent: there is no mail server").says("SMTP_URL", "Nobody has set this")
	page.form("/reminders/settings").send("at", "7 o’clock", "days", "21, 3").wants(http.StatusUnprocessableEntity).sound().says("Give the time of day as HH:MM")
	page.form("/reminders/settings").send("at", "06:30", "days", "21, 3").wants(http.StatusOK).sound().says("Reminders are as you say", "21 and 3 days before", "Set by Cory Vance")
	cory.get("/reminders?back=many&state=lost").wants(http.StatusUnprocessableEntity).sound().says("This cannot be shown", "Give the days as a number")
	cory.get("/reminders?state=lost").wants(http.StatusUnprocessableEntity).sound().says("Choose one of the states")
	cory.get("/today").wants(http.StatusOK).says("Reminders by mail")
	as(t, site, w, w.Educators[0]).get("/reminders").wants(http.StatusForbidden)
}
