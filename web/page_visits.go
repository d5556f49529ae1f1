package web

import "slices"

// VisitsPage is the plan of visits. GET /visits?weeks=&educator=.
type VisitsPage struct {
	Frame
	Faults    Faults
	Filter    Faults // of what was asked for
	Answer    string
	Until     string
	Weeks     string
	Educator  string // id; empty = all
	Educators []Option
	Kept      []VisitWeek
	Proposed  []Option // ticked
	Travel    string   // of the proposed ones
	Best      bool     // proven
	Version   string
	Keep      string // where POST keeps what is proposed; empty = not for this reader
	Unmet     []UnmetLine
	Together  []TogetherLine
	Plan      VisitForm
	PDF       string
	ICS       string
	Settings  string // where educators' weeks and the ways are
}

// A VisitWeek is the visits of one week, Monday through Sunday.
type VisitWeek struct {
	Title  string
	Visits []VisitLine
	Board  VisitBoard
}

// A VisitBoard is a week by educator and day.
type VisitBoard struct {
	MaySet bool // a visit can be dragged to another day or educator
	Days   []string
	Rows   []BoardRow
}

// A BoardRow is one educator's week.
type BoardRow struct {
	Educator string
	ID       string
	Cells    []BoardCell
}

// A BoardCell is one educator's day.
type BoardCell struct {
	On     string // ISO
	Day    string // "Tue 8 Dec"
	Off    bool
	Over   bool // before today
	Visits []BoardVisit
}

// A BoardVisit is a visit as it stands on the board.
type BoardVisit struct {
	Client string
	Href   string
	Sees   string // how much is due there
	Fault  bool   // it cannot be made
}

// A VisitLine is one visit.
type VisitLine struct {
	Day      string
	Educator string
	Client   string
	Href     string
	Sees     VisitDues
	Faults   []string // why it cannot be made
}

// VisitDues is what several people have to show.
type VisitDues []VisitDue

// A PersonDues is what one of them has to show.
type PersonDues struct {
	Person string
	Href   string
	Dues   []VisitDue
}

// ByPerson is the same by person, in the order in which each comes first.
func (d VisitDues) ByPerson() []PersonDues {
	var all []PersonDues
	for _, due := range d {
		i := slices.IndexFunc(all, func(p PersonDues) bool { return p.Href == due.Href })
		if i < 0 {
			i, all = len(all), append(all, PersonDues{Person: due.Person, Href: due.Href})
		}
		all[i].Dues = append(all[i].Dues, due)
	}
	return all
}

// A VisitDue is what somebody has to show.
type VisitDue struct {
	Person string
	Href   string
	Skill  string
	Client string // whose; empty = every child
	Word   string
	Why    string
	Start  string // where to begin to observe it; empty = not today, or not by this reader
}

// An UnmetLine is something due that no visit meets.
type UnmetLine struct {
	VisitDue
	Home   string
	Reason string
	Act    Link
}

// A TogetherLine is a skill that many could show on one skills day.
type TogetherLine struct {
	Skill  string
	People string // "7 people: Ada, Ben and 5 others"
	Days   string
	Plan   string // where such a day is planned; empty = not by this reader
}

// VisitForm plans a visit by hand. POST /visits.
type VisitForm struct {
	Action   string // empty = not for this reader
	Faults   Faults
	ID       string
	On       string // ISO
	Client   string
	Clients  []Option
	Educator string
	Who      []Option
}

// VisitMovePage is one visit, and what moving it would break. GET /visits/{id}?on=&educator=.
type VisitMovePage struct {
	Frame
	Faults   Faults
	Line     VisitLine
	Back     string
	Here     string
	On       string // ISO, asked about
	Educator string // id, asked about
	Who      []Option
	Asked    bool
	Then     string // "Tue 8 Dec 2026 by Noor Haddadin"
	Cannot   []string
	Breaks   VisitDues
	Gains    VisitDues
	Longer   string
	Version  string
	Move     string // where POST moves it; empty = not for this reader, or it cannot be
	Cancel   string
}

// VisitWeeksPage is educators' weeks and the ways. GET /visits/weeks, POST /visits/weeks, POST /visits/days-off,
// POST /visits/ways.
type VisitWeeksPage struct {
	Frame
	Faults    Faults
	MaySet    bool
	Educators []VisitWeekLine
	Ways      []WayLine
	Who       []Option
	Clients   []Option
	Week      WeekForm
	Off       OffForm
	Way       WayForm
}

// A VisitWeekLine is how an educator's weeks are.
type VisitWeekLine struct {
	Name string
	Week string
	Off  []OffLine
}

// An OffLine is days on which an educator makes no visits.
type OffLine struct {
	Days   string
	Remove string // where POST takes them away; empty = not for this reader
	CSRF   string
}

// A WayLine is how long a way is.
type WayLine struct {
	Between string
	Minutes int
	Remove  string // where POST forgets it; empty = not for this reader
}

// WeekForm says how an educator's weeks are.
type WeekForm struct {
	Faults   Faults
	Educator string
	Days     []Option
	PerDay   string
	Base     string
}

// OffForm writes days off down.
type OffForm struct {
	Faults        Faults
	Educator      string
	From, Through string
}

// WayForm says how long a way is.
type WayForm struct {
	Faults   Faults
	From, To string
	Base     string
	Minutes  string
}

// Refused is the form of the page that was refused.
func (p VisitWeeksPage) Refused() Link {
	return refusedIn(p.Week.Faults.In("week"), p.Off.Faults.In("off"), p.Way.Faults.In("way"))
}

// Refused is the form of the page that was refused.
func (p VisitsPage) Refused() Link { return refusedIn(p.Plan.Faults.In("plan")) }
