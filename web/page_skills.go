package web

// SkillsDaysPage lists skills days. GET /skills-days.
type SkillsDaysPage struct {
	Frame
	Today  []SkillsDayLine
	Coming []SkillsDayLine // the next first
	Past   []SkillsDayLine // the newest first, with those that were ended
	New    string          // where one is planned; empty = not for this reader
}

// A SkillsDayLine is one skills day in a list.
type SkillsDayLine struct {
	Name     string
	Href     string
	Day      string
	Place    string
	Stations int
	Learners int
	Ended    string // who ended it; empty = nobody
}

// SkillsDayFormPage plans or changes a skills day. GET /skills-days/new, POST /skills-days,
// GET /skills-days/{id}/edit, POST /skills-days/{id}.
type SkillsDayFormPage struct {
	Frame
	Faults   Faults
	New      bool
	Changed  string // the day as it is now, where somebody else has changed it; else empty
	Action   string
	Back     string
	ID       string // that a new one will have
	Version  string
	Name     string
	Place    string
	On       string // ISO
	Stations []StationFields
	Learners []Option
}

// StationFields are the fields of one station; all empty = there is none.
type StationFields struct {
	No        int
	Skill     string // code
	Observer  string // id
	Client    string // id
	Skills    []Option
	Observers []Option
	Clients   []Option
}

// SkillsDayPage is one skills day: its stations and who comes. GET /skills-days/{id}.
type SkillsDayPage struct {
	Frame
	Faults   Faults
	Name     string
	Day      string // "Wednesday 25 November 2026"
	Place    string
	When     string // today, coming, over, ended
	Ended    string // who ended it
	Stations []StationLine
	Learners []DayLearner
	Due      int    // visits that are due and can count
	Shown    int    // of the learners, who showed something
	Cards    string // PDF
	Edit     string // empty = not for this reader, or not any more
	End      string // the same
}

// A StationLine is one station on the page of its day.
type StationLine struct {
	No       int
	Href     string
	Skill    string
	Client   string // whose values it is judged by
	Observer string
	Closed   string // why nothing that is shown here can count
	ToCome   int
	Here     int
	Done     int
}

// A DayLearner is one of those who come.
type DayLearner struct {
	Name   string
	Href   string // their card
	Kind   string
	Where  string // "at station 2"; empty = at none
	Onward string // where they go, in a sentence
	Shape  string // of the state of their card: open, learning, met
	Shown  []string
	Vain   int // stations where what is due cannot count
}

// SkillsCardPage is one learner's card. GET /skills-days/{id}/learners/{learner}.
type SkillsCardPage struct {
	Frame
	Name   string
	Kind   string
	Cares  string // "Mira, 7K and Theo, 4B"
	Own    string // their own page
	Title  string // of the day
	Day    string
	Place  string
	Back   string
	Where  string
	Onward string
	Due    int
	Visits []DayVisit
}

// A DayVisit is one station on a learner's card.
type DayVisit struct {
	No       int
	Href     string
	Skill    string
	Client   string
	Observer string
	Standing string
	Why      string
	First    string // "after station 1"; empty = after nothing
	Cannot   []string
	Shown    []DayShown
	Open     string // by whom it is being marked; empty = nobody
}

// A DayShown is what was shown on the day.
type DayShown struct {
	Href string
	Text string // "Competent, waits for a signature"
}

// StationPage is one station as whoever stands at it sees it.
// GET /skills-days/{id}/stations/{station}.
type StationPage struct {
	Frame
	Faults   Faults
	No       int
	Skill    string
	Client   string
	Observer string
	Title    string // of the day
	Day      string
	Back     string
	Closed   string
	Own      bool   // the reader observes here, and it is the day
	Wait     string // why the reader can do nothing here; empty = they can
	Here     []AtStation
	ToCome   []AtStation
	Done     []AtStation
	Vain     []AtStation
}

// An AtStation is a learner on a station's lists.
type AtStation struct {
	ID     string
	Name   string
	Href   string // their card
	Kind   string
	Why    string
	Where  string // at which other station they are
	First  string
	Cannot string
	Shown  []DayShown
	GoOn   string   // the reader's own open sheet of theirs
	Begin  string   // the name check; empty = not for this reader
	Take   string   // takes them here
	Pass   string   // passes them on
	To     string   // where they go next
	Others []Option // stations they can be passed on to
	CSRF   string
}

// NameCheckPage asks whether it is them, before a sheet begins.
// GET and POST /skills-days/{id}/stations/{station}/learners/{learner}.
type NameCheckPage struct {
	Frame
	Faults   Faults
	ID       string // that the demonstration will have
	Version  string // of who and what is shown
	Action   string
	Back     string
	Name     string
	Kind     string
	Cares    string
	Skill    string
	Client   string
	Manikin  bool // shown on a manikin or in simulation only
	Observer string
	No       int
	Place    string
	Why      string
	First    string
	Cannot   []string
	Others   []string // sheets of other people that the reader has not finished
	GoOn     string   // the reader's own open sheet of the same; empty = none
	MayNot   string   // why nothing can begin; empty = it can
	Setting  string   // real or simulation
	Purpose  string   // formal or practice
}
