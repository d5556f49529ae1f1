package web

// DrillsPage is every scenario by skill, and the last drill of each caregiver. GET /drills.
type DrillsPage struct {
	Frame
	Skills []DrilledSkill
	Last   []DrillLine
	Begin  string // where a drill begins; empty = not for this reader
	Write  string // where a scenario is written; empty = not for this reader
}

// A DrilledSkill is an emergency skill with its scenarios.
type DrilledSkill struct {
	Title     string
	Begin     string // a drill of it; empty = not for this reader, or nothing is offered
	Scenarios []ScenarioLine
}

// A ScenarioLine is one scenario in a list.
type ScenarioLine struct {
	Title   string
	Href    string
	Says    string // "starter, not used yet"
	Retired bool
}

// A DrillLine is the last drill of somebody in a skill.
type DrillLine struct {
	Name    string
	Skill   string
	Href    string // the record
	Outcome string
	Says    string // day, child and scenario
	Times   []string
}

// A ScenarioShown is a scenario in one language.
type ScenarioShown struct {
	Lang      string
	Language  string // in words
	Title     string
	Read      string
	Then      string
	Recognise string
	Act       string
	Call      string
}

// ScenarioPage is one scenario as it is offered now. GET /scenarios/{code}.
type ScenarioPage struct {
	Frame
	Title   string
	Skill   string
	Says    string // which version, and whose
	Source  string
	After   string // when the second part is read out; empty = as it says itself
	Retired bool
	Texts   []ScenarioShown
	Older   []ScenarioOlder
	Begin   string // a drill with it; empty = not for this reader, or not offered
	Edit    string // empty = not for this reader
	Retire  string // where POST takes it out, or back in; empty = not for this reader
}

// A ScenarioOlder is a version that was in force before.
type ScenarioOlder struct {
	Says  string
	Texts []ScenarioShown
}

// ScenarioFormPage writes a scenario, or another version of one. GET /scenarios/new and
// /scenarios/{code}/edit; POST /scenarios and /scenarios/{code}.
type ScenarioFormPage struct {
	Frame
	Faults  Faults
	Action  string
	Title   string // of the scenario as it stands; empty = a new one
	Stands  string // page of it
	Version string // that was read
	Skill   string
	Skills  []Option // of a new one
	Source  string
	After   string
	EN, ES  ScenarioShown
}

// DrillStartPage begins a drill. GET /drills/new, POST /drills.
type DrillStartPage struct {
	Frame
	Faults    Faults
	ID        string
	Learner   string
	Learners  []Option
	Skill     string
	Skills    []Option
	Client    string
	Clients   []Option
	Scenario  string
	Scenarios []Option
	Purpose   string
	Place     string
	Cautions  []string
	Observer  string
	MayNot    string
}

// DrillPage is the scenario in large type, with the clock. GET and POST
// /demonstrations/{id}/drill.
type DrillPage struct {
	Frame
	Faults    Faults
	ID        string
	Action    string
	Skill     string
	Learner   string
	Client    string
	Practice  bool
	Text      ScenarioShown // in the learner's language
	Other     ScenarioShown
	ThenAfter int    // seconds; 0: as it says itself
	How       string // how the scenario was found
	Moments   []DrillMoment
	TakenBack []string
	Timed     bool
	Stop      string // page that ends it for safety
	Leave     string
	Marks     string
}

// A DrillMoment is one of the three.
type DrillMoment struct {
	Name  string
	Label string
	Look  string // what is seen then
	Value string // seconds as typed
}

// A DrillShown is the drill that a record is of.
type DrillShown struct {
	Text      ScenarioShown
	Says      string
	Times     []string
	TakenBack []string
}
