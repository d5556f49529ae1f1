package web

import "wellshown/assessment/wording"

// ReadinessPage answers: can this child go home. GET /clients/{id}/readiness?on=.
type ReadinessPage struct {
	Frame
	Faults  Faults // of what has no form of its own
	ID      string
	Client  string // first name
	Code    string
	On      string // ISO day asked for
	Day     string // in words
	Today   bool
	Ready   bool
	Left    []Criterion // not met
	Waived  []Criterion
	Met     []Criterion
	Shifts  []Shift
	PDF     string
	Back    string // the child's page
	Start   string // where POST makes the standard plan; empty = not offered
	MayEdit bool   // this reader may say what is done, change the plan and the shifts
	Add     CriterionForm
	Plan    ShiftForm
	Meeting string // the day in words; empty: not set
	Home    string // the same
	Days    PlanDaysForm
	Signed  string // who signed the plan and when, in words; empty: nobody
	Stands  bool   // the signature does

	WhoSigns string // who signs it, by when, where nobody has
	Sign     PlanSignForm
	Spanish  string // where the paper in Spanish is; empty: there is none, or the page is in Spanish
	Pattern  string // where the template is; empty: not for this reader
}

// PlanDaysForm sets when a child is to go home. POST /clients/{id}/readiness/days.
type PlanDaysForm struct {
	Faults  Faults
	Action  string // empty = not offered
	Meeting string // ISO
	Home    string // ISO
}

// PlanSignForm signs a whole plan as ready. POST /clients/{id}/readiness/signature.
type PlanSignForm struct {
	Faults  Faults
	Action  string // empty = not for this reader, or not ready
	ID      string // that the signature will have
	Version string // of what is read
	Name    string // as it will be printed
	Licence string
	Meaning string
	Now     string
}

// A Todo is one thing that is left.
type Todo struct {
	Words []wording.Piece
	Who   string // who sees to it and by when, in words
	Late  bool
}

// All counts the criteria of the plan.
func (p ReadinessPage) All() int { return len(p.Left) + len(p.Waived) + len(p.Met) }

// A Criterion is one thing that must be so before the child goes home, with
// the forms of what this reader may do about it.
type Criterion struct {
	ID       string
	Name     string // "Two of the family can suction"
	Left     []Todo
	Foreign  string            // language of the name, where it is not the page's
	SaidBy   string            // who alone may say what is so, where that is not this reader
	Source   string            // of the line, as published; for who keeps the plan
	Flags    []string          // met today, but not for long
	Evidence [][]wording.Piece // on what it rests
	Standing string            // shape beside it where skills are behind it; empty = none
	Act      Link              // where it is mended; empty = here, by the forms
	Say      SayForm
	Waive    CriterionWaiveForm
	End      CriterionWaiveForm // ends a waiver
	Change   CriterionForm
	Remove   string // where POST takes it off the plan; empty = not offered
	CSRF     string // set by WithCSRF
}

// WithCSRF gives the criterion the page's token, for its forms.
func (c Criterion) WithCSRF(token string) Criterion {
	c.CSRF = token
	return c
}

// FormName is the name of the form that says what is so, unlike any other on
// the page.
func (c Criterion) FormName() string { return "say-" + c.ID }

// WaiverName is the name of the form that waives it.
func (c Criterion) WaiverName() string { return "waive-" + c.ID }

// EndName is the name of the form that ends its waiver.
func (c Criterion) EndName() string { return "end-" + c.ID }

// ChangeName is the name of the form that changes the line.
func (c Criterion) ChangeName() string { return "change-" + c.ID }

// SayForm says what is so about a criterion. POST
// /clients/{id}/readiness/evidence.
type SayForm struct {
	Faults Faults
	Action string   // empty = nothing can be said by hand, or not by this reader
	ID     string   // id that the new record will have
	Word   string   // met, not met, started, ended, delivered
	Words  []Option // those that fit
	Item   string
	Items  []Option // for equipment; none = no such field
	At     string   // day and time, "2026-11-25T14:05"; empty = now
	Note   string
}

// CriterionWaiveForm waives a criterion, or ends its waiver. POST
// /clients/{id}/readiness/waivers, or …/waivers/end.
type CriterionWaiveForm struct {
	Faults Faults
	Action string // empty = not for this reader
	Item   string
	Items  []Option
	Reason string
}

// CriterionForm adds a line to the plan, or changes one. POST
// /clients/{id}/readiness/criteria, or …/criteria/{criterion}.
type CriterionForm struct {
	Faults Faults
	Action string // empty = not offered
	ID     string // id that a new line will have
	Kind   string
	Kinds  []Option // none = how it is judged stays
	Title  string
	Skills []Option // Chosen = looked at; none = no such field
	Counts bool     // it asks for a number of family caregivers
	Count  string   // as typed
	Timed  bool     // it asks for hours
	Hours  string   // planned, as typed
	Lists  bool     // it asks for items
	Items  string   // of equipment, one a line
	CSRF   string   // set by As

	Spanish      string // the title
	ItemsSpanish string // one a line
	Says         string
	Sayers       []Option
	Licence      string // that it takes to say it
	Child        bool   // of a child's plan: it has a day and somebody who sees to it
	By           string // ISO
	Responsible  string
	Source       string // of a template's line
}

// As gives the form its name on the page and the page's token.
func (f CriterionForm) As(name, token string) CriterionForm {
	f.Faults, f.CSRF = f.Faults.In(name), token
	return f
}

// A Shift is a planned early shift.
type Shift struct {
	Name   string
	When   string
	Lacks  []string // skills in which this person is not current then
	Remove string   // where POST takes it off; empty = not offered
}

// ShiftForm plans a shift. POST /clients/{id}/readiness/shifts.
type ShiftForm struct {
	Faults Faults
	Action string // empty = not offered
	Person string
	People []Option
	Starts string // "2026-12-05T19:00"
	Ends   string
}
