package web

// RecordPage is a demonstration after it was recorded. GET /demonstrations/{id}.
type RecordPage struct {
	Frame
	Faults    Faults // of a signature that has no form here any more
	At        string // address of this page
	Skill     string
	SkillHref string // the revision
	Revision  int
	Learner   string
	LearnerAt string // page of the learner
	Observer  string
	Client    string
	Place     Worded
	Performed string // "Wed 18 Nov 2026, 15:10 MST"
	Real      bool
	Practice  bool
	Outcome   string // competent, not yet competent, stopped for safety
	Score     string
	Counts    bool         // both have signed, or a negative is signed by the observer
	Acts      string       // "It counts from 18 Nov 2026."; empty while it does not
	Now       string       // where the learner stands today, and what is needed
	Reasons   []Reason     // why not competent, and values out of range
	Stopped   string       // what happened when it was stopped; else empty
	FromPaper string       // "on paper; typed in on 25 Nov 2026, 14:05 MST"; empty = it was marked here
	Pages     []PaperPage  // of that paper
	Bedside   *BedsideLine // the device it was filled in on; nil = it was marked here
	Drill     *DrillShown  // the drill it was; nil = none
	TakenBack []string     // what stood against the learner and was taken back while the sheet was open
	Sections  []RecordSection

	Signed []Signature
	Sign   []SignForm // those that are missing and can be given here
	Waits  []string   // whose signatures are missing

	Certificate string // page; empty = none came of it
	Next        string // page of what else waits for the reader, once this is signed; empty = nothing does
	PDF         string // the record on paper
	Proof       string // page of what the ledger has of it
	Packet      string // where a surveyor's packet about that night is asked for; empty = not for this reader
	Corrected   string // when, by whom and why it was taken back; empty = it was not
	Correct     CorrectForm
	MayCorrect  bool
}

// A RecordSection is a part of the sheet.
type RecordSection struct {
	Title string
	Steps []RecordStep
}

// A RecordStep is a marked step.
type RecordStep struct {
	Number    int
	Text      string
	Critical  bool
	Mark      string // as given
	Effective string // if a value made it another; else empty
	Values    Worded // "6 s, accepted: at most 15 s"
	Remark    string
	At        string // when it was marked, to the second; only where a device kept it
	Failed    bool   // it is among the reasons
}

// SignForm takes one signature. POST /demonstrations/{id}/signature.
type SignForm struct {
	Faults  Faults
	Action  string
	As      string      // observer or learner; field part
	Name    string      // who must sign
	What    string      // what is signed: "Circuit change, shown by Tomasz on …: competent."
	Meaning string      // what the signature says
	Tongue  *SignTongue // the same in the learner’s language; nil: it is that of the page
	Licence string      // that it will stand with; empty: none
	Now     string      // when it would be signed: "18 Nov 2026, 15:42 MST"
	Hand    bool        // another person than the reader: hand the tablet over
	CSRF    string      // set by In
	PIN     bool        // set by In: the PIN of whoever is signed in is enough
}

// A SignTongue says what is signed in another language than the page's.
type SignTongue struct{ Tag, Dir, What, Meaning, Hint string }

// In gives the form what it takes from the page's frame, for forms drawn in a list.
func (s SignForm) In(frame Frame) SignForm {
	s.CSRF, s.PIN = frame.CSRF, frame.PIN
	return s
}

// CorrectForm says that a record is wrong. POST /demonstrations/{id}/correction.
type CorrectForm struct {
	Faults Faults
	Action string
	Reason string
}
