package web

// ClientPage is one child: numbers, equipment, team and needs.
// GET /clients/{id}.
type ClientPage struct {
	Frame
	Faults     Faults // of ending somebody's days on the team
	ID         string
	Code       string
	Name       string // first name
	Since      string // first day with the agency, in words; empty: not said
	Edit       string
	Readiness  string
	HomePapers string
	Roster     string // page of the child's shifts; empty: not for this reader
	Standings  string // who stands how for this child; empty = not for this reader
	Packet     string // where a surveyor's packet about them is asked for; empty = not for this reader
	Ready      bool
	Signed     bool // a clinician has signed that, and it stands
	Left       int
	All        int // 0 = no plan yet
	Parameters []Parameter
	Missing    []string // parameters that a required skill needs and the child lacks
	Equipment  []Device
	Team       []Carer
	Needs      []Need
	MayChange  bool   // this reader may add and end
	MaySet     bool   // this reader may set ordered values
	Today      string // ISO, for ending something today
	Join       JoinForm
}

// A Parameter is one of the child's own numbers, from an order.
type Parameter struct {
	Name   string // "Suction depth"
	Value  Worded // "11.5", or the order in words
	Unit   string // "cm"; empty for words
	By     string // who set it; empty where a default counts
	Since  string // when it was ordered; empty for a default
	Change string // where it is changed; empty = not for this reader
}

// A Device is one kind of equipment: what the child has today.
type Device struct {
	Kind    string
	Type    string   // empty = none today
	From    string   // since when, or from when
	History []string // "dual limb until 12 Nov 2026"
	Change  string
}

// A Carer is one person on the care team.
type Carer struct {
	Name     string
	Href     string // empty = not for this reader
	Kind     string
	Days     string // "since 1 Sep 2026", "1 Dec to 5 Dec 2026"
	Standing string // the worst of what this child needs; empty = nothing needed
	Current  int
	Required int
	End      string // where POST ends it; empty = not for this reader
}

// A Need is one thing that this child's carers must hold.
type Need struct {
	Skill string
	Who   string // "each nurse", "two of the family"
	Why   string // "by equipment: heated humidifier"
}

// JoinForm adds a person to the care team. POST /clients/{id}/team.
type JoinForm struct {
	Faults  Faults
	ID      string
	Person  string
	People  []Option
	From    string // ISO
	Through string // ISO; may be empty
}
