package web

// RemindersPage is what was sent, what failed and what will be sent. GET /reminders.
type RemindersPage struct {
	Frame
	Faults    Faults
	CanSend   bool // mail can leave here
	Off       bool // the agency has switched reminders off
	Failed    int
	Today     int    // letters that will be sent today
	Next      string // the next day on which something will be sent: "Friday 4 December, 07:00"; empty = none
	Sent      int
	Since     string
	Back      string
	State     string
	States    []Option
	To        string
	People    []Option
	Letters   []MailLine
	More      bool
	Coming    []ComingDay
	NoAddress []Link
	Rules     []string // in words
	RulesBy   string   // who set them and when; empty = nobody
	Set       RemindersForm
}

// A MailLine is one letter.
type MailLine struct {
	To    string
	Href  string
	Day   string
	Shape string
	State string
	Tells string // "2 due, 1 over"
	When  string // sent or failed at, next try at
	Why   string // what the server said
	Again string // where POST sends it again; empty = not now
	CSRF  string
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (l MailLine) WithCSRF(token string) MailLine {
	l.CSRF = token
	return l
}

// A ComingDay is what will be sent on a day.
type ComingDay struct {
	Day     string
	Letters []ComingLine
}

// A ComingLine is a letter that will be sent.
type ComingLine struct {
	To    string
	Href  string
	Tells string
}

// RemindersForm sets what people are reminded of. POST /reminders/settings.
type RemindersForm struct {
	Action    string // empty = not for this reader
	Faults    Faults
	On        string // yes or empty
	At        string
	Opens     string
	Days      string
	Lapsed    string
	Unplanned string
	Rostered  string
}

// Refused is the form of the page that was refused.
func (p RemindersPage) Refused() Link { return refusedIn(p.Set.Faults.In("set")) }
