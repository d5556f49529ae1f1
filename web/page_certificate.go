package web

// CertificatePage shows an issued certificate. GET /certificates/{number}.
type CertificatePage struct {
	Frame
	Number   string
	Code     string // check code
	Who      string
	WhoHref  string
	Skill    string
	Client   string // empty for a general skill
	Revision int
	Shown    string // "3 return demonstrations, all competent, on 3 days: …"
	Scores   string
	From     string
	Through  string // as printed
	As       string // last day as it stands today, where that is another; else empty
	Renew    string // first day it can be renewed; empty = any time
	Signed   []Signature
	Holds    bool   // on the day the page is drawn
	Today    string // that day
	Since    string // day it ceased to hold
	Why      string // why it no longer holds: lapsed, withdrawn …
	PDF      string
	SHA256   string // of the issued bytes
	Check    string // public page that answers for its code
	Records  []Link // the demonstrations behind it
	Proof    string // page of what the ledger has of it
}

// Shape is the shape beside the answer.
func (p CertificatePage) Shape() string {
	if p.Holds {
		return "met"
	}
	return "lapsed"
}

// CheckPage answers anybody who holds a certificate whether it still holds.
// GET /check and /check/{code}. It shows no more than the paper does.
type CheckPage struct {
	Frame
	Faults     Faults
	FileFaults Faults // of the file that was sent
	Typed      string // code as typed
	Answer     string // empty = not asked; holds, ended, erased, unknown
	Today      string
	Issuer     string // who issued it
	Who        string
	Skill      string
	ForChild   bool // held for one child; which one is not told
	Number     string
	From       string
	Through    string // as printed
	As         string // last day as it stands today, where that is another; else empty
	Since      string // day it ceased to hold
	Why        string // lapsed, withdrawn, replaced
	SHA256     string
}
