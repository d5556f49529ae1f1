package office_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// An agency's own version is offered in place of the starter; what was used before stays as
// it was read out. Two who write at once do not undo each other. What is drawn can be drawn
// again by its seed.
func TestScenariosOfAnAgency(t *testing.T) {
	t.Parallel()
	w, mira, nan := drillWard(t)
	edda := w.Educators[0]
	starter := must(w.Office.Scenario(t.Context(), edda, "decannulation-01"))(t)
	first := drillOf(t, w, nan, mira, "decannulation", "decannulation-01")
	form := office.ScenarioForm{Code: "decannulation-01", Version: 1, Source: starter.Source, ThenAfter: "45", Texts: map[string]assessment.ScenarioText{"en": starter.In("en"), "es": starter.In("es")}}
	own := starter.In("en")
	own.Title = "The tube is out at the playground"
	form.Texts["en"] = own
	_, err := w.Office.SaveScenario(t.Context(), nan, form)
	wantRefusal(t, err, fault.Forbidden, "")
	late := form
	must(w.Office.SaveScenario(t.Context(), edda, form))(t)
	must(w.Office.SaveScenario(t.Context(), edda, form))(t) // twice the same
	late.Source = "Common practice, no source."
	_, err = w.Office.SaveScenario(t.Context(), edda, late)
	wantRefusal(t, err, fault.Conflict, "meanwhile")
	now := must(w.Office.Scenario(t.Context(), edda, "decannulation-01"))(t)
	if now.Version != 2 || now.Starter || now.In("en") != own || now.ThenAfter != 45 || len(now.Older) != 1 || !now.Older[0].Starter {
		t.Errorf("%+v", now)
	}
	if again := must(w.Office.Drill(t.Context(), edda, first.ID))(t); again.Scenario.In("en").Title != starter.In("en").Title {
		t.Error("a drill that was begun shows another version than was read out")
	}
	if second := drillOf(t, w, nan, mira, "decannulation", "decannulation-01"); second.Scenario.Version != 2 {
		t.Errorf("version %d is offered", second.Scenario.Version)
	}
	form.Code, form.Skill, form.Version = "", "suction", 0
	_, err = w.Office.SaveScenario(t.Context(), edda, form)
	wantRefusal(t, err, fault.Invalid, "emergency skills")
	form.Skill = "decannulation"
	form.Texts["es"] = assessment.ScenarioText{Title: "Sin texto"}
	_, err = w.Office.SaveScenario(t.Context(), edda, form)
	wantRefusal(t, err, fault.Invalid, "Both languages")
	form.Texts["es"] = starter.In("es")
	form.Texts["en"] = assessment.ScenarioText{Title: "New", Read: "r", Then: "t", Recognise: "r", Act: "a", Call: "c"}
	if code := must(w.Office.SaveScenario(t.Context(), edda, form))(t); code != "decannulation-own-1" {
		t.Errorf("it is called %s", code)
	}
	wantNone(t, w.Office.RetireScenario(t.Context(), edda, "decannulation-02", true))
	drawn := map[string]bool{}
	for range 24 {
		d := drillOf(t, w, nan, mira, "decannulation", "")
		if drawn[d.Scenario.ID] = true; !d.Drawn || d.Scenario.ID == "decannulation-02" {
			t.Fatalf("%+v", d.Scenario)
		}
	}
	all, err := catalog.Scenarios("decannulation")
	if wantNone(t, err); len(drawn) != len(all) { // one is retired, one is new
		t.Errorf("of %d only %v are drawn", len(all), drawn)
	}
	_, err = w.Office.BeginDrill(t.Context(), edda, office.DrillForm{Learner: nan.Person, Skill: "decannulation", Client: mira, Place: "here", Scenario: "decannulation-02"})
	wantRefusal(t, err, fault.Invalid, "not offered")
	_, err = w.Office.BeginDrill(t.Context(), edda, office.DrillForm{Learner: nan.Person, Skill: "suction", Client: mira, Place: "here"})
	wantRefusal(t, err, fault.Invalid, "no scenario")
}
