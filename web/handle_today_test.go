package web

import (
	"net/http"
	"testing"

	"golang.org/x/net/html"

	"wellshown/assessment"
	"wellshown/integration/ward"
)

// sound holds a page that was really answered to what every page must be.
func (p *page) sound() *page {
	p.t.Helper()
	for _, check := range []func(*testing.T, string, *html.Node){
		checkNothingInline, checkHeadings, checkLandmarks, checkIDs, checkLabels, checkFaults, checkTables, checkForms, checkNames, checkHelp,
	} {
		check(p.t, p.at, p.node)
	}
	symbols := idsOf(p.node)
	for _, use := range nodes(p.node, "use") {
		if id := attrOf(use, "href"); id == "" || symbols[id[1:]] != 1 {
			p.t.Errorf("%s: no shape %q", p.at, id)
		}
	}
	return p
}

// headed wants a page that is found, sound, and says this first.
func (p *page) headed(heading string) *page {
	p.t.Helper()
	p.wants(http.StatusOK).sound()
	if got := p.heading(); got != heading {
		p.t.Errorf("%s is headed %q, want %q", p.at, got, heading)
	}
	return p
}

func TestTodayOfACoordinator(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	// Whoever comes back on another day has been signed out.
	today := func() *page { return as(t, site, w, w.Coordinator).get("/") }
	today().headed("Nobody must hold a skill yet").says("Nothing has lapsed, and nothing ends within 30 days", "Every record is signed")

	mira := w.Client("7K", "Mira")
	lan, ada := w.Family("Lan", mira), w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	w.Require("humidifier", "")
	// Two of two were never held: that must not read as if all were well.
	today().headed("Two required skills are not held yet")
	w.Award(ada, "humidifier", mira)
	waits := w.Demonstrate(lan, "humidifier", mira, ward.UnsignedByLearner)
	p := today().headed("One required skill is not held yet").says("One record waits for a signature", "It waits for Lan to sign. Until then it does not count.")
	if !p.has("/demonstrations/" + string(waits.ID)) {
		t.Error("no way to the record that waits")
	}
	held := w.Standing(ada, "humidifier", mira, w.Today())
	w.Day(held.Through.AddDays(-3).String())
	p = today().headed("One skill ends within 7 days").says("Ada Marsh", "Mira, 7K", "Due: 3 days left", "Needs one competent demonstration.")
	w.Day(held.Through.AddDays(1).String())
	p = today().headed("One skill no longer holds").says("Lapsed since "+day(held.Through.AddDays(1)), "One required skill is not held yet.")
	if p.has("/people/" + string(ada.Person) + "#waive") {
		t.Error("a coordinator is offered to waive")
	}
	// The founding appointments have ended: there is nobody left to see it.
	p.says("Nobody may observe it yet").follow("Appoint").wants(http.StatusOK)
}

func TestTodayTellsWhoMayObserve(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	w.Require("humidifier", assessment.Nurse)
	w.Demonstrate(ada, "humidifier", mira)
	page := as(t, site, w, w.Educators[0]).get("/today").headed("One person needs to be seen").says("Ada Marsh", "Learning", "2 competent demonstrations")
	page.follow("Observe").wants(http.StatusOK)
	if err := w.Office.Withdraw(t.Context(), w.Coordinator, withdrawal(ada.Person, "humidifier", mira), assessment.Redemonstrated, false); err != nil {
		t.Fatal(err)
	}
	as(t, site, w, w.Coordinator).get("/today").headed("One skill no longer holds").says("Withdrawn since", w.Educators[0].Name, w.Educators[1].Name)
}

func TestTodayOfAnEducator(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	edda := as(t, site, w, w.Educators[0])
	edda.get("/").headed("Nobody needs to be seen today")
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan", mira)
	w.Require("bagging", assessment.Family)
	edda.get("/today").headed("One person needs to be seen").says("Lan", "mother", "Not started")
	w.Demonstrate(lan, "bagging", mira, ward.UnsignedByObserver)
	edda.get("/today").headed("One record waits for your signature").says("It waits for your signature")
	w.Demonstrate(lan, "bagging", mira, ward.Unrecorded)
	page := edda.get("/today").headed("One sheet is still open").says("steps marked, all kept")
	page.follow("Go on marking").wants(http.StatusOK)
	// The one who sees nobody's demonstrations yet is told why.
	fresh := w.Educator("Nia Frost")
	as(t, site, w, fresh).get("/today").headed("You may not observe today").says("not appointed")
}

func TestWhoDoesSeveralThingsFindsAll(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	both := w.Admin
	give(t, w, both, "administrator", "educator", "surveyor")
	page := as(t, site, w, both).get("/").wants(http.StatusOK).sound().says("You also work as:")
	page.follow("surveyor").headed("Who was competent, on which day?").follow("educator").wants(http.StatusOK)
	as(t, site, w, w.Surveyor("Halina Wren")).get("/today").headed("Who was competent, on which day?").saysNot("You also work as")
}

func TestHomeOfAFamily(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan", mira)
	home := func() *page { return as(t, site, w, lan).get("/") }
	home().headed("Nothing is asked of you yet").says("Lan, for Mira.", "No skill is on your list", "There is no plan yet")
	w.Require("humidifier", "")
	w.Require("bagging", "")
	home().headed("Not yet. 2 skills are left.").says("Mira, 7K", "Not started")
	w.Award(lan, "bagging", mira)
	seen := w.Demonstrate(lan, "humidifier", mira, ward.UnsignedByLearner)
	p := home().headed("Not yet. One skill is left.").says("One skill is done.", "Please read and sign", "Current through", "Shown:")
	if !p.has("/demonstrations/" + string(seen.ID)) {
		t.Error("no way to the record that waits")
	}
	p.follow("Print what I have shown").wants(http.StatusOK).says("transcript of Lan")
	w.Sign(lan, seen.ID, "learner")
	w.Award(lan, "humidifier", mira)
	home().headed("You have shown every skill")
	if err := w.Office.StartPlan(t.Context(), w.Coordinator, mira); err != nil {
		t.Fatal(err)
	}
	p = home().wants(http.StatusOK).says("Mira’s way home", "14 things")
	p.follow("See the whole list for Mira").wants(http.StatusOK).says("Not yet:")
	p.follow("Print Mira’s list for the meeting").wants(http.StatusOK).says("readiness of Mira")
	mother := as(t, site, w, lan)
	for _, path := range []string{"/people", "/survey", "/appointments", "/requirements", "/people/new", "/clients/new"} {
		mother.get(path).wants(http.StatusForbidden).sound()
	}
	if answer := mother.get("/today"); answer.status != http.StatusForbidden {
		t.Errorf("/today answers a mother %d", answer.status)
	}
}

func TestSurvey(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	w.Join(ada, mira)
	w.Award(ada, "humidifier", mira)
	halina := as(t, site, w, w.Surveyor("Halina Wren"))
	page := halina.get("/survey").headed("Who was competent, on which day?")
	page.form("/survey").send("find", "mar", "on", "2026-01-05").headed("One person fits").follow("Ada Marsh").wants(http.StatusOK).says("As of Monday 5 January 2026")
	page.form("/survey").send("find", "zz").headed("Nobody fits")
	page.form("/survey").send("find", "mar", "on", "5/1/26").wants(http.StatusUnprocessableEntity).sound().says("Nothing was looked up")
	w.Day("2026-03-01")
	halina = as(t, site, w, w.Surveyor("Tove Ask"))
	now := halina.get("/people/" + string(ada.Person)).headed("Ada Marsh is current in 1 skill")
	for _, address := range []string{"/withdrawals", "/waivers", "/papers", "/log", "/leaving", "/link", "/vouching"} {
		if now.has("/people/" + string(ada.Person) + address) {
			t.Errorf("a surveyor is offered %s", address)
		}
	}
}
