package web

// MarkingPage is the bedside page: one step at a time. GET
// /demonstrations/{id}/marks and /demonstrations/{id}/marks/{step}; each
// button is a POST to the latter.
type MarkingPage struct {
	Frame
	Faults   Faults
	Skill    string
	Learner  string
	Client   string // "Mira, 7K"; empty for a general skill
	Practice bool   // practice, does not count
	Real     bool   // with the real client; else in simulation
	Marked   int
	Total    int
	Now      CurrentStep // Number 0: every step is marked
	Before   []StepLine  // the one or two before it
	Steps    []StepLine  // all of them
	Stop     string      // page that ends it for safety
	Review   string      // page to review and record
	Leave    string      // where to go and come back later
	Drill    string      // page of its scenario and clock; empty = it is no drill
	Stopped  bool        // it was ended for safety and waits to be recorded
}

// A CurrentStep is the step that is being marked.
type CurrentStep struct {
	Number   int
	Action   string // POST
	Text     string
	Critical string // the reason; empty = not critical
	Kind     string // done, timed, measured, said aloud
	Note     string // for the observer, from the checklist
	Measures []Measure
	Marks    []MarkButton // independent, cued, assisted, not met, unsafe, in this order
	NotApply string       // when it may be left out; empty = never
	NotNow   bool         // it is marked not applicable
	Reason   string       // why not applicable, as typed
	Remark   string       // the observer's own words; field note
	Was      string       // mark that stands; sent back, so that keeping words or values keeps it
	Version  string       // of what stands at the step, sent back, so that no older page writes over it
	Earlier  string       // step before; empty on the first
	Later    string       // step after; empty on the last
}

// A MarkButton is one mark that can be given.
type MarkButton struct {
	Mark   string
	Chosen bool
}

// A Measure is one value to read at a step.
type Measure struct {
	Name      string // of the form field: value-{name}, unit-{name}
	Label     string // "Pressure on the gauge"
	Value     string // as typed
	Unit      string // chosen, or the only one
	UnitWords string // the same for the reader
	Units     []Option
	Accepts   string // "80 to 120 mmHg"; empty = record only
	Whose     string // "for Mira"; empty = of the checklist
	Timed     bool   // seconds: a stop-watch may help
	Outside   bool   // the value is out of its range
	OneOf     bool   // the first of several that can stand in for one another
	Or        bool   // another of them
}

// FieldName is the name of the value's form field.
func (m Measure) FieldName() string { return "value-" + m.Name }

// FieldID is what faults call the field; with "field-" before it, its id. Names of
// values hold spaces, ids do not.
func (m Measure) FieldID() string { return "value-" + slug(m.Name) }

// A StepLine is a step in the list beside or below.
type StepLine struct {
	Number   int
	Text     string
	Href     string
	Critical bool
	Mark     string // given mark, or not applicable; empty = none yet
	Values   string // "6 s"
	Open     string // what is missing, in words; empty = nothing
	Out      string // what is out of range, in words; empty = nothing
	Now      bool   // it is the current one
}

// StopPage asks before a demonstration ends for safety.
// GET and POST /demonstrations/{id}/stop.
type StopPage struct {
	Frame
	Faults   Faults
	Skill    string
	Learner  string
	Client   string
	Practice bool // practice: no standing changes by it
	Stopped  bool // it is ended already; only the words are missing or change
	Action   string
	Reason   string // what happened, as typed
	Back     string // go on marking
}
