package web

import (
	"slices"

	"wellshown/assessment"
)

// CoordinatorTodayPage answers: what breaks next, and when. GET /today.
type CoordinatorTodayPage struct {
	Frame
	Reminders string // where reminders are; empty = not for this reader
	Today     string // "Wednesday 25 November 2026"
	Lapsed    int    // standings lapsed or withdrawn now, of those required
	Within7   int    // of the current, how many end within 7, 30, 60, 90 days
	// Each count includes the ones before it.
	Within30  int
	Within60  int
	Within90  int
	Current   int             // current now, due ones included
	NotYet    int             // required and never held yet
	Waived    int             // required and waived
	GoingHome int             // clients with a readiness plan who are not yet called ready
	Broken    []CoverLine     // shifts of the next 14 days that break, clash or are open
	Breaks    int             // how many of them break
	OpenYet   int             // and how many are open
	ShareOut  Link            // where who takes those shown is proposed; empty = not for this reader
	AllBroken string          // the coverage page, where there are more; else empty
	Troubles  []Trouble       // withdrawn, lapsed, due, and what ends within 30 days, worst first
	More      string          // the overdue page, where more ends within 90 days; else empty
	Waits     int             // records that lack a signature, shown here or not
	Waiting   []WaitingRecord // those that most need one
	Folded    []WaitingRecord // the next ones
	AllWaits  string          // page of all that wait, where not all are here; else empty
	Duties    []Link          // other roles' landing pages, for who has several
	Incidents int             // that wait for somebody to close them
	Aides     []Link          // what of the rules for aides waits for somebody
	Unvouched []Unvouched     // who cannot sign before somebody has vouched for them
	Holding   []Holding       // devices that hold what is not here
}

// A Holding is a device at the bedside that holds what is not here, as it last said.
type Holding struct {
	Device  string
	Owner   string
	Href    string // the owner's page
	Holds   string // "2 finished sheets that were not sent, 1 that is being marked"
	Told    string // when it said so
	Revoked bool
}

// A Trouble is a standing that somebody must mend, and the act that mends it.
type Trouble struct {
	Person     string
	PersonHref string
	Standing   SkillStanding
	Shown      bool   // a demonstration mends it; else a card or a reinstatement does
	Observers  string // who may observe it: "Ada, Ben and 2 others"; empty = nobody
	Plan       string // where a visit for it can be planned; empty = not by this reader, or none would help
	Waive      string // where it can be waived; empty = not for this reader
}

// EducatorTodayPage answers: whom do I see today. GET /today.
type EducatorTodayPage struct {
	Frame
	Today     string
	Open      []OpenSheet // begun by me, not recorded
	ToSign    []WaitingRecord
	Waits     int             // records that I have to sign, shown here or not
	AllWaits  string          // page of all of them, where not all are here; else empty
	Learners  []Learner       // whom I may observe: withdrawn, lapsed, due, learning, not started
	All       int             // people to see, listed or not
	More      string          // the overdue page, where not all are listed here; else empty
	Own       []SkillStanding // my own that end soon or no longer hold
	Me        string          // my own page
	Visits    []OwnVisit      // mine, today and on the six days after it
	Incidents int             // that wait for somebody to close them
	MayNot    string          // why I may observe nothing today; empty = I may
	Duties    []Link

	Unvouched []Unvouched // who cannot sign before somebody has vouched for them
	Proposals []ProposalLine
	Decide    int // how many of them somebody else has made
}

// An OwnVisit is a visit that the reader is to make.
type OwnVisit struct {
	Day    string // "today", "Tue 8 Dec"
	Client string
	Href   string // what is due there
}

// An Unvouched is somebody who waits for another person to vouch for them.
type Unvouched struct {
	Name   string
	Href   string
	Issuer string // who made the link that their password comes from
	May    bool   // the reader may vouch
}

// An OpenSheet is a demonstration that is being marked.
type OpenSheet struct {
	Href    string // the marking page
	Learner string
	Skill   string
	Client  string
	Begun   string // "today, 14:05"
	Marked  int    // steps with a mark
	Steps   int    // steps in all
}

// A Learner is somebody to see, with the skills that need it.
type Learner struct {
	Name   string
	Href   string
	Kind   string // nurse, aide, mother …
	Skills []SkillStanding
}

// FamilyHomePage answers: what is done, what is left, what next. GET /home.
type FamilyHomePage struct {
	Frame
	Name       string // the reader
	CannotSign string // why; empty = they can
	Next       string // what they do next by their learning plan; empty: nothing is left
	Client     string // "Mira", "Mira and Theo"; empty while on no care team
	Asked      int    // skills that are required of the reader
	Due        int    // of them, that end soon
	Left       []SkillStanding
	Excused    []SkillStanding // required and waived
	Done       []SkillStanding
	Begun      []SkillStanding // neither required nor held
	ToSign     []WaitingRecord
	Waits      int    // records that the reader has to sign, shown here or not
	AllWaits   string // page of all of them, where not all are here; else empty
	Ways       []Way
	// Transcript is a PDF of everything the reader has shown.
	Transcript string
	Duties     []Link
}

// Withdrawn reports whether something that is left was taken away.
func (p FamilyHomePage) Withdrawn() bool {
	return slices.ContainsFunc(p.Left, func(s SkillStanding) bool { return s.Standing == string(assessment.Withdrawn) })
}

// A Way is how far a child's way home is.
type Way struct {
	Client string // first name
	Href   string // page of the child's readiness
	PDF    string
	Left   int  // criteria not met
	All    int  // criteria of the plan; 0 = no plan yet
	Signed bool // a clinician has signed that all is in place

	Household string // page of who of the family can do what; empty = not for this reader
	Papers    string // page of the papers that go home with the child; the same
}

// SurveyorHomePage answers: who was competent, on that day. GET /survey.
type SurveyorHomePage struct {
	Frame
	Faults Faults
	Find   string // as typed
	On     string // ISO day asked for
	Asked  bool   // something was searched
	Found  []FoundPerson
	More   bool // more people fit than are shown
	Duties []Link
	Whole  bool // the reader may ask for the whole agency
	Access bool // the reader is a surveyor: there is a page on what they may look at
}

// A FoundPerson is one answer to a search.
type FoundPerson struct {
	Name string
	Kind string
	Href string // their record on the day asked for
}
