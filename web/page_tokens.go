package web

// TokensPage lists the tokens of programs and makes them. GET and POST /tokens.
type TokensPage struct {
	Frame
	Faults  Faults
	Working []TokenLine
	Ended   []TokenLine
	Name    string // as typed, for a new one
	Acts    []Option
	Reading bool
	Days    string
}

// A TokenLine is one token.
type TokenLine struct {
	Name   string
	Acts   string // "read people, read standings"
	Made   string // by whom and when
	Until  string
	Used   string // empty = never
	Ended  string // why and since when it does not work; empty = it works
	Revoke string // where its form goes; empty = it is revoked
	CSRF   string // set by WithCSRF
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (l TokenLine) WithCSRF(token string) TokenLine {
	l.CSRF = token
	return l
}

// TokenMadePage shows a token once. POST /tokens.
type TokenMadePage struct {
	Frame
	Name   string
	Secret string
	Acts   string
	Until  string
}
