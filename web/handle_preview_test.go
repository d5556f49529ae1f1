package web

import (
	"net/http"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
	"wellshown/integration/ward"
)

// A form that is asked what it would change says so, loses nothing that was typed, changes
// nothing, and does it when it is then sent (common practice, no source).
func TestSeeingWhatAFormWouldChange(t *testing.T) {
	t.Parallel()
	w := newWard(t)
	mira := w.Client("7K", "Mira")
	nan := w.Nurse("Nan Orme")
	w.Join(nan, mira)
	w.Award(nan, "humidifier", mira)
	w.Require("humidifier", assessment.Nurse)
	_, err := w.Office.AddPattern(t.Context(), w.Coordinator, office.PatternForm{Client: mira, Person: nan.Person, Weekdays: []int{1, 4}, From: "22:00", Until: "06:00", FromOn: w.Today().AddDays(1).String()})
	if err != nil {
		t.Fatal(err)
	}
	required := func() []office.RequirementView {
		all, err := w.Office.Requirements(t.Context(), w.Coordinator)
		if err != nil || len(all) != 1 {
			t.Fatalf("required: %+v, %v", all, err)
		}
		return all
	}
	site := engine(w)
	cory := as(t, site, w, w.Coordinator)

	at := "/people/" + string(nan.Person)
	p := cory.get(at).form(at+"/withdrawals").send("look", "yes", "until", "reinstated", "skill", "humidifier "+string(mira)).wants(http.StatusOK).sound().
		says("One person changes standing, and 16 shifts break that do not break now", "current → becomes withdrawn", day(w.Today())+" to ", "See the shift")
	f := p.form(at + "/withdrawals")
	if f.fields.Get("until") != "reinstated" || f.fields.Get("skill") != "humidifier "+string(mira) {
		t.Errorf("after a look the form holds %v", f.fields)
	}
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); s.Word != assessment.Current {
		t.Fatalf("a look made it %s", s.Word)
	}
	f.send("look", "yes", "until", "").wants(http.StatusUnprocessableEntity).says("Choose what lifts it")

	equip := "/clients/" + string(mira) + "/equipment"
	p = cory.get(equip+"/new").form(equip).send("look", "yes", "kind", "humidifier", "type", "heated wire").wants(http.StatusOK).sound().says("One person changes standing", "Nothing has been changed.")
	if got := p.form(equip).fields; got.Get("kind") != "humidifier" || got.Get("type") != "heated wire" {
		t.Errorf("after a look the form holds %v", got)
	}
	p.form(equip).send().wants(http.StatusOK).says("The equipment is noted.")
	if s := w.Standing(nan, "humidifier", mira, civil.Date{}); s.Word.Holds() {
		t.Errorf("with another humidifier it is %s", s.Word)
	}

	cory.get("/requirements").form("/requirements", "from", w.Today().String()).send("look", "yes", "skill", "bagging", "kind", "nurse").wants(http.StatusOK).sound().says("Nobody changes standing, and no shift breaks that does not break now", "break already, and would for other reasons")
	end := "/requirements/" + string(required()[0].ID) + "/end"
	cory.get("/requirements").form(end).send("look", "yes").wants(http.StatusOK).sound().says("break already, and would for other reasons")
	if all := required(); !all[0].Through.IsZero() {
		t.Errorf("after two looks there are %+v", all)
	}
	cory.get(at).form(at+"/leaving").send("look", "yes", "on", w.Today().String()).wants(http.StatusOK).sound().says("would for other reasons", "no longer with the agency")
	f.send("look", "", "until", "reinstated", "skill", "humidifier "+string(mira), "reason", "Seen.", "password", ward.Password).wants(http.StatusOK).says("It is withdrawn from today.")
}
