package web

// LinkPage lets whoever holds a link choose a password. GET and POST /link/{token}.
type LinkPage struct {
	Frame
	Faults     Faults
	Dead       string // why the link cannot be used; empty: it can
	GivenBack  bool   // it was just said that it is for somebody else
	NotMine    string // where POST says so
	Of         string // name of the agency
	Name       string
	Email      string // what they will sign in with
	First      bool   // they have no password yet
	HasCode    bool   // they have one-time codes, and can show one
	Action     string
	LeastChars int
}

// LinkMadePage shows a link this once. POST /people/{id}/link.
type LinkMadePage struct {
	Frame
	Name    string
	Invites bool
	URL     string
	Until   string // "18 Nov 2026, 15:42 MST"
	Back    string
	Sheet   InvitationSheet // to hand over on paper
}

// InvitationSheet is what whoever is invited takes along, in their language.
type InvitationSheet struct {
	Language string
	Dir      string
	Title    string
	Lead     string
	Square   *Square // the link, for the camera of a phone
	Steps    []string
	Cautions []string
}

// AccountPage is one's own account. GET /account.
type AccountPage struct {
	Frame
	Email      string
	Faults     Faults // of a session to be ended
	Waits      string // why one cannot sign yet; empty: one can
	Reads      LanguageForm
	Links      []LinkLine
	SigningPIN PINForm
	Sessions   []SessionLine
	Others     bool // there are more sessions than this one
	Devices    []DeviceLine
	Events     []EventLine
}

// A LinkLine is a link by which somebody came to a password, or might have.
type LinkLine struct {
	What string // "Invitation, made by Ada Minton on 18 Nov 2026, 15:42 MST"
	Then string // what became of it
	Held bool   // it was used
}

// LanguageForm chooses the language of pages and letters. POST /account/language.
type LanguageForm struct {
	Faults Faults
	Chosen string
	All    []Option // by what each calls itself
}

// PINForm sets a PIN for signing. POST /account/pin.
type PINForm struct {
	Faults Faults
	May    bool // who signs nothing needs none
	Set    string
	Shut   string // since when it is shut; empty: it is not
}

// A SessionLine is a place where one is signed in.
type SessionLine struct {
	Handle string
	Device string
	Opened string
	Used   string
	This   bool
}

// A DeviceLine is a device that fills in sheets at the bedside.
type DeviceLine struct {
	Name     string
	Enrolled string
	Used     string // empty: never
	Revoked  string // when and by whom; empty: it is not
	Revoke   string // where its form goes; empty: it is revoked
	CSRF     string // set by WithCSRF
}

// WithCSRF gives the form the page's token, for forms drawn in a list.
func (d DeviceLine) WithCSRF(token string) DeviceLine {
	d.CSRF = token
	return d
}

// An EventLine is something that happened to the account.
type EventLine struct {
	At   string
	What string
	By   string // name; empty: nobody who was signed in
	Own  bool
	New  bool // not read yet
}

// CodesForm turns off the one-time codes of somebody who has lost them. POST
// /people/{id}/codes/end.
type CodesForm struct {
	Faults Faults
	May    bool
}

// VouchForm says of somebody that it is them. POST /people/{id}/vouching.
type VouchForm struct {
	Faults Faults
	May    bool
	Waits  string // why they cannot sign yet; empty: they can
	Links  []LinkLine
}
