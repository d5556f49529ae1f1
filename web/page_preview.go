package web

// A Preview tells what a change would do; the zero one draws nothing.
type Preview struct {
	Told      bool
	Asked     bool   // it was asked for just now: the page begins there
	Answer    string // in one sentence: "Two people change standing, one shift breaks."
	Reach     string // which days were looked at
	People    []PreviewPerson
	Broken    []CoverLine // shifts that would break, and do not
	Mended    []CoverLine // shifts that break, and would not
	Otherwise []CoverLine // shifts that break either way, for other reasons; the first of them
	More      string      // how many more of those there are; empty: none

	OtherwiseWords string // how many they are
	Form           string // name of the form that it is of, on a page with several; set by In
}

// In gives the same preview for a named form.
func (p Preview) In(form string) Preview {
	p.Form = form
	return p
}

// ID is the id of it on the page.
func (p Preview) ID() string {
	if p.Form == "" {
		return "preview"
	}
	return p.Form + "-preview"
}

// A PreviewPerson is somebody whose standing would change.
type PreviewPerson struct {
	Name    string
	Href    string
	Kind    string
	Shape   string // what the worst of it comes to
	Changes []PreviewChange
}

// A PreviewChange is a skill in which somebody's standing would be another one.
type PreviewChange struct {
	Skill  string
	Client string
	Turns  []PreviewTurn // in order of day
}

// A PreviewTurn is a run of days on which it would.
type PreviewTurn struct {
	Before string
	After  string
	When   string // "from 1 Dec 2026 on", "1 Dec 2026 to 4 Jan 2027"
}

// ProposalPage is a proposal to put a revision in force. GET /proposals/{id}.
type ProposalPage struct {
	Frame
	Faults    Faults // of agreeing
	Skill     string
	Number    int
	By        string // who proposed it
	When      string
	Statement string
	Recheck   string   // by when it is to be shown anew; empty: it is not
	Replaces  int      // revision that retires by it; 0 = none
	Compare   string   // page that compares with that
	Policy    []string // in words
	Read      string   // page of the checklist; empty where it is gone
	Verdict   string   // empty: it waits
	Ended     string   // who decided and when
	Reason    string   // why it was declined
	Mine      bool     // the reader has made it
	MayNot    string   // why they cannot agree; empty: they can, or it is theirs
	Preview   Preview
	Seen      string // the version of it
	Agree     string // where POST agrees; empty: not for this reader
	Reviewed  bool   // ticked
	Reviewer  string
	Licence   string
	Now       string
	Dropping  string // where POST takes it back or declines it; empty: it is decided
	Drop      Faults // of that
	Why       string // as typed
	Back      string
}

// A ProposalLine is a proposal that waits, in a list.
type ProposalLine struct {
	Href    string
	Skill   string
	Number  int
	By      string
	When    string
	Recheck string
	Mine    bool
}
