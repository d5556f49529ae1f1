package web

// PracticePage is which rules of practice the agency uses. GET, POST /practice.
type PracticePage struct {
	Frame
	Faults Faults
	Answer string
	Set    string // by whom and when; empty = nobody has set them
	Action string // empty = not for this reader
	Form   PracticeForm
	// In words, for whoever only reads.
	Incident, InService, Supervision string
}

// PracticeForm sets them.
type PracticeForm struct {
	Withdraws   string
	Scopes      []Option
	ByItself    string // "yes" or empty, as all ticks here
	InService   string
	Hours       string
	Year        string
	Years       []Option
	Orientation string
	Supervision string
}
