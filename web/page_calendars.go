package web

// CalendarsPage is one's private calendars. GET /account/calendars; what makes one shows
// its address once.
type CalendarsPage struct {
	Frame
	Address   string // just made; empty = none
	Calendars []CalendarLine
}

// A CalendarLine is one calendar that one has or may have.
type CalendarLine struct {
	Name string
	What string // what is in it
	Made string // when; empty = there is none
	Make string // where POST makes one
	End  string // where POST ends it; empty = there is none
	CSRF string
}

// WithCSRF gives the forms the page's token, for forms drawn in a list.
func (l CalendarLine) WithCSRF(token string) CalendarLine {
	l.CSRF = token
	return l
}
