package web

// InServicePage is who took part in how much training. GET /in-service?person=, POST /in-service, POST /in-service/hired.
type InServicePage struct {
	Frame
	Answer   string
	Off      bool   // the agency does not count them
	Rules    string // where that is set
	Rule     string // "12 hours in each calendar year"
	All      string // where everybody is, on the page of one; else empty
	Lines    []InServiceLine
	Sessions []HeldSession
	CSV      string
	Log      SessionForm
	Hired    HiredForm
}

// An InServiceLine is how far one aide is.
type InServiceLine struct {
	Name  string
	Href  string
	Shape string
	Says  string // "11 of 12 h: short by 1 h, until 14 Mar 2026"
	Also  string // of the period before
	Hire  string // where the day of hire is said, if it is not known; empty = not for this reader
}

// A HeldSession is training that was held.
type HeldSession struct {
	Day    string
	Topic  string
	Says   string // "1:30 h by Ruth Adeyemi"
	People string
	Back   string // why it was taken back; empty = it counts
	Undo   string // where POST takes it back; empty = not for this reader
	See    string // the teaching session that it was, where it is corrected; empty = it was none
	CSRF   string
	ID     string
	Reason string // typed, why it is taken back
	Faults Faults // of taking it back
}

// Form names the form that takes it back.
func (s HeldSession) Form() string { return "undo-" + s.ID }

// SessionForm writes a session down. POST /in-service.
type SessionForm struct {
	Action      string // empty = not for this reader
	Faults      Faults
	ID          string
	On          string // ISO
	Hours       string
	Topic       string
	Trainer     string
	Counts      string // "yes" or empty
	Orientation string
	People      []Option
}

// HiredForm says since when somebody works here. POST /in-service/hired.
type HiredForm struct {
	Action string // empty = not for this reader
	Faults Faults
	Person string
	People []Option
	On     string // ISO
}

// Refused is the form of the page that was refused.
func (p InServicePage) Refused() Link {
	forms := []Faults{p.Log.Faults.In("log"), p.Hired.Faults.In("hired")}
	for _, s := range p.Sessions {
		forms = append(forms, s.Faults.In(s.Form()))
	}
	return refusedIn(forms...)
}

// SupervisionPage is when each aide is assessed next. GET /supervision?aide=&client=, POST /supervision, POST
// /supervision/skilled-care.
type SupervisionPage struct {
	Frame
	Answer string
	Off    bool
	Rules  string
	All    string // where every aide is, on the page of one; else empty
	Lines  []SupervisionLine
	Made   []MadeLine
	Care   []CareLine
	Log    SupervisionForm
	Set    CareForm
}

// A SupervisionLine is one aide with one child.
type SupervisionLine struct {
	Aide   string
	Href   string
	Client string
	Shape  string
	Says   string // "assess by 15 Mar 2026"
	Watch  string // "watch giving care by 1 Mar 2027"
	Minor  string
	Log    string // where it is written down, filled in; empty = not for this reader
}

// A MadeLine is an assessment that was made.
type MadeLine struct {
	Says     string
	Found    string
	Incident string // where an incident is recorded of what was found; empty = nothing was, or not for this reader
	Back     bool
	Undo     string
	CSRF     string
}

// A CareLine is whether a child gets skilled care.
type CareLine struct {
	Client string
	Says   string
	Set    string // where it is said, if it is not known; empty = not for this reader
}

// SupervisionForm writes an assessment down. POST /supervision.
type SupervisionForm struct {
	Action      string
	Faults      Faults
	ID          string
	Aide        string
	Aides       []Option
	Client      string
	Clients     []Option
	Supervisor  string
	Supervisors []Option
	On          string
	How         string
	Hows        []Option
	Watched     string
	Why         string
	Found       string
	Deficient   string
}

// CareForm says from a day on whether a child gets skilled care. POST /supervision/skilled-care.
type CareForm struct {
	Action   string
	Faults   Faults
	Client   string
	Clients  []Option
	From     string
	Skilled  string
	Answers  []Option
	Episodes string
}

// Refused is the form of the page that was refused.
func (p SupervisionPage) Refused() Link {
	return refusedIn(p.Log.Faults.In("log"), p.Set.Faults.In("skilled"))
}
