package web

// CoveragePage answers: which shifts break, and what to do about each. GET /coverage.
type CoveragePage struct {
	Frame
	Import    string // where lists are brought in; empty = not for this reader
	Faults    Faults
	From      string // ISO days
	Through   string
	Days      string // "2 to 15 Dec 2026"
	Client    string
	State     string
	Clients   []Option
	States    []Option
	Shifts    int
	Breaks    int
	Open      int
	Clashes   int
	Covered   int
	Before    string       // the day after the last: "before Friday 12 December 2026"
	First     []CoverLine  // of each child the first that breaks
	FirstMore int          // of how many more children one breaks
	Groups    []CoverGroup // by day
	Later     Link         // where the days stand that do not fit on this page; empty = all do
	Share     bool         // shifts may be given
	ShareOut  Link         // where who takes all that need somebody is proposed; empty = not for this reader, or too many
	Rest      RestForm
	PDF       string
	CSV       string
	XLSX      string
}

// A RestForm sets the rest between two shifts.
type RestForm struct {
	Action string // empty: not for this reader
	Hours  string
	Faults Faults
}

// A CoverGroup is the shifts that begin on one day.
type CoverGroup struct {
	Day   string
	Lines []CoverLine
}

// A CoverLine is one shift with the answer for it, and the act that mends it.
type CoverLine struct {
	ID     string
	Href   string // page of the shift, with who could take it
	Client string
	Carer  string // who is on it
	When   string // "Thu 3 Dec, 19:00–07:00"
	Word   string // covered, breaks, open
	Shape  string
	Asks   string   // which kind of caregiver
	Why    []string // what stands in the way, and what clashes
	Source string   // where it comes from, in words
	Act    string   // what the link says
	Share  bool     // it can be ticked
}

// ShiftPage is one shift, with who could take it. GET /coverage/shifts/:shift.
type ShiftPage struct {
	Frame
	Faults Faults
	CoverLine
	ClientHref string
	PersonHref string
	Action     string // where the shift is given; empty: it is over, or not for this reader
	Version    string
	Over       bool
	Able       []StandIn
	Not        []NotAble
	Reason     string // chosen
	Reasons    []Option
	Short      []Option // who could, were a reason given
	ShortOf    string   // chosen
	Rest       string   // "8 hours"; empty: none asked
	Roster     string   // page of the child's roster
	Packet     string   // where a surveyor's packet about the night is asked for; empty = still to come, or not for this reader
	MayOpen    bool     // somebody is on it and may be taken off
	Remove     string   // where a single shift that has not begun is taken off the roster; else empty
}

// A StandIn is somebody who could take a shift.
type StandIn struct {
	ID, Name, Href, Kind, Hours string
}

// A NotAble is somebody who cannot, and why.
type NotAble struct {
	Name, Href, Kind, Why string
}

// SharingPage proposes who takes which of several shifts. GET /coverage/sharing.
type SharingPage struct {
	Frame
	Faults Faults
	Takes  []SharedLine
	None   []CoverLine
	Action string
}

// A SharedLine is one shift with who would take it.
type SharedLine struct {
	CoverLine
	Value  string // what is sent: shift, version, person
	Takes  string
	TakesH string
}

// ClientRosterPage is a child's weekly patterns and coming shifts. GET /clients/:id/roster.
type ClientRosterPage struct {
	Frame
	Faults   Faults
	ID       string
	Name     string
	Back     string
	May      bool
	Breaks   int
	Open     int
	Shifts   int
	Patterns []WeeklyPattern
	Coming   []CoverGroup
	New      PatternFields
	Single   ShiftFields
	Coverage string
}

// A WeeklyPattern is one pattern with what can be done to it.
type WeeklyPattern struct {
	ID, Person, When, Days, Since, Asks string
	Exceptions                          []PatternException
	Change                              PatternFields
	Day                                 PatternDayFields
	End                                 string
	Version                             string
}

// A PatternException is one day on which it is otherwise.
type PatternException struct {
	On, Day, Says, Lift string
}

// PatternFields are the fields of a pattern's form.
type PatternFields struct {
	Action, FormName, ID, Version, Person, Kind, From, Until, FromOn, ThroughOn, Reason string
	Begun                                                                               bool
	Weekdays, People, Kinds, Reasons                                                    []Option
	Faults                                                                              Faults
	CSRF                                                                                string
}

// PatternDayFields are the fields of one day of a pattern.
type PatternDayFields struct {
	Action, FormName, Version, On, Person, From, Until, Reason string
	LeftOut                                                    bool
	People, Reasons                                            []Option
	Faults                                                     Faults
	CSRF                                                       string
}

// ShiftFields are the fields of a single shift.
type ShiftFields struct {
	Action, ID, Person, Kind, Starts, Ends, Reason string
	People, Kinds, Reasons                         []Option
	Faults                                         Faults
}
