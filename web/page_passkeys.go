package web

// PasskeysPage lists one's own passkeys. GET /account/passkeys.
type PasskeysPage struct {
	Frame
	Faults Faults
	WhyNot string // why there can be none; empty = there can
	Keys   []Passkey
	Name   string // as typed, for a new one
}

// A Passkey is one line of the list.
type Passkey struct {
	ID      string
	Name    string
	Added   string
	Used    string // empty = never
	Doubted string // since when it is not accepted; empty = it is
	Remove  string // where its form goes
	Faults  Faults
	CSRF    string // set by WithCSRF
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (k Passkey) WithCSRF(token string) Passkey {
	k.CSRF = token
	return k
}

// PasskeyPage has the browser use or make a passkey; its script sends the answer to
// where the form goes. POST /account/passkeys, GET /sign-in/passkey, and every form
// that is to be signed with a passkey.
type PasskeyPage struct {
	Frame
	Title   string
	Says    string // what is signed; empty = nothing
	SaysIn  string // BCP 47 tag of that, where it is not the page's
	Signer  string // who signs, with the licence that the signature stands with; empty = nothing is signed
	Now     string // when it would be signed: "18 Nov 2026, 15:42 MST"
	Make    bool   // a new one
	Action  string
	Fields  []Hidden // what was typed already, sent along
	Options string   // for the browser, JSON
	Button  string
	Back    string // where to go without one; empty = to the form, as it was filled in
	BackTo  string // words of that act
}

// CodesPage is how one's own one-time codes stand. GET /account/codes.
type CodesPage struct {
	Frame
	Faults     Faults // of setting up
	Renew, Off Faults // of the two forms while On
	CanBeSetUp bool
	On         bool
	Since      string
	Left       int // recovery codes
}

// NewCodesPage shows a secret for an app once and asks for its first code. POST
// /account/codes and /account/codes/confirmation.
type NewCodesPage struct {
	Frame
	Faults Faults
	Square *Square // none after a wrong first code: the app has it already
	Secret string  // in groups of four
}

// Square is a QR code, drawn by the browser from one path.
type Square struct {
	Side int // in modules, with the quiet zone
	Path string
}

// RecoveryPage shows recovery codes once. POST /account/codes/confirmation and
// /account/codes/recovery.
type RecoveryPage struct {
	Frame
	First bool // codes were turned on just now
	Codes []string
}

// SignInCodePage asks for a one-time code after the password. GET and POST
// /sign-in/code.
type SignInCodePage struct {
	Frame
	Faults Faults
	Next   string
}
