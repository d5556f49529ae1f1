package web

// HandoverPage tells a caregiver how to take their proof along. GET /people/{id}/handover.
type HandoverPage struct {
	Frame
	Name       string
	Own        bool   // the reader's own
	File       string // the signed file
	Transcript string // PDF
	CheckAt    string // where the file is checked
	Back       string
}

// HandoverCheckPage answers anybody who holds a signed file of somebody's proof. POST /check.
// Of a file that was changed it shows nothing that it says.
type HandoverCheckPage struct {
	Frame
	Answer      string // another, changed, here, known, ended, unknown
	Changed     []string
	Fingerprint string
	SHA256      string
	Knows       []string // who knows the key, as which agency
	Of          string   // the agency it is of
	Who         string
	Day         string
	Made        string
	Invented    bool // the agency is
	Gone        bool
	Erased      bool
	Later       []string // days of withdrawals since
	Held        []HandoverLine
	Entries     []HandoverLine
}

// Shape is the shape beside the answer.
func (p HandoverCheckPage) Shape() string {
	switch p.Answer {
	case "here", "known":
		return "met"
	case "changed", "another":
		return "lapsed"
	}
	return "open"
}

// A HandoverLine is one thing that a file says.
type HandoverLine struct {
	Number int
	Title  string
	Says   string
	By     string
	Signed []string
	Taken  string
	Since  string // what became of it in the house that signed it
}

// NeighboursPage lists agencies elsewhere whose files are known by their key. GET /neighbours.
type NeighboursPage struct {
	Frame
	Faults      Faults
	Here        string // our agency's name
	Line        string // ours, for the other agency
	Fingerprint string
	MayEnter    bool
	Name        string // as typed
	Typed       string // line as typed
	Known       []NeighbourLine
	Waiting     []NeighbourLine
	Ended       []NeighbourLine
}

// A NeighbourLine is one of them.
type NeighbourLine struct {
	ID          string
	Name        string
	Fingerprint string
	Signed      []string
	Agree       string // where the form goes; empty: not for this reader
	MayNot      string
	End         string
	Reason      string // as typed
	Ended       string
	Faults      Faults
	CSRF        string
}

// WithCSRF is the line with the session's word.
func (l NeighbourLine) WithCSRF(csrf string) NeighbourLine {
	l.CSRF = csrf
	return l
}
