package web

// Words used by several pages. All dates are already written for the reader
// ("18 Nov 2026"), unless a comment says ISO: those fill date fields
// ("2026-11-18"). All addresses are paths of this site.

// A Link is somewhere to go, in the reader's words.
type Link struct {
	Text string
	Href string
}

// A SkillStanding is one person's standing in one skill on the page's day.
type SkillStanding struct {
	Anchor      string // where on the page it stands: what the grid's cells lead to
	SkillID     string
	Skill       string // "Tracheostomy suctioning"
	Client      string // "Mira, 7K" for a client-specific skill; else empty
	Standing    string // not started, learning, current, due, lapsed, withdrawn, waived
	Through     string // last day on which it holds; empty where there is no holding
	Since       string // first day of the unbroken run with this standing
	DaysLeft    int    // days from the page's day to Through; only used for due
	Next        string // what is needed next: "Two more competent demonstrations, one on another day."
	Evidence    []Link // the records that made it so
	Certificate string // page of the certificate that holds; empty = none
	Start       string // where a demonstration of it starts; empty = not for this reader
}

// A Pager leads through a long list by keyset.
type Pager struct {
	Shown string // "1 to 50"; empty = all are shown
	First string // back to the first page; empty on the first
	Next  string // the next page; empty on the last
}

// A WaitingRecord is a record that lacks a signature.
type WaitingRecord struct {
	Href    string // the record
	Learner string
	Skill   string
	Client  string // empty for a general skill
	Seen    string // day it was performed
	Lacks   string // whose signature: "Amal Haddad"
	Mine    bool   // it waits for the reader
	Counts  bool   // it acts already: not competent, and signed by the observer
	Failed  bool   // it was not competent
}

// A Signature is one person's statement on a record.
type Signature struct {
	Name    string
	As      string // observer, learner, reviewer, proposer …
	Meaning string // "I observed and judged this."
	At      string // "18 Nov 2026, 15:42 MST"
}
