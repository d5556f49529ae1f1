package web

// LearningPage answers: what does somebody still have to learn, in which order, by when and
// by whom. GET /learning/{id}, for whoever keeps plans.
type LearningPage struct {
	Frame
	ID       string // of the person
	Name     string
	Answer   string
	Next     string // what is done next; empty: nothing is left, or nothing has an order
	Prints   []Link // on paper, in each language
	Dates    PlanDates
	Lines    []LearningLine
	Held     []Link // skills that are required and held, to the person's page
	Taught   []TaughtLine
	Practice []PracticeEntry
	Target   TargetForm
	Choose   ChooseForm
	Teach    TeachForm
	Practise PractiseForm
	Days     string // where the agency plans days; empty: not for this reader
}

// Refused is the form of the page that was refused.
func (p LearningPage) Refused() Link {
	return refusedIn(p.Target.Faults.In("target"), p.Choose.Faults.In("choose"), p.Teach.Faults.In("teach"))
}

// PlanPage answers a caregiver: what do I learn next, by when, and who teaches me. GET /plan,
// and GET /learning/{id} for whoever may read no other.
type PlanPage struct {
	Frame
	Name     string
	Answer   string
	Next     string
	Print    string
	Dates    PlanDates
	Lines    []LearningLine
	Held     int
	Taught   []TaughtLine
	Practice []PracticeEntry
}

// PlanDates is what is said of the target.
type PlanDates struct {
	Target string   // "Ready by 1 April 2026: first shift"; empty: there is none
	Warns  []string // that it is past, or that there is not enough time
	Circle string   // why nothing has an order
}

// A LearningLine is one skill of a plan.
type LearningLine struct {
	Skill   string
	Client  string // "Mira, 7K"; empty for general skills
	Shape   string
	Stage   string // how far they are
	By      string // "by 3 March 2026"; empty: no day
	Teacher string
	Notes   []string // what is wrong with the day, what comes first, what is needed
	Run     string   // where a practice run begins; empty: not for this reader
	Own     bool     // it is the reader's own
}

// A TaughtLine is a teaching session.
type TaughtLine struct {
	Day  string
	What string // skills
	How  string
	By   string // teacher and minutes
	Note string
	Back string // that it was corrected, and by what
	Href string // its page; empty: not for this reader
}

// A PracticeEntry is a practice run.
type PracticeEntry struct {
	Day  string
	What string
	How  string
	Back string
	Href string
}

// TargetForm chooses by when. POST /learning/{id}/target.
type TargetForm struct {
	Faults Faults
	Action string // empty: not for this reader
	Goal   string
	Goals  []Option
	On     string
}

// ChooseForm chooses who teaches a skill and by when. POST /learning/{id}/choices.
type ChooseForm struct {
	Faults   Faults
	Action   string
	Skill    string
	Skills   []Option
	Teacher  string
	Teachers []Option
	By       string
}

// TeachForm writes a teaching session down. POST /learning/{id}/sessions.
type TeachForm struct {
	Faults    Faults
	Action    string
	ID        string
	On        string
	Minutes   string
	Trainer   string
	Trainers  []Option
	Client    string
	Clients   []Option
	Skills    []Option
	How       []Option
	Beside    []Option // who else was taught, in the same way
	Note      string
	InService string
}

// PractiseForm leads to a practice run. GET /learning/{id}/practice.
type PractiseForm struct {
	Action string
	Skills []Option
}

// LearningDaysPage answers: how many days do we plan for each skill. GET /learning.
type LearningDaysPage struct {
	Frame
	Faults Faults
	Rows   []LearningDaysRow
	Action string
	Skill  string
	Skills []Option
	Days   string
}

// A LearningDaysRow is one skill with its days.
type LearningDaysRow struct {
	Skill string
	Says  string
}

// TeachingPage is one session, and how it is corrected. GET /teaching/{id}.
type TeachingPage struct {
	Frame
	Line   TaughtLine
	Who    []Link // who was taught and how, to their plans
	Fix    TeachForm
	Of     []LearnerHow
	Reason string
}

// LearnerHow is how somebody was taught, as boxes.
type LearnerHow struct {
	Field string
	Name  string
	How   []Option
}

// PractisePage is a checklist to practise by. GET /learning/{id}/practice.
type PractisePage struct {
	Frame
	Faults   Faults
	Own      bool // the reader writes down what nobody saw
	Name     string
	Back     string
	Skill    string
	Action   string
	ID       string
	Revision string
	What     string // skill and child, as the address has them
	Client   string
	Clients  []Option
	On       string
	Helper   string
	Helpers  []Option
	Steps    []PracticeStep
	Note     string
}

// A PracticeStep is one step, and how it went.
type PracticeStep struct {
	Field string
	No    int
	Text  string
	Went  string
	How   []Option
}

// PracticeRunPage is one practice run. GET /practice-runs/{id}.
type PracticeRunPage struct {
	Frame
	Faults Faults
	Name   string
	Back   string // to the plan
	Entry  PracticeEntry
	Steps  []PracticeStepLine
	Note   string
	Undo   string
	Reason string
}

// A PracticeStepLine is a step as it went.
type PracticeStepLine struct {
	No   int
	Text string
	Went string
}
