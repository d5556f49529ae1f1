package web

// RequirementsPage says who must hold what. GET /requirements?skill=.
type RequirementsPage struct {
	Frame
	Faults Faults
	Find   string
	Lines  []RequirementLine
	MayAdd bool
	ID     string // id that the new record will have
	Skill  string
	Skills []Option
	Kind   string // of caregiver; empty = everybody
	Kinds  []Option
	Client string // id; empty = any
	// Clients and Devices start with an empty option.
	Clients []Option
	Device  string // kind of equipment; field equipment_kind
	Devices []Option
	From    string // ISO
	Through string // ISO; may be empty
	Today   string // ISO, for ending something today
	Preview Preview
	Of      string // which requirement the preview is of ending; empty: of the one to be added
}

// A RequirementLine is one requirement in force.
type RequirementLine struct {
	Skill   string
	Who     string // "each nurse", "each carer of Mira, 7K", "wherever a heated humidifier is used"
	From    string
	Through string // last day; empty = until further notice
	ID      string
	Later   bool   // its first day is still to come
	End     string // where POST ends it; empty = not for this reader
}

// AppointmentsPage says who may observe what. GET /appointments.
type AppointmentsPage struct {
	Frame
	Faults Faults
	Agreed []AppointmentLine
	// Observers counts the people of Agreed.
	Observers int
	Proposed  []AppointmentLine // wait for a second person
	Ended     []AppointmentLine
	MayAdd    bool
	ID        string
	Observer  string // id of who is proposed
	People    []Option
	Skills    []Option // ticked
	Founding  bool     // stands in for their own competency: how the first observers come to be
	Evidence  string
	From      string // ISO
	Through   string // ISO
}

// An AppointmentLine is one appointment of an observer.
type AppointmentLine struct {
	ID       string
	Name     string
	Href     string
	Skills   string // "suctioning, tube change"
	Licence  string // what is on file; empty = none
	Founding bool
	Evidence string
	From     string
	Through  string
	Signed   []Signature
	Agree    string // where POST agrees; empty = not for this reader
	MayNot   string // why the reader cannot agree: "You proposed it."
	End      string // where POST ends it; empty = not for this reader
	Ended    string // when and why it ended; empty while it stands
	Faults   Faults // of its agreement or ending
	Reason   string // for ending, as typed
	CSRF     string // set by WithCSRF
}

// WithCSRF gives the line the page's token, for forms drawn in a list.
func (l AppointmentLine) WithCSRF(token string) AppointmentLine {
	l.CSRF = token
	return l
}
