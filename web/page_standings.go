package web

// StandingsPage is the grid of people and skills on one day.
// GET /standings?on=&client=&kind=&skill=&observer=&standing=&find=&after=.
type StandingsPage struct {
	Frame
	Faults    Faults
	On        string // ISO
	Day       string // in words
	Today     bool
	Client    string
	Clients   []Option
	Kind      string
	Kinds     []Option
	Skill     string
	Skills    []Option
	Observer  string
	Observers []Option
	Standing  string
	Standings []Option
	Find      string
	Filtered  bool
	Earlier   string // the same 30 days before
	Later     string // the same 30 days on
	Slider    Slider
	CSV       string // all who fit, as a table
	XLSX      string
	Columns   []Link // skills
	Rows      []StandingRow
	Pager     Pager
	People    int // who fit, on this page or not
	// Counts over the cells of all who fit that are needed.
	Lapsed  int // lapsed or withdrawn
	Due     int
	Current int // due ones included
	NotYet  int // never held
	Needed  int
}

// A Slider moves the day of the page where scripts run, in days from today.
type Slider struct {
	Today     string // ISO
	From, To  int    // days before and after today
	At        int    // where it stands; at an end where the day lies beyond
	Beginning string // the first day, in words
	End       string // the last
}

// A StandingRow is a person across the skills.
type StandingRow struct {
	Name  string
	Href  string
	Kind  string
	Cells []StandingCell // one for each column
}

// A StandingCell is one standing.
type StandingCell struct {
	Needed   bool   // required of this person
	Href     string // the person's page on that day, at that skill: which records made it so
	Standing string // empty = nothing held and nothing needed
	DaysLeft int    // for due
	Through  string // last day; empty = no holding
	Skill    string // for those who hear the table read
	Client   string // whose it is where it is held per child; else empty
}

// OverduePage is the overdue and coming-due report on screen.
// GET /overdue?on=&within=&group=.
type OverduePage struct {
	Frame
	Faults    Faults
	On        string // ISO
	Day       string // in words
	Within    string // days, as typed
	Group     string // caregiver or skill
	Lapsed    int    // lapsed or withdrawn
	Due       int    // end within the days asked for
	NotYet    int    // required and never held
	Groups    []OverdueGroup
	PDF       string
	CSV       string
	XLSX      string
	Standings string // the grid on the same day
}

// An OverdueGroup is one caregiver or one skill.
type OverdueGroup struct {
	Title string
	Href  string
	Kind  string // of a caregiver; else empty
	Rows  []OverdueRow
}

// An OverdueRow is a standing that is over or soon will be.
type OverdueRow struct {
	Standing string
	Name     string // the skill, or the caregiver, whichever the group is not
	Client   string
	Through  string
	Days     int // after Through when over, until Through when due
	Next     string
	Act      Link // what mends it
}
