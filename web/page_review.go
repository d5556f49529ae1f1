package web

// ReviewPage is the last look before recording. GET /demonstrations/{id}/review;
// its form is POST /demonstrations/{id}/record.
type ReviewPage struct {
	Frame
	Faults   Faults
	Skill    string
	Learner  string
	Client   string
	Practice bool
	Action   string
	Version  string
	Open     []OpenStep
	Outcome  string // what it will be: competent, not yet competent, stopped for safety; empty while open
	Score    string // "27 of 29, pass mark 95 in 100"
	Reasons  []Reason
	Marks    []MarkCount
	Steps    int
	Back     string // go on marking
	Ended    bool   // it was ended for safety
	Stopped  string // what happened then; empty = not written down yet
	Say      string // page to write it down
	Resume   string // where POST takes the ending back; empty = not offered
	Paper    *PaperForm
	Discard  string // where POST throws the sheet away; empty = not offered
}

// PaperForm takes photos and scans of the paper that a sheet is typed in from.
// POST /demonstrations/{id}/pages.
type PaperForm struct {
	Faults   Faults
	Action   string // empty: there is room for no more
	Revision int
	Text     string // beginning of the hash of the revision's text, as the paper has it
	Pages    []PaperPage
	Needed   bool   // it cannot be recorded without
	CSRF     string // set by In
}

// In gives the form what it takes from the page's frame.
func (f PaperForm) In(frame Frame) PaperForm {
	f.CSRF = frame.CSRF
	return f
}

// A PaperPage is one photo or scan of a paper.
type PaperPage struct {
	Number int
	Says   string // "photo, 412 kB"
	Href   string // the file
	Remove string // where POST takes it off; empty = not any more
}

// An OpenStep is a step that keeps the sheet from being recorded.
type OpenStep struct {
	Number int
	Text   string
	Why    string // "has no mark", "needs its value"
	Href   string // the step
}

// A Reason is a rule that failed.
type Reason struct {
	Step int    // 0 = about the whole sheet
	Text Worded // "Critical step 16 was cued; it must be independent."
}

// A MarkCount says how often a mark was given.
type MarkCount struct {
	Mark string
	N    int
}
