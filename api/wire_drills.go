package api

import (
	"wellshown/assessment"
	"wellshown/assessment/office"
)

// Drills is every scenario by skill, and the last drill of each caregiver.
type Drills struct {
	Skills []DrilledSkill `json:"skills"`
	Last   []LastDrill    `json:"last" doc:"The newest drill of each caregiver in each skill."`
}

// DrilledSkill is an emergency skill with its scenarios.
type DrilledSkill struct {
	Skill     SkillRef   `json:"skill"`
	Scenarios []Scenario `json:"scenarios"`
}

// LastDrill is the newest drill of somebody in a skill.
type LastDrill struct {
	Record DemonstrationHead `json:"record"`
	Drill  RecordedDrill     `json:"drill"`
}

// Scenario is what is read out in a drill.
type Scenario struct {
	Code      string       `json:"code"`
	Skill     SkillRef     `json:"skill"`
	Version   int          `json:"version" doc:"0: a starter that nobody used yet."`
	Starter   bool         `json:"starter" doc:"As the program brings it along; else written by the agency."`
	Retired   bool         `json:"retired" doc:"It is not offered any more."`
	Source    string       `json:"source"`
	ThenAfter int          `json:"then_after_s,omitempty" doc:"How many seconds after the beginning the second part is read out. Left out: as it says itself."`
	English   ScenarioText `json:"en"`
	Spanish   ScenarioText `json:"es"`
}

// ScenarioText is a scenario in one language.
type ScenarioText struct {
	Title     string `json:"title" maxLength:"200"`
	Read      string `json:"read" maxLength:"2000" doc:"Read out at the start."`
	Then      string `json:"then" maxLength:"2000" doc:"What happens next."`
	Recognise string `json:"recognise" maxLength:"500" doc:"What a good answer looks like: they have recognised it."`
	Act       string `json:"act" maxLength:"500" doc:"They act."`
	Call      string `json:"call" maxLength:"500" doc:"They call for help."`
}

// ScenarioForm is a scenario as somebody writes it, in both languages.
type ScenarioForm struct {
	Version   int          `json:"version" minimum:"0" doc:"That was read; 0 for a new one, or a starter that nobody used yet."`
	Source    string       `json:"source" maxLength:"500" doc:"As published, or: common practice, no source."`
	ThenAfter int          `json:"then_after_s,omitempty" minimum:"0" maximum:"3600"`
	English   ScenarioText `json:"en"`
	Spanish   ScenarioText `json:"es"`
}

// NewScenario is the first version of a scenario of a skill.
type NewScenario struct {
	Skill string `json:"skill" maxLength:"200" doc:"The code of an emergency skill."`
	ScenarioForm
}

// ScenarioCode names a scenario.
type ScenarioCode struct {
	Code string `json:"code"`
}

// ScenarioRetirement takes a scenario out of what is offered, or back in.
type ScenarioRetirement struct {
	Retired bool `json:"retired"`
}

// DrillForm begins a drill. There is no field for the child: a drill is always in simulation.
type DrillForm struct {
	Learner  string `json:"learner" doc:"Who is drilled: an id."`
	Skill    string `json:"skill" maxLength:"200" doc:"The code of an emergency skill."`
	Client   string `json:"client,omitempty" doc:"The child whose plan is used: an id."`
	Place    string `json:"place" maxLength:"500" example:"skills room"`
	Formal   bool   `json:"formal" doc:"Counts toward competence, else it is practice."`
	Scenario string `json:"scenario,omitempty" maxLength:"200" doc:"The code. Left out: drawn at random, by a seed that is kept."`
}

// DrillMoments is when the three moments came, in whole seconds since the drill began.
type DrillMoments struct {
	Recognised *int       `json:"recognised_s,omitempty" minimum:"0" maximum:"3600" doc:"Left out: not recognised."`
	Acted      *int       `json:"acted_s,omitempty" minimum:"0" maximum:"3600" doc:"Left out: did not act."`
	Called     *int       `json:"called_s,omitempty" minimum:"0" maximum:"3600" doc:"Left out: did not call for help. In which order they come is not asked."`
	TakenBack  []DrillTap `json:"taken_back,omitempty" maxItems:"100" doc:"Put down and taken back, oldest first."`
}

// DrillTap is a moment that was put down and taken back.
type DrillTap struct {
	Moment  string `json:"moment" enum:"recognised,acted,called"`
	Seconds int    `json:"seconds" minimum:"-1" maximum:"3600" doc:"-1 in answers alone: that the moment did not come was put down, and taken back."`
}

// Drill is one that goes on.
type Drill struct {
	SheetHead
	Scenario Scenario     `json:"scenario"`
	Drawn    bool         `json:"drawn" doc:"At random; else the observer chose it."`
	Timed    bool         `json:"timed" doc:"The moments are put down."`
	Moments  DrillMoments `json:"moments"`
}

// RecordedDrill is the drill that a record is of.
type RecordedDrill struct {
	Scenario string       `json:"scenario" doc:"The code."`
	Version  int          `json:"version" doc:"Which was read out."`
	Title    string       `json:"title" doc:"In English."`
	Drawn    bool         `json:"drawn"`
	Timed    bool         `json:"timed" doc:"False: it was stopped before any moment was put down."`
	Moments  DrillMoments `json:"moments" doc:"No limit is published for these times; the checklist decides."`
}

func scenarioText(t assessment.ScenarioText) ScenarioText { return ScenarioText(t) }

func scenario(d office.DrillScenario) Scenario {
	return Scenario{d.ID, skillRef(d.Title), d.Version, d.Starter, d.Retired, d.Source, d.ThenAfter, scenarioText(d.In("en")), scenarioText(d.In("es"))}
}

func drillMoments(t assessment.DrillTimes, back []assessment.DrillTap) DrillMoments {
	at := func(n int) *int {
		if n == assessment.NotInDrill {
			return nil
		}
		return &n
	}
	return DrillMoments{at(t.Recognised), at(t.Acted), at(t.Called), each(back, func(b assessment.DrillTap) DrillTap { return DrillTap{string(b.Moment), b.Seconds} })}
}

func drill(v office.DrillView) Drill {
	return Drill{sheetHead(v.Sheet), scenario(v.Scenario), v.Drawn, v.Timed, drillMoments(v.Times, v.TakenBack)}
}

func recordedDrill(d *office.RecordedDrill) *RecordedDrill {
	if d == nil {
		return nil
	}
	return &RecordedDrill{d.Code, d.Version, d.Title, d.Drawn, d.Timed, drillMoments(d.Times, d.TakenBack)}
}

func drills(v office.DrillsDesk) Drills {
	return Drills{each(v.Skills, func(s office.DrilledSkill) DrilledSkill {
		return DrilledSkill{skillRef(s.Skill), each(s.Scenarios, scenario)}
	}), each(v.Last, func(l office.LastDrill) LastDrill {
		return LastDrill{demonstrationHead(l.Demonstration), *recordedDrill(&l.RecordedDrill)}
	})}
}
