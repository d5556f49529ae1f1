package web

// PersonPage is all that is known of one person on one day.
// GET /people/{id}?on=.
type PersonPage struct {
	Frame
	ID    string
	Name  string
	Kind  string
	Roles string
	Email string // empty = not for this reader
	Left  bool   // no longer active
	On    string // the day, ISO
	Day   string // the day, in words
	Today bool   // the day is today
	Edit  string // empty = not for this reader
	// Counts of the standings below.
	Lapsed  int // lapsed or withdrawn
	Due     int
	Current int // due ones included

	Standings    []SkillStanding
	Licences     []Paper
	Cards        []Paper
	Appointments []Paper
	History      []Event // newest first
	Transcript   string  // PDF

	May       PersonActs
	Withdraw  WithdrawForm
	Waive     WaiveForm
	Reinstate ReinstateForm
	Paper     PaperForm
}

// PersonActs says which forms this reader may see.
type PersonActs struct {
	Withdraw bool
	Waive    bool
	Papers   bool // add licences and cards
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
	What   string // "Return demonstration of suctioning: competent"
	Detail string // "seen by Noor Haddadin; for Mira, 7K"
	Href   string // its record; empty = none
}

// WithdrawForm takes a competency away. POST /people/{id}/withdrawals.
type WithdrawForm struct {
	Faults Faults
	ID     string   // id that the new record will have
	Skill  string   // chosen
	Skills []Option // those held or in question
	Until  string   // redemonstrated or reinstated
	Reason string
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

// PaperForm adds a licence or a card. POST /people/{id}/papers.
type PaperForm struct {
	Faults  Faults
	ID      string
	Kind    string
	Kinds   []Option
	Number  string
	Issuer  string // who issued it: a state board, a course
	From    string // ISO
	Through string // ISO
}
