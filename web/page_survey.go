package web

// AccessPage lists which surveyors were let in and lets one in. GET and POST
// /survey-access.
type AccessPage struct {
	Frame
	Faults     Faults
	LetIn      int          // surveyors in Open
	Open       []AccessLine // now or still to begin
	Past       []AccessLine
	Surveyors  []Option
	Chosen     string // of Surveyors
	People     []Option
	PeopleOpen bool // some of them are chosen
	Clients    []Option
	Whole      bool
	Reason     string
	From       string // ISO day
	Through    string // ISO day
	Longest    int    // days
}

// An AccessLine is one access of one surveyor.
type AccessLine struct {
	Who    string
	What   string // "the whole agency"; empty: those of Named
	Named  []Link // without an address where the reader has no page for it
	Times  string // from when until when
	Reason string
	Given  string // by whom and when
	Ended  string // by whom and when, early; empty: nobody ended it
	Now    bool   // open now
	End    string // where its form goes; empty: it is over, or not the reader's to end
	CSRF   string // set by WithCSRF
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (l AccessLine) WithCSRF(token string) AccessLine {
	l.CSRF = token
	return l
}

// SurveyAccessPage tells a surveyor what they may look at. GET /survey/access.
type SurveyAccessPage struct {
	Frame
	Surveyor bool   // the reader is one
	Wait     string // why nothing is open; empty: something is
	Open     []AccessLine
	Past     []AccessLine // also what has not begun
}
