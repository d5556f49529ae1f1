package web

import (
	"strconv"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// scenario shows one scenario with its versions.
func (s *Site) scenario(v *visit) error {
	d, err := s.office.Scenario(v.ctx(), v.by(), v.c.Param("code"))
	if err != nil {
		return err
	}
	at := scenariosAt + "/" + d.ID
	page := ScenarioPage{Frame: v.frame("checklists"), Title: d.In("en").Title, Skill: d.Title.Title, Says: versionOf(v, d.DrillScenario), Source: d.Source, Retired: d.Retired, Texts: bothTexts(d.Scenario)}
	if d.ThenAfter > 0 {
		page.After = "after " + count(d.ThenAfter, "second", "seconds")
	}
	if v.may(assessment.Observe) && !d.Retired {
		page.Begin = drillsAt + "/new?skill=" + d.Title.Code + "&scenario=" + d.ID
	}
	if v.may(assessment.EditChecks) {
		page.Edit, page.Retire = at+"/edit", at+"/retirement"
	}
	for _, o := range d.Older {
		page.Older = append(page.Older, ScenarioOlder{versionOf(v, o), bothTexts(o.Scenario)})
	}
	return v.show(page)
}

// newScenario is the form of a new scenario.
func (s *Site) newScenario(v *visit) error {
	page, err := s.newScenarioPage(v, v.query("skill"))
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) newScenarioPage(v *visit, skill string) (ScenarioFormPage, error) {
	d, err := s.office.Drills(v.ctx(), v.by())
	page := ScenarioFormPage{Frame: v.frame("checklists"), Action: scenariosAt, Skill: skill, Skills: []Option{{Text: "Choose the skill"}}}
	for _, k := range d.Skills {
		page.Skills = append(page.Skills, Option{Value: k.Skill.Code, Text: k.Skill.Title})
	}
	return page, err
}

// editScenario is the form of another version.
func (s *Site) editScenario(v *visit) error {
	page, err := s.scenarioFormPage(v)
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) scenarioFormPage(v *visit) (ScenarioFormPage, error) {
	d, err := s.office.Scenario(v.ctx(), v.by(), v.c.Param("code"))
	if err != nil {
		return ScenarioFormPage{}, err
	}
	page := ScenarioFormPage{Frame: v.frame("checklists"), Action: scenariosAt + "/" + d.ID, Stands: scenariosAt + "/" + d.ID, Title: d.In("en").Title, Version: strconv.Itoa(d.Version),
		Source: d.Source, EN: scenarioIn(d.Scenario, "en"), ES: scenarioIn(d.Scenario, "es")}
	if d.ThenAfter > 0 {
		page.After = strconv.Itoa(d.ThenAfter)
	}
	return page, nil
}

func sentScenario(v *visit) office.ScenarioForm {
	f := office.ScenarioForm{Code: v.c.Param("code"), Skill: v.form("skill"), Source: v.form("source"), ThenAfter: v.form("then_after"), Texts: map[string]assessment.ScenarioText{}}
	f.Version, _ = strconv.Atoi(v.form("version")) // what is no number was never read
	for _, l := range []string{"en", "es"} {
		f.Texts[l] = assessment.ScenarioText{Title: v.form(l + "_title"), Read: v.form(l + "_read"), Then: v.form(l + "_then"), Recognise: v.form(l + "_recognise"), Act: v.form(l + "_act"), Call: v.form(l + "_call")}
	}
	return f
}

// scenarioLabels name the fields of the form.
func scenarioLabels() []FieldFault {
	all := []FieldFault{label("skill", "Skill"), label("source", "Source"), label("then_after", "Read out the second part after")}
	for _, l := range []struct{ code, name string }{{"en", "English"}, {"es", "Spanish"}} {
		for _, f := range []struct{ code, name string }{{"title", "title"}, {"read", "what is read out"}, {"then", "what happens next"}, {"recognise", "recognised"}, {"act", "acted"}, {"call", "called"}} {
			all = append(all, label(l.code+"_"+f.code, l.name+": "+f.name))
		}
	}
	return all
}

// addScenario keeps a new scenario.
func (s *Site) addScenario(v *visit) error {
	f := sentScenario(v)
	code, refused := s.office.SaveScenario(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(scenariosAt+"/"+code, "The scenario is kept. It is offered from now on.")
	}
	page, err := s.newScenarioPage(v, f.Skill)
	if err != nil {
		return err
	}
	return s.scenarioAgain(v, page, f, refused)
}

// saveScenario keeps another version of a scenario.
func (s *Site) saveScenario(v *visit) error {
	f := sentScenario(v)
	_, refused := s.office.SaveScenario(v.ctx(), v.by(), f)
	if refused == nil {
		return v.to(scenariosAt+"/"+f.Code, "The new version is kept. It is offered from now on; records keep the one that was read out.")
	}
	page, err := s.scenarioFormPage(v)
	if err != nil {
		return err
	}
	if fault.KindOf(refused) != fault.Conflict { // else the next try is on what stands now, which they are led to
		page.Version = strconv.Itoa(f.Version)
	}
	return s.scenarioAgain(v, page, f, refused)
}

func (s *Site) scenarioAgain(v *visit, page ScenarioFormPage, f office.ScenarioForm, refused error) error {
	typed := assessment.Scenario{Texts: f.Texts}
	page.Source, page.After, page.EN, page.ES = f.Source, f.ThenAfter, scenarioIn(typed, "en"), scenarioIn(typed, "es")
	if err := v.take(&page.Faults, refused, "The scenario was not kept.", scenarioLabels()...); err != nil {
		return err
	}
	return v.again(page)
}

// retireScenario takes a scenario out of what is offered, or back in.
func (s *Site) retireScenario(v *visit) error {
	code := v.c.Param("code")
	if err := s.office.RetireScenario(v.ctx(), v.by(), code, v.form("retired") == "yes"); err != nil {
		return err
	}
	return v.to(scenariosAt+"/"+code, "It is done. Records that name it still show it.")
}
