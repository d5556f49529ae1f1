package web

import (
	"errors"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/office"
	"wellshown/assessment/wording"
)

const (
	drillsAt    = "/drills"
	scenariosAt = "/scenarios"
)

// drills lists scenarios and last drills.
func (s *Site) drills(v *visit) error {
	d, err := s.office.Drills(v.ctx(), v.by())
	if err != nil {
		return err
	}
	page := DrillsPage{Frame: v.frame("checklists")}
	if v.may(assessment.Observe) {
		page.Begin = drillsAt + "/new"
	}
	if v.may(assessment.EditChecks) {
		page.Write = scenariosAt + "/new"
	}
	for _, k := range d.Skills {
		shown := DrilledSkill{Title: k.Skill.Title}
		for _, c := range k.Scenarios {
			shown.Scenarios = append(shown.Scenarios, ScenarioLine{Title: c.In("en").Title, Href: scenariosAt + "/" + c.ID, Says: versionOf(v, c), Retired: c.Retired})
			if page.Begin != "" && !c.Retired {
				shown.Begin = page.Begin + "?skill=" + k.Skill.Code
			}
		}
		page.Skills = append(page.Skills, shown)
	}
	for _, l := range d.Last {
		says := day(l.On) + ", " + l.RecordedDrill.Title
		if l.Client != "" {
			says += ", for " + l.Client
		}
		if l.CorrectedAt != nil {
			says += ", taken back since"
		}
		page.Last = append(page.Last, DrillLine{Name: l.Learner, Skill: l.Demonstration.Title, Href: demonstrationAt(l.ID), Outcome: string(l.Outcome), Says: says, Times: drillTimes(wording.In(wording.English), l.RecordedDrill)})
	}
	return v.show(page)
}

// versionOf says which version of a scenario it is, and whose.
func versionOf(v *visit, c office.DrillScenario) string {
	switch {
	case c.VersionID == "":
		return "A starter: a draft until a licensed clinician has read it. Not used yet."
	case c.Starter:
		return fmt.Sprintf("A starter, version %d, first used by %s on %s.", c.Version, c.By, instant(c.At, v.zone()))
	}
	return fmt.Sprintf("Your agency's, version %d, by %s on %s.", c.Version, c.By, instant(c.At, v.zone()))
}

// drillTimes says the three moments.
func drillTimes(w wording.Words, r office.RecordedDrill) []string {
	if !r.Timed {
		return []string{w.Say("It was stopped before any moment was put down.")}
	}
	var all []string
	for _, p := range r.Times.Phrases() {
		all = append(all, w.Of(p))
	}
	return all
}

// scenarioIn is a scenario in a language.
func scenarioIn(c assessment.Scenario, lang string) ScenarioShown {
	t := c.In(lang)
	return ScenarioShown{Lang: lang, Language: map[string]string{"en": "English", "es": "Spanish"}[lang], Title: t.Title, Read: t.Read, Then: t.Then, Recognise: t.Recognise, Act: t.Act, Call: t.Call}
}

func bothTexts(c assessment.Scenario) []ScenarioShown {
	return []ScenarioShown{scenarioIn(c, "en"), scenarioIn(c, "es")}
}

// drillStartForm is what was chosen or typed, as it is sent.
type drillStartForm struct{ id, learner, skill, client, scenario, setting, purpose, place string }

func (s *Site) newDrill(v *visit) error {
	page, err := s.drillStartPage(v, drillStartForm{learner: v.query("learner"), skill: v.query("skill"), client: v.query("client"), scenario: v.query("scenario")})
	if err != nil {
		return err
	}
	return v.show(page)
}

func (s *Site) drillStartPage(v *visit, f drillStartForm) (DrillStartPage, error) {
	learner, _ := assessment.ParseID[assessment.PersonID](f.learner)
	client, _ := assessment.ParseID[assessment.ClientID](f.client)
	b, err := s.office.BeforeDrill(v.ctx(), v.by(), office.Chosen{Learner: learner, Skill: f.skill, Client: client})
	if err != nil {
		return DrillStartPage{}, err
	}
	page := DrillStartPage{Frame: v.frame("start"), ID: string(b.ID), Learner: string(learner), Skill: f.skill, Client: string(client), Scenario: f.scenario, Purpose: f.purpose, Place: f.place,
		Observer: v.by().Name, MayNot: b.MayNot, Learners: []Option{{Text: "Choose who is drilled"}}, Skills: []Option{{Text: "Choose the skill"}}, Clients: []Option{{Text: "no child"}}, Scenarios: []Option{{Text: "draw one at random"}}}
	if f.id != "" { // the same form again is the same drill
		page.ID = f.id
	}
	for _, p := range b.Learners {
		page.Learners = append(page.Learners, Option{Value: string(p.ID), Text: p.Name + ", " + kindOf(p)})
	}
	for _, k := range b.Skills {
		page.Skills = append(page.Skills, Option{Value: k.Code, Text: k.Title})
	}
	for _, c := range b.Clients {
		page.Clients = append(page.Clients, Option{Value: string(c.ID), Text: clientName(c)})
	}
	for _, c := range b.Scenarios {
		page.Scenarios = append(page.Scenarios, Option{Value: c.ID, Text: c.In("en").Title + " · " + c.Title.Title})
	}
	if b.Caution != "" {
		page.Cautions = []string{b.Caution}
	}
	return page, nil
}

// beginDrill begins a drill. A second click finds the one that the first began.
func (s *Site) beginDrill(v *visit) error {
	f := drillStartForm{v.form("id"), v.form("learner"), v.form("skill"), v.form("client"), v.form("scenario"), v.form("setting"), v.form("purpose"), v.form("place")}
	form, err := f.read()
	var d office.DrillView
	if err == nil {
		d, err = s.office.BeginDrill(v.ctx(), v.by(), form)
	}
	switch {
	case err == nil:
		return v.to(demonstrationAt(d.ID)+"/drill", "")
	case errors.Is(err, office.ErrRecorded):
		return v.to("/demonstrations/"+form.ID, recordedAlready)
	}
	faults, unknown := v.wrong(err, "The drill was not begun.", label("learner", "Learner"), label("skill", "Skill"), label("client", "For the child"), label("scenario", "Scenario"),
		label("setting", "Shown on"), label("purpose", "It is"), label("place", "Place"))
	if unknown != nil {
		return unknown
	}
	page, err := s.drillStartPage(v, f)
	if err != nil {
		return err
	}
	page.Faults, page.Cautions = faults, nil
	return v.again(page)
}

func (f drillStartForm) read() (office.DrillForm, error) {
	asked, err := startForm{id: f.id, learner: f.learner, skill: f.skill, client: f.client, setting: "simulation", purpose: f.purpose, place: f.place}.read()
	return office.DrillForm{ID: asked.ID, Learner: asked.Learner, Skill: asked.Skill, Client: asked.Client, Place: asked.Place, Formal: asked.Formal, Scenario: f.scenario, Real: f.setting == "real"}, err
}
