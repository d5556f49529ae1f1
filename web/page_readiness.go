package web

// ReadinessPage answers: can this child go home. GET /clients/{id}/readiness?on=.
type ReadinessPage struct {
	Frame
	Client   string // first name
	Code     string
	On       string // ISO
	Day      string
	Today    bool
	GoesHome string // planned day, in words; empty = none
	Ready    bool
	Left     []Criterion // not met
	Waived   []Criterion
	Met      []Criterion
	PDF      string
	Back     string // the child's page
	Evidence EvidenceForm
	Waive    CriterionWaiveForm
	MayAdd   bool
	MayWaive bool
}

// All counts the criteria of the plan.
func (p ReadinessPage) All() int { return len(p.Left) + len(p.Waived) + len(p.Met) }

// A Criterion is one thing that must be so before the child goes home.
type Criterion struct {
	Name     string // "Two of the family can suction"
	Who      string // who has it to do; empty = everyone
	Next     string // what to do next
	Standing string // shape beside it where a skill is behind it; empty = none
	Evidence string // "Tomasz Rybak, Lan Nguyễn; both through 2027"
	Day      string // since when met or waived
	Href     string // where it is mended or seen
	Act      string // words of that link
	Through  string // last day of a waiver
}

// EvidenceForm says that a criterion is met, and by what.
// POST /clients/{id}/readiness/evidence.
type EvidenceForm struct {
	Faults    Faults
	Action    string
	ID        string
	Criterion string
	Criteria  []Option
	On        string // ISO
	What      string
}

// CriterionWaiveForm waives a criterion. POST /clients/{id}/readiness/waivers.
type CriterionWaiveForm struct {
	Faults    Faults
	Action    string
	ID        string
	Criterion string
	Criteria  []Option
	Through   string // ISO
	Reason    string
}
