package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
)

// A skills day is planned on a page, and a sheet begins at a station after the name
// check, of exactly who was checked (common practice, no source).
func TestASkillsDayOnPages(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	other := b.Nurse("Sam Whitlock")
	b.Join(b.learner, b.mira)
	b.Require("bagging", assessment.Nurse)
	b.at.get("/today").follow("Skills days").wants(http.StatusOK).says("No skills day is planned")
	form := b.at.get("/skills-days").follow("Plan a skills day").form("/skills-days")
	form.fields["learners"] = []string{string(b.learner.Person), string(other.Person)}
	refused := form.send("name", "Winter skills day", "place", "skills room", "skill-1", "suction", "observer-1", string(b.Educators[0].Person)).wants(http.StatusUnprocessableEntity).says("Station 1: Tracheostomy suctioning is held for one child")
	again := refused.form("/skills-days")
	if again.fields.Get("name") != "Winter skills day" || again.fields.Get("skill-1") != "suction" || len(again.fields["learners"]) != 2 {
		t.Errorf("what was typed is lost: %v", again.fields)
	}
	day := again.send("skill-1", "bagging", "client-1", string(b.mira)).wants(http.StatusOK).says("Winter skills day", "The skills day is planned", "Nguyễn Thị Lan", "Next: station 1", "Sam Whitlock", "Has nothing to show here")
	at, _, _ := strings.Cut(day.at, "?")
	station := b.at.get(at+"/stations/1").wants(http.StatusOK).says("Still to come", "Required, never shown").
		form(at+"/stations/1/taking", "learner", string(b.learner.Person)).send().wants(http.StatusOK).says("They are at this station now", "Station 1: 1 learner is here")
	check := station.follow("Begin with Nguyễn Thị Lan").wants(http.StatusOK).says("Mira, 7K", "Manual ventilation", "nurse", b.Educators[0].Name)
	if h := check.heading(); h != "Is this Nguyễn Thị Lan?" {
		t.Errorf("the name check asks %q", h)
	}
	begins := at + "/stations/1/learners/" + string(b.learner.Person)
	unsaid := check.form(begins).send().wants(http.StatusUnprocessableEntity).says("Say on whom or what it is shown", "Say whether it counts")
	sheet := unsaid.form(begins).send("setting", "simulation", "purpose", "formal").wants(http.StatusOK)
	if !strings.HasSuffix(sheet.at, "/marks") {
		t.Fatalf("beginning leads to %s: %s", sheet.at, sheet.text())
	}
	id := assessment.DemonstrationID(strings.TrimSuffix(strings.TrimPrefix(sheet.at, "/demonstrations/"), "/marks"))
	if kept, err := b.Office.Sheet(t.Context(), b.Educators[0], id); err != nil || kept.LearnerID != b.learner.Person || kept.ClientID != b.mira || kept.Place != "skills room" || kept.RealClient || !kept.Formal {
		t.Errorf("begun: %+v, %v", kept.Sheet, err)
	}
	b.at.get(at+"/stations/1").says("Go on marking").form(at+"/stations/1/passing").send("to", "0").wants(http.StatusOK).says("They are passed on")
	b.at.get(at+"/learners/"+string(b.learner.Person)).wants(http.StatusOK).says("Being marked by "+b.Educators[0].Name, "1 thing is due")
	if paper := b.at.get(at + "/cards.pdf").wants(http.StatusOK); paper.body != "2 cards of Winter skills day" {
		t.Errorf("the cards are %q", paper.body)
	}
	over := b.at.get(at).form(at + "/end").send().wants(http.StatusOK).says("Winter skills day: ended")
	if over.has(at+"/end") || over.has(at+"/edit") {
		t.Error("what is ended can be changed")
	}
	b.at.get(at + "/stations/1").says("has been ended").saysNot("Begin with")
}

// Two pages of two learners side by side: neither sends the other's, and what has changed
// since it was read begins nothing.
func TestTheNameCheckOfAnother(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	other := b.Nurse("Sam Whitlock")
	form := b.at.get("/skills-days/new").form("/skills-days")
	form.fields["learners"] = []string{string(b.learner.Person), string(other.Person)}
	at := form.send("name", "Winter", "place", "hall", "skill-1", "bagging", "observer-1", string(b.Educators[0].Person), "client-1", string(b.mira)).wants(http.StatusOK).at
	of := func(who assessment.Actor) string { return at + "/stations/1/learners/" + string(who.Person) }
	lan, sam := b.at.get(of(b.learner)).form(of(b.learner)), b.at.get(of(other)).form(of(other))
	lan.action = of(other) // the address of one with the form of the other
	page := lan.send("setting", "simulation", "purpose", "practice").wants(http.StatusUnprocessableEntity).says("Nothing has begun", "What you checked is not what stands here now")
	if h := page.heading(); h != "Is this Sam Whitlock?" {
		t.Errorf("it then asks %q", h)
	}
	change := b.at.get(at + "/edit").form(at)
	change.send("skill-1", "go-bag").wants(http.StatusOK).says("The skills day is changed")
	sam.send("setting", "simulation", "purpose", "practice").wants(http.StatusUnprocessableEntity).says("What you checked is not what stands here now", "Go-bag")
	change.send("skill-1", "suction").wants(http.StatusUnprocessableEntity).says("Somebody has changed this skills day").follow("See it as it is now").wants(http.StatusOK).says("Go-bag")
	if open, err := b.Office.Sheets(t.Context(), b.Educators[0]); err != nil || len(open) != 0 {
		t.Errorf("begun: %+v, %v", open, err)
	}
}

// Who is at another station, or at none of this day, is taken by nobody; a station that
// is none is no page.
func TestStationsThatRefuse(t *testing.T) {
	t.Parallel()
	b := newBedside(t)
	form := b.at.get("/skills-days/new").form("/skills-days")
	form.fields["learners"] = []string{string(b.learner.Person)}
	at := form.send("name", "Winter", "place", "hall", "skill-1", "bagging", "observer-1", string(b.Educators[0].Person), "client-1", string(b.mira),
		"skill-2", "go-bag", "observer-2", string(b.Educators[1].Person), "client-2", string(b.mira)).wants(http.StatusOK).at
	second := as(t, b.site, b.Ward, b.Educators[1])
	send := func(who *browser, path string, fields ...string) *page {
		values := url.Values{"csrf": {who.csrf()}, "learner": {string(b.learner.Person)}}
		for i := 0; i < len(fields); i += 2 {
			values.Set(fields[i], fields[i+1])
		}
		return who.post(at+path, values)
	}
	send(b.at, "/stations/1/taking").wants(http.StatusOK)
	send(second, "/stations/2/taking").wants(http.StatusUnprocessableEntity).says("Nobody was taken", "at station 1 now")
	send(second, "/stations/1/taking").wants(http.StatusUnprocessableEntity).says("Only its observer")
	send(b.at, "/stations/1/passing", "to", "somewhere").wants(http.StatusUnprocessableEntity).says("Choose where they go")
	send(b.at, "/stations/1/passing", "to", "9").wants(http.StatusNotFound)
	send(b.at, "/stations/1/taking", "learner", string(b.Coordinator.Person)).wants(http.StatusNotFound)
	for _, none := range []string{"/stations/9", "/stations/x", "/learners/" + string(b.Coordinator.Person), "/stations/1/learners/" + string(b.Coordinator.Person)} {
		b.at.get(at + none).wants(http.StatusNotFound)
	}
	second.get(at + "/stations/1/learners/" + string(b.learner.Person)).wants(http.StatusOK).says("Only its observer takes learners there").saysNot(": begin")
	b.Pass(24 * time.Hour)
	coordinator := as(t, b.site, b.Ward, b.Coordinator)
	if over := coordinator.get(at + "/stations/1").wants(http.StatusOK).says("This skills day is over").saysNot("Take the next one"); over.has(at+"/stations/1/taking") || over.has(at+"/stations/1/passing") {
		t.Error("somebody can be moved on a day that is over")
	}
	coordinator.get("/skills-days").says("Over", "Winter")
	as(t, b.site, b.Ward, b.learner).get("/skills-days").wants(http.StatusForbidden)
}
