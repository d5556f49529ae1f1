package web

// StartPage begins a demonstration. GET /demonstrations/new, POST /demonstrations.
type StartPage struct {
	Frame
	Faults    Faults
	ID        string // id that the demonstration will have: a second click is the same one
	Learner   string
	Learners  []Option
	Revision  string // id of a revision in force
	Revisions []Option
	Client    string // id; empty for a general skill
	Clients   []Option
	Setting   string // real or simulation
	Purpose   string // formal or practice
	Place     string
	Cautions  []string // worth knowing first: "Bag ventilation has lapsed; it comes first."
	Observer  string   // name of the reader, who observes
	MayNot    string   // why the reader may observe nothing at all; empty = may
}
