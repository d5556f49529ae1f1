package web

// SignInPage asks who is there. GET and POST /sign-in.
type SignInPage struct {
	Frame
	Faults    Faults
	AskAgency bool   // several agencies share this service: ask for the code
	Code      string // agency code as typed
	Email     string // as typed; the password is never sent back
	Next      string // where to go afterwards, a path of this site
}

// PasswordPage sets a new password. GET and POST /password.
type PasswordPage struct {
	Frame
	Faults     Faults
	First      bool   // the first one was set by somebody else and must be changed now
	Action     string // where the form goes
	Email      string // whose password; lets password managers file it
	LeastChars int    // least length that is accepted
}

// ErrorPage says what went wrong, why and what to do next.
type ErrorPage struct {
	Frame
	Kind      string // not found, forbidden, expired form, refused, too many, too much, elsewhere, fault
	Survey    bool   // the reader is a surveyor: there is a page on what they may look at
	Why       string // the refusal in words; empty for a fault of ours
	RequestID string // to quote when asking for help
	Back      string // a page that works: where the reader came from
}
