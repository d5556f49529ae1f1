package web

import (
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"wellshown/assessment"
)

// actions are the addresses that forms of a page with a field are sent to.
func (p *page) actions(suffix string) []string {
	var found []string
	for _, n := range nodes(p.node, "form") {
		if a := attrOf(n, "action"); strings.HasSuffix(a, suffix) && !slices.Contains(found, a) {
			found = append(found, a)
		}
	}
	return found
}

// lineOf is the id of the plan's line with these words.
func (p *page) lineOf(title string) string {
	p.t.Helper()
	for _, n := range nodes(p.node, "input") {
		form := readForm(p, groupAround(n, "form"))
		if attrOf(n, "name") == "title" && attrOf(n, "value") == title {
			return form.action[strings.LastIndex(form.action, "/")+1:]
		}
	}
	p.t.Fatalf("no line %q on the plan: %s", title, p.text())
	return ""
}

func TestReadiness(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	lan := w.Family("Lan", mira)
	w.Require("humidifier", assessment.Family)
	at := "/clients/" + string(mira) + "/readiness"
	edda, mother := as(t, site, w, w.Educators[0]), as(t, site, w, lan)
	if mother.get(at).headed("No plan for Mira yet").has(at) {
		t.Error("a mother is offered to start the plan")
	}
	page := edda.get(at).headed("No plan for Mira yet").form(at).send().headed("Not yet: 14 of 14 things are left").says("The standard plan is there.")
	edda.posts(at).wants(http.StatusUnprocessableEntity).sound().says("No plan was started.", "This child has a plan already.")
	seen := mother.get(at).headed("Not yet: 14 of 14 things are left").says("Lan · ", "Nobody has confirmed this yet.")
	if len(seen.actions("evidence"))+len(seen.actions("waivers"))+len(seen.actions("shifts"))+len(seen.actions("removal")) > 0 {
		t.Error("a mother is offered to say what is so")
	}

	home := page.lineOf("The home is safe and its power is enough")
	say := page.form(at+"/evidence", "criterion", home)
	page = say.send("word", "met", "at", "2030-01-01T10:00", "note", "Seen by the company.").wants(http.StatusUnprocessableEntity).sound().says("Nothing was kept.", "This lies in the future.")
	if kept := page.form(at+"/evidence", "criterion", home).fields; kept.Get("word") != "met" || kept.Get("at") != "2030-01-01T10:00" || kept.Get("note") != "Seen by the company." {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/evidence", "criterion", home).send("at", "").headed("Not yet: 13 of 14 things are left").says("met on 5 January 2026 by Edda Lorne: Seen by the company.")

	things := page.lineOf("The equipment is at home and checked")
	page = page.form(at+"/evidence", "criterion", things).send("word", "delivered", "item", "ventilator").headed("Not yet: 13 of 14 things are left").says("ventilator: delivered, not checked yet")
	page.form(at+"/evidence", "criterion", things).send("word", "delivered", "item", "").wants(http.StatusUnprocessableEntity).sound()

	stay := page.lineOf("The family has done all care by itself, without a break")
	page = page.form(at+"/criteria/"+stay).send("hours", "two days").wants(http.StatusUnprocessableEntity).sound().says("The line was not changed.", "Give a whole number")
	if kept := page.form(at + "/criteria/" + stay).fields; kept.Get("hours") != "two days" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/criteria/"+stay).send("hours", "48").wants(http.StatusOK).sound().says("The line is changed.", "0 h of 48 hours without a break so far.")
	page.form(at + "/criteria/" + stay + "/removal").send().headed("Not yet: 12 of 13 things are left").says("The line is off the plan.")
}

func TestWaivingALine(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	at := "/clients/" + string(mira) + "/readiness"
	if err := w.Office.StartPlan(t.Context(), w.Coordinator, mira); err != nil {
		t.Fatal(err)
	}
	edda := as(t, site, w, w.Educators[0])
	page := edda.get(at).headed("Not yet: 14 of 14 things are left")
	if len(as(t, site, w, w.Coordinator).get(at).actions("waivers")) > 0 {
		t.Error("a coordinator is offered to waive")
	}
	things := page.lineOf("The equipment is at home and checked")
	page = page.form(at+"/waivers", "criterion", things).send("item", "nebuliser", "reason", " ").wants(http.StatusUnprocessableEntity).sound().says("Nothing was waived.", "Say why.")
	page = page.form(at+"/waivers", "criterion", things).send("item", "nebuliser", "reason", "Not ordered.").headed("Not yet: 14 of 14 things are left").says("nebuliser: waived on 5 January 2026 by Edda Lorne: Not ordered.")
	w.Pass(time.Minute)
	page.form(at+"/waivers/end", "criterion", things).send("reason", "Ordered after all.").headed("Not yet: 14 of 14 things are left").says("The waiver has ended.", "nebuliser: waiver ended")
	safe := page.lineOf("The way home and later trips are safe")
	page = edda.get(at).form(at+"/waivers", "criterion", safe).send("reason", "They live next door.").headed("Not yet: 13 of 14 things are left").says("Waived, wholly or in part", "They live next door.")
	w.Pass(time.Minute)
	page.form(at+"/waivers/end", "criterion", safe).send("reason", "They have moved.").headed("Not yet: 14 of 14 things are left")
	edda.posts(at+"/waivers/end", "criterion", safe, "reason", "Again.").wants(http.StatusUnprocessableEntity).sound().says("This is not waived.")
}

func TestPlanningLinesAndShifts(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	site := engine(w)
	mira := w.Client("7K", "Mira")
	ada := w.Nurse("Ada Marsh")
	at := "/clients/" + string(mira) + "/readiness"
	w.Require("humidifier", "")
	if err := w.Office.StartPlan(t.Context(), w.Coordinator, mira); err != nil {
		t.Fatal(err)
	}
	cory := as(t, site, w, w.Coordinator)
	form := cory.get(at).form(at + "/criteria")
	form.fields["skills"] = []string{"bagging"}
	page := form.send("kind", "", "title", "Grandmother can bag", "count", "1").wants(http.StatusUnprocessableEntity).sound().says("No line was added.", "Choose how this is judged.")
	again := page.form(at + "/criteria")
	if kept := again.fields; kept.Get("title") != "Grandmother can bag" || kept.Get("count") != "1" || !slices.Equal(kept["skills"], []string{"bagging"}) {
		t.Errorf("after a fault the form holds %v", kept)
	}
	again.send("kind", "family current").headed("Not yet: 15 of 15 things are left").says("The line is on the plan.", "Grandmother can bag")
	again.send("kind", "family current").headed("Not yet: 15 of 15 things are left")

	page = cory.get(at).says("No shift is planned.").form(at+"/shifts").send("person", string(ada.Person), "starts", "2026-02-02T19:00", "ends", "2026-02-02T07:00").
		wants(http.StatusUnprocessableEntity).sound().says("No shift was planned.", "The shift ends before it starts.")
	if kept := page.form(at + "/shifts").fields; kept.Get("person") != string(ada.Person) || kept.Get("starts") != "2026-02-02T19:00" {
		t.Errorf("after a fault the form holds %v", kept)
	}
	page = page.form(at+"/shifts").send("ends", "2026-02-03T07:00").wants(http.StatusOK).sound().says("Mon 2 Feb 2026, 19:00 to 07:00 MST", "Not current in Heated humidifier")
	shift := page.actions("/removal")
	page.form(shift[len(shift)-1]).send().wants(http.StatusOK).says("The shift is off the plan.", "No shift is planned.")

	if p := cory.get(at + "?on=2026-01-03").wants(http.StatusOK).sound().says("As of Saturday 3 January 2026"); len(p.actions("/criteria")) > 0 {
		t.Error("the plan of a day that is past can be changed")
	}

	cory.get(at + "?on=x").wants(http.StatusUnprocessableEntity).sound()
}
