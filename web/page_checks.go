package web

// ChecksPage is which knowledge checks are asked, and where the reader stands; for those
// who keep them, all of them. GET /checks.
type ChecksPage struct {
	Frame
	Takes bool // the reader may take checks
	Left  int  // of their own that do not hold
	Own   []CheckLine
	All   []BankLine
}

// A CheckLine is one check of the reader's own.
type CheckLine struct {
	Title string
	Shape string
	Says  string
	Why   string // why the next try is not now, or what it is for; empty = nothing to say
	Begin string // where POST begins it; empty = not now
	Again bool   // it was taken before
	GoOn  string // the sitting that goes on
	Learn string // the lesson; empty = there is none
	Tries []Link
	CSRF  string
}

// A BankLine is the check of one skill for those who keep it.
type BankLine struct {
	Title string
	Href  string
	Shape string
	Says  string
	Minor string
}

// SittingPage is one question of a check, or the look over all of them before it is handed
// in. GET /sittings/{id}?question=.
type SittingPage struct {
	Frame
	Title     string
	Action    string // POST keeps the answer
	HandIn    string // POST hands it in
	Place     int    // 0: the look over all
	Of        int
	Ask       string
	How       string // how it is answered
	Fields    []Field
	Faults    Faults
	Questions []SittingLine // on the look over all
	Open      int           // without an answer
	Pause     string        // where to go without losing anything
	Until     string        // until when it is open
	Over      bool          // its time is over: it can only be handed in
	TooLate   bool          // an answer came after that
	Reader    bool          // the reader can read what it asks
	Watched   string        // name of who takes it, where the reader only looks; else empty
}

// A SittingLine is a question and whether it was answered.
type SittingLine struct {
	Place    int
	Ask      string
	Href     string
	Answered bool
}

// Last reports whether it is the last question.
func (p SittingPage) Last() bool { return p.Place == p.Of }

// SittingResultPage is what came of a check, with what it teaches. GET /sittings/{id}.
type SittingResultPage struct {
	Frame
	Title    string
	Whose    string // name, where it is not the reader's own
	On       string
	Passed   bool
	Waits    bool // passed, and it does not count before somebody says that a trainer was there
	Right    int
	Of       int
	Through  string   // last day of the pass; empty = without end, or not passed
	Easier   string   // that more is asked now; empty = it is not
	Late     string   // that its time was over; empty = it was not
	Reader   string   // that who took it could read what it asks, and what follows; empty = they could not
	Critical []string // what was asked that must be known
	Next     string   // when and how they may try again; empty = passed
	Begin    string   // where POST begins the next try; empty = not now
	Learn    string
	Print    string // PDF
	Present  string // what is known of whether a trainer was there
	Say      *PresenceForm
	Items    []ResultItem
}

// A ResultItem is one question with its answer, and what it teaches.
type ResultItem struct {
	Right    bool
	Critical bool
	Ask      string
	Given    []string
	Wanted   []string
	Teach    string
	Source   string
}

// PresenceForm says whether a trainer was there. POST /sittings/{id}/presence.
type PresenceForm struct{ Action, Value string }
