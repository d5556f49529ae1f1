package web

import (
	"net/http"
	"strings"
	"testing"

	"wellshown/integration/ward"
)

func TestAPersonOnADay(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	at := "/people/" + string(ada.Person)
	cory := func() *browser { return as(t, site, w, w.Coordinator) }
	cory().get(at).headed("Ada Marsh").says("No skill is required of this person", "Nothing has happened yet.", "No licence and no card on file.")
	w.Require("humidifier", "")
	cory().get(at).headed("Ada Marsh: 1 required skill is not held yet").says("Not started", "3 competent demonstrations")
	first := w.Today()
	w.Award(ada, "humidifier", mira)
	page := cory().get(at).headed("Ada Marsh is current in 1 skill").says("Current through", "Mira, 7K", "Return demonstration of", ": competent", "seen by "+w.Educators[0].Name)
	page.follow("Certificate").wants(http.StatusOK)
	page.follow("Transcript (PDF)").wants(http.StatusOK).says("transcript of Ada Marsh")
	then := page.form(at).send("on", first.AddDays(-1).String()).headed("Ada Marsh holds no skill yet").says("As of", "Nothing has happened yet.")
	if then.has(at + "/withdrawals") {
		t.Error("something can be withdrawn on a day that is past")
	}
	then.follow("Back to today").headed("Ada Marsh is current in 1 skill")
	cory().get(at + "?on=2026-02-30").wants(http.StatusUnprocessableEntity).sound()
	// Only who may observe them is led to it.
	if page.has(startAddress(ada.Person, "humidifier", mira)) || !as(t, site, w, w.Educators[0]).get(at).has(startAddress(ada.Person, "humidifier", mira)) {
		t.Error("a demonstration is offered to whom it should not be, or to nobody")
	}
	self := as(t, site, w, ada).get(at).headed("Ada Marsh is current in 1 skill")
	if self.has(at+"/withdrawals") || self.has(at+"/log") || self.has(at+"/edit") {
		t.Error("a caregiver may change their own record")
	}
}

func TestWithdrawWaiveReinstate(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	w.Require("humidifier", "")
	w.Award(ada, "humidifier", mira)
	at := "/people/" + string(ada.Person)
	cory, edda := as(t, site, w, w.Coordinator), as(t, site, w, w.Educators[0])
	page := cory.get(at)
	if page.has(at+"/waivers") || page.has(at+"/reinstatements") {
		t.Error("a coordinator is offered what is an educator's")
	}
	form := page.form(at + "/withdrawals")
	id := form.fields.Get("id")
	form.send("until", "reinstated", "reason", "The hose lay open.", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Choose the skill.")
	page = form.send("skill", "humidifier "+string(mira), "until", "reinstated", "related", "yes", "reason", "The hose lay open.", "password", "not this one").wants(http.StatusUnprocessableEntity).sound().
		says("Nothing was withdrawn.See what to mend.", "This password does not match.", "is current in 1 skill")
	kept := page.form(at + "/withdrawals").fields
	if kept.Get("reason") != "The hose lay open." || kept.Get("until") != "reinstated" || kept.Get("related") != "yes" || kept.Get("id") != id || kept.Get("password") != "" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	sent := page.form(at + "/withdrawals")
	page = sent.send("password", ward.Password).headed("Ada Marsh: 1 skill no longer holds").says("It is withdrawn from today.", "withdrawn until reinstated", "signed by Cory Vance on "+instant(w.Now(), w.Zone)+": The hose lay open.")
	sent.send("password", ward.Password)
	if n := strings.Count(cory.get(at).text(), ": withdrawn until reinstated"); n != 1 {
		t.Errorf("a second click made it %d withdrawals", n)
	}
	if cory.get(at).has(at + "/reinstatements") {
		t.Error("a coordinator is offered to reinstate")
	}
	lift := edda.get(at)
	lift.form(at+"/reinstatements").send("reason", "Went over it.", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Choose the withdrawal that is to be lifted.")
	withdrawn := ""
	for _, o := range nodes(lift.node, "option") {
		if !strings.Contains(attrOf(o, "value"), " ") && strings.Contains(textOf(o), day(w.Today())) {
			withdrawn = attrOf(o, "value")
		}
	}
	page = lift.form(at+"/reinstatements").send("withdrawal", withdrawn, "reason", "", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Nothing was reinstated.", "Say why.")
	page = page.form(at+"/reinstatements").send("reason", "Went over it together.", "password", ward.Password).headed("Ada Marsh is current in 1 skill").says(": reinstated", "Went over it together.")
	if page.has(at + "/reinstatements") {
		t.Error("a withdrawal that was lifted can be lifted again")
	}
	page = page.form(at+"/waivers").send("skill", "humidifier "+string(mira), "from", "2026-03-09", "through", "2026-03-01", "reason", "On leave.", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().
		says("Nothing was waived.", "The last day is before the first.")
	if kept := page.form(at + "/waivers").fields; kept.Get("from") != "2026-03-09" || kept.Get("reason") != "On leave." {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page.form(at+"/waivers").send("from", w.Today().String(), "through", w.Today().AddDays(9).String(), "password", ward.Password).
		headed("Ada Marsh is current in 1 skill").says("It is waived for those days.", ": waived from")
	mistake := edda.get(at)
	mistake.form(at+"/taking-back").send("reason", "Another Ada.", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Nothing was taken back.", "Choose what is taken back.")
	waived := ""
	for _, o := range nodes(mistake.node, "option") {
		if strings.HasPrefix(attrOf(o, "value"), "waiver ") {
			waived = attrOf(o, "value")
		}
	}
	page = mistake.form(at+"/taking-back").send("what", waived, "reason", ".", "password", ward.Password).wants(http.StatusUnprocessableEntity).sound().says("Nothing was taken back.", "Say what is wrong with it.")
	page.form(at+"/taking-back").send("what", waived, "reason", "Another Ada.", "password", ward.Password).wants(http.StatusOK).says("It is taken back.", "Another Ada.")
	if as(t, site, w, w.Coordinator).get(at).has(at + "/taking-back") {
		t.Error("a coordinator is offered to take back what an educator signed")
	}
}

func TestPapersAndLog(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	at := "/people/" + string(ada.Person)
	cory := as(t, site, w, w.Coordinator)
	page := cory.get(at)
	page = page.form(at+"/papers", "paper", "licence").send("kind", "RN", "number", "", "through", "31/12/2026").wants(http.StatusUnprocessableEntity).sound().says("The licence was not added.", "Give the licence number.")
	if kept := page.form(at+"/papers", "paper", "licence").fields; kept.Get("kind") != "RN" || kept.Get("through") != "31/12/2026" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/papers", "paper", "licence").send("number", "RN-20", "through", "2026-02-28").headed("Ada Marsh").says("The licence is on file.", "RN licence", "RN-20", "through 28 Feb 2026")
	page = page.form(at+"/papers", "paper", "card").send("issuer", "Lifeline Courses").wants(http.StatusUnprocessableEntity).sound().says("The card was not added.")
	page = page.form(at+"/papers", "paper", "card").send("printed_end", "06/2027").headed("Ada Marsh").says("The card is on file.", "by Lifeline Courses", "through 30 Jun 2027")
	cory.get(at + "?on=2026-03-01").wants(http.StatusOK).says("does not hold")
	kept := ""
	for _, o := range nodes(page.node, "option") {
		if strings.HasPrefix(attrOf(o, "value"), "card ") {
			kept = attrOf(o, "value")
		}
	}
	page = page.form(at+"/papers/taking-back").send("what", kept, "reason", "Another Ada's card.", "password", ward.Password).wants(http.StatusOK).says("It is taken back.")
	if strings.Contains(page.text(), "by Lifeline Courses") {
		t.Error("the card is still on file")
	}
	log := page.form(at + "/log")
	if log.fields.Get("on") != w.Today().String() {
		t.Errorf("the day offered is %q", log.fields.Get("on"))
	}
	page = log.send("skill", "humidifier "+string(mira), "kind", "practice", "on", "2027-01-01", "note", "At home.").wants(http.StatusUnprocessableEntity).sound().
		says("Nothing was written down.", "This day has not come yet.")
	if kept := page.form(at + "/log").fields; kept.Get("skill") != "humidifier "+string(mira) || kept.Get("kind") != "practice" || kept.Get("note") != "At home." {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page.form(at+"/log").send("on", w.Today().String()).says("It is written down.", "for Mira, 7K: practised at work", "At home.").wants(http.StatusOK).sound()
}

func TestLeaving(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	ada := w.Nurse("Ada Marsh")
	at := "/people/" + string(ada.Person)
	cory, own := as(t, site, w, w.Coordinator), as(t, site, w, ada)
	cory.get(at).form(at+"/leaving").send("on", "soon").wants(http.StatusUnprocessableEntity).sound().says("Nothing was changed.")
	cory.get(at).form(at+"/leaving").send("on", w.Today().AddDays(3).String()).wants(http.StatusOK).sound().says("leaves on " + day(w.Today().AddDays(3)))
	cory.get(at).form(at+"/leaving").send("on", w.Today().String()).wants(http.StatusOK).says("no longer active")
	if p := own.get("/home"); !strings.HasPrefix(p.at, "/sign-in") {
		t.Errorf("who left still gets to %s", p.at)
	}
	if err := as(t, site, w, w.Admin).get("/people/"+string(w.Admin.Person)).form("/people/"+string(w.Admin.Person)+"/leaving").send("on", w.Today().String()); err.status != http.StatusUnprocessableEntity {
		t.Errorf("the last administrator leaves: %d", err.status)
	}
}
