package web

// WaitingPage lists records that lack a signature, those first that most need one.
// GET /waiting?of=all&after=.
type WaitingPage struct {
	Frame
	Everybody bool // of the whole agency, else those that the reader has to sign
	All       int  // records that wait, on this page or not
	Records   []WaitingRecord
	Others    string // the page of everybody's; empty: this is it, or it is not the reader's
	First     bool   // this is the first page
	Next      string // the next page; empty on the last
	Start     string // the first page; empty on itself
	Proposals []ProposalLine
}
