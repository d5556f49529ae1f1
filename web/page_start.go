package web

// StartPage begins a demonstration. GET /demonstrations/new, POST /demonstrations.
type StartPage struct {
	Frame
	Faults      Faults
	ID          string // id that the demonstration will have: a second click is the same one
	Learner     string
	Learners    []Option
	Skill       string   // code
	Skills      []Option // in force, that the reader may observe
	Client      string   // id; empty for a general skill
	Clients     []Option
	Setting     string // real or simulation
	Purpose     string // formal or practice
	Place       string
	PerformedAt string   // day and time, "2026-11-25T14:05"; empty = now
	FromPaper   string   // "yes": it was marked on paper before
	Printed     string   // which revision is printed on the paper
	Cautions    []string // worth knowing first: "Bag ventilation has lapsed; it comes first."
	Observer    string   // name of the reader, who observes
	MayNot      string   // why the reader may observe nothing at all; empty = may
}
