package web

// CoordinatorTodayPage answers: what breaks next, and when. GET /today.
type CoordinatorTodayPage struct {
	Frame
	Today   string // "Wednesday 25 November 2026"
	Lapsed  int    // standings lapsed or withdrawn now, of those required
	Within7 int    // of the current, how many end within 7, 30, 60, 90 days
	// Each count includes the ones before it.
	Within30  int
	Within60  int
	Within90  int
	Current   int // current now, due ones included
	Learning  int
	GoingHome int // clients with a readiness plan that is not yet ready
	NextDay   string
	Troubles  []Trouble // lapsed, withdrawn and due ones, worst first
	More      string    // the overdue page, where not all are listed here; else empty
	Waiting   []WaitingRecord
	Duties    []Link // other roles' landing pages, for who has several
}

// A Trouble is a standing that somebody must mend, and the act that mends it.
type Trouble struct {
	Person     string
	PersonHref string
	Standing   SkillStanding
	Observers  []string // who may observe it, by name
	Waive      string   // where it can be waived; empty = not for this reader
}

// EducatorTodayPage answers: whom do I see today. GET /today.
type EducatorTodayPage struct {
	Frame
	Today    string
	Open     []OpenSheet // begun by me, not recorded
	ToSign   []WaitingRecord
	Learners []Learner // whom I may observe: due, lapsed or learning
	Duties   []Link
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
	Name      string // the reader
	Client    string // "Mira"; empty while on no care team
	Left      []SkillStanding
	Done      []SkillStanding
	ToSign    []WaitingRecord
	Readiness string // page of the child's readiness; empty = not for this reader
	// ReadyLeft and ReadyAll count the child's criteria; both 0 = no plan yet.
	ReadyLeft    int
	ReadyAll     int
	ReadinessPDF string
	Transcript   string // PDF of everything the reader has shown
}

// SurveyorHomePage answers: who was competent, on that day. GET /survey.
type SurveyorHomePage struct {
	Frame
	Faults Faults
	Find   string // as typed
	On     string // ISO day asked for
	Asked  bool   // something was searched
	Found  []FoundPerson
}

// A FoundPerson is one answer to a search.
type FoundPerson struct {
	Name string
	Kind string
	Href string // their record on the day asked for
}
