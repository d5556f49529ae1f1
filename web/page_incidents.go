package web

// IncidentsPage lists incidents. GET /incidents?person=.
type IncidentsPage struct {
	Frame
	Answer string
	Whose  string // name, where those of one person are asked for; empty = everybody's
	Open   []IncidentLine
	Over   []IncidentLine // closed, or taken back
	New    string         // where one is recorded; empty = not for this reader
	Rules  string         // where what one withdraws is set; empty = not for this reader
}

// An IncidentLine is one incident in a list.
type IncidentLine struct {
	Href   string
	When   string
	Person string
	Skill  string
	Client string // whose; empty = a skill that is held for every child
	Seen   string
	Then   string // "open since 28 Nov 2026", "closed on …"
	Shape  string
}

// IncidentFormPage records an incident. GET /incidents/new?person=&skill=&client=&happened=, POST /incidents.
type IncidentFormPage struct {
	Frame
	Faults    Faults
	ID        string // that the new one will have
	Whose     string
	People    []Option
	Skill     string // code
	Skills    []Option
	Client    string
	Clients   []Option
	Happened  string // as typed
	Zone      string // of the agency's clocks
	Seen      string
	Withdraws string
	Scopes    []Option // what can be chosen; none = the agency's rules say it
	Says      string   // what signing withdraws, where the rules say it
}

// IncidentPage is one incident and what came of it. GET /incidents/{id}.
type IncidentPage struct {
	Frame
	Answer     string
	Line       IncidentLine
	PersonAt   string
	Recorded   string // by whom and when
	Withdrew   string // a sentence
	Took       []TookLine
	Barred     []TookLine // concerned too, and neither held before nor required
	Through    string     // the last day of the shifts that are looked at
	Breaks     []CoverLine
	MoreBreaks []CoverLine // those that are folded
	ShareOut   Link        // where who takes them all is proposed; empty = not for this reader, or too many
	Own        bool        // it is about the reader, and open
	Visits     []VisitLine // on the plan
	Proposed   []VisitLine
	Plan       string // where visits are planned; empty = nothing to plan, or not for this reader
	Taught     []TaughtAgain
	Teach      string // where teaching is written down; empty = not for this reader
	Open       bool
	Waits      string // why it cannot be closed yet
	Closed     *EndedLine
	Record     Link // by which it was closed
	TakenBack  *EndedLine
	Close      CloseIncidentForm
	Undo       UndoIncidentForm
}

// TaughtAgain is teaching that came after.
type TaughtAgain struct{ Day, By, Why string }

// An EndedLine is how an incident was closed, or taken back: who and when, and with which words.
type EndedLine struct{ Who, Why string }

// A TookLine is a standing that an incident took away.
type TookLine struct {
	Skill  string
	Client string
	Word   string // today
	Now    string // that, and what it was on the day before it happened, in a sentence
	Next   string // what is needed
	Start  string // where it is observed; empty = not for this reader, or nothing to show
}

// CloseIncidentForm closes an incident. POST /incidents/{id}/closing.
type CloseIncidentForm struct {
	Action  string // empty = not for this reader, or not yet
	Faults  Faults
	Record  string
	Records []Option
	Note    string
}

// UndoIncidentForm takes back what was recorded by mistake. POST /incidents/{id}/taking-back.
type UndoIncidentForm struct {
	Action string // empty = not for this reader
	Faults Faults
	Reason string
}

// Refused is the form of the page that was refused.
func (p IncidentPage) Refused() Link {
	return refusedIn(p.Close.Faults.In("close"), p.Undo.Faults.In("undo"))
}
