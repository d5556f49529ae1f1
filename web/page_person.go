package web

import "wellshown/assessment/wording"

// PersonPage is all that is known of one person on one day.
// GET /people/{id}?on=.
type PersonPage struct {
	Frame
	ID    string
	Name  string
	Kind  string
	Roles string
	Email string // empty = not for this reader
	Left  bool   // no longer active on the day
	// LeavesOn is the first day on which they are no longer there; empty = none.
	LeavesOn string
	On       string // the day, ISO
	Day      string // the day, in words
	Today    bool   // the day is today
	Edit     string // empty = not for this reader
	// Counts of the standings below.
	Lapsed  int // lapsed or withdrawn
	Due     int
	Current int // due ones included
	NotYet  int // required and not held: not started, learning or waived

	Part bool // what is held for other children is left out

	// MaySeeRules tells that this reader may see who must hold what.
	MaySeeRules bool

	CannotSign string // and whose turn it is to vouch; empty = they can, or it is not for this reader
	NoRole     string // that they have no role, so that they cannot sign in; empty: they have, or it is not for this reader
	NoLink     string // why no link can be made for them; empty = one can, or it is not for this reader

	Coming []CoverLine // shifts of the next 14 days

	CarriedIn []CarriedLine // by old papers; no standing comes of it

	Standings    []SkillStanding
	Licences     []Paper
	Cards        []Paper
	Appointments []Paper
	Hours        []InServiceLine   // of an aide, where the agency counts them: one at most
	Supervised   []SupervisionLine // of an aide, where the agency keeps it
	Incidents    []IncidentLine
	Drill        string       // where a drill of them begins; empty = not for this reader
	NewIncident  string       // where one is recorded; empty = not for this reader
	Devices      []DeviceLine // at the bedside, for whoever may revoke them
	History      []Event      // newest first
	Transcript   string       // PDF
	Handover     string       // how to take it along; empty: not for this reader
	Packet       string       // where a surveyor's packet about them is asked for; empty = not for this reader

	May       PersonActs
	Invites   bool // a link would be their first
	Withdraw  WithdrawForm
	Waive     WaiveForm
	Reinstate ReinstateForm
	Undo      TakeBackForm // what was written down by mistake
	UndoPaper TakeBackForm // papers put on file by mistake
	Licence   LicenceForm
	Card      CardForm
	Log       LogForm
	Leave     LeaveForm
	Vouch     VouchForm
	Codes     CodesForm
}

// PersonActs says which forms this reader may see.
type PersonActs struct {
	Withdraw  bool
	Waive     bool
	Reinstate bool
	Papers    bool // add licences and cards
	Correct   bool // take back what was written down
	Log       bool // write down teaching and practice
	Leave     bool // say that the person leaves
	Link      bool // make a link to choose a password by
}

// A Paper is a licence, a resuscitation card or an appointment.
type Paper struct {
	Kind    string // "Registered nurse licence"
	Detail  string // number, state, what it covers
	From    string
	Through string // empty = no end
	Holds   bool   // on the page's day
}

// An Event is one line of a history.
type Event struct {
	Day    string
	What   string          // "Return demonstration of suctioning: competent"
	Detail []wording.Piece // "seen by Noor Haddadin; for Mira, 7K", and what somebody typed
	Href   string          // its record; empty = none
}

// WithdrawForm takes a competency away. POST /people/{id}/withdrawals.
type WithdrawForm struct {
	Faults  Faults
	ID      string   // id that the new record will have
	Skill   string   // chosen
	Skills  []Option // those held or in question; a value may name skill and child
	Until   string   // redemonstrated or reinstated
	Related bool     // related skills too
	Reason  string
	Preview Preview
}

// WaiveForm waives a requirement for a time. POST /people/{id}/waivers.
type WaiveForm struct {
	Faults  Faults
	ID      string
	Skill   string
	Skills  []Option
	From    string // ISO
	Through string // ISO
	Reason  string
}

// ReinstateForm lifts a withdrawal. POST /people/{id}/reinstatements.
type ReinstateForm struct {
	Faults      Faults
	ID          string
	Withdrawal  string   // chosen
	Withdrawals []Option // those that stand; none = the form is not shown
	Reason      string
}

// TakeBackForm takes back what was put down by mistake. POST
// /people/{id}/taking-back or /people/{id}/papers/taking-back.
type TakeBackForm struct {
	Faults  Faults
	Name    string // of the form on its page
	Action  string
	Title   string
	What    string   // chosen: kind and id
	Choices []Option // none = the form is not shown
	Reason  string
	CSRF    string
	PIN     bool // the PIN of whoever is signed in is enough
}

// In is the form with what it takes from the page's frame.
func (f TakeBackForm) In(frame Frame) TakeBackForm {
	f.CSRF, f.PIN = frame.CSRF, frame.PIN
	return f
}

// LicenceForm puts a licence on file. POST /people/{id}/papers, paper=licence.
type LicenceForm struct {
	Faults  Faults
	Kind    string // such as RN
	Number  string
	Through string // ISO; empty = it does not end
}

// CardForm puts a resuscitation card on file. POST /people/{id}/papers,
// paper=card. One of the days must be given.
type CardForm struct {
	Faults     Faults
	Issuer     string
	IssuedOn   string // ISO
	CourseOn   string // ISO
	PrintedEnd string // as printed, such as 06/2027
}

// LogForm writes down teaching or practice. POST /people/{id}/log.
type LogForm struct {
	Faults Faults
	Skill  string
	Skills []Option
	Kind   string // teaching or practice
	On     string // ISO
	Note   string
}

// LeaveForm says that a person leaves. POST /people/{id}/leaving.
type LeaveForm struct {
	Faults Faults
	On     string // ISO, first day on which they are no longer there

	Preview Preview
}
