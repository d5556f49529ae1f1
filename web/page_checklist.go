package web

// ChecklistPage is one revision to read. GET /revisions/{id}, or
// GET /catalogue/{skill} for a starter checklist.
type ChecklistPage struct {
	Frame
	Faults    Faults // of retiring it
	Skill     string
	Number    int      // 0 in the starter catalogue
	State     string   // starter, draft, in force, retired
	Since     string   // day of that state
	Specific  bool     // held per child
	Intro     string   // when to do it
	Safety    []string // cautions, the general one first
	Equipment []string
	Before    []Link   // skills that must be current first
	Related   []Link   // skills to look at too when this one fails
	Policy    []string // in words, one rule a line
	Needs     []string // parameters of the child that it uses
	Reviewed  []Signature
	Sections  []Section
	Sources   []string // where its content and numbers come from
	BlankPDF  string   // paper to fill by hand
	Start     string   // start a demonstration; empty = not for this reader
	Adopt     string   // where POST makes a draft of a starter checklist
	PutFor    string   // page that proposes to put a draft in force
	Waits     string   // who has proposed it and when, while it waits for a second person
	Proposal  string   // page of that proposal; empty = not for this reader
	Retire    string   // where POST retires it; asks for the password
	Compare   string   // page that compares with the one before
	Next      string   // where POST drafts the next revision; empty = not offered
	Edit      string   // page that edits a draft; empty = not offered
}

// A Section is a part of a checklist.
type Section struct {
	Title string // may be empty where there is only one
	Steps []Step
}

// A Step is one line of a checklist, to read.
type Step struct {
	Number   int
	Text     string
	Kind     string // done, timed, measured, said aloud
	Accepts  Worded // "at most 15 s", "80 to {suction_high} mmHg"
	Critical string // the reason; empty = not critical
	Least    string // least mark that a critical step accepts
	Weight   int    // shown when above 1
	Note     Worded // for the observer
	NotApply Worded // when "not applicable" may be chosen; empty = never
}
