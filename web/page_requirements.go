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
	By     string // kind, client or equipment
	Kind   string
	Kinds  []Option
	Client string
	// Clients and Devices start with an empty option.
	Clients []Option
	Device  string
	Devices []Option
	From    string // ISO
}

// A RequirementLine is one requirement in force.
type RequirementLine struct {
	Skill string
	Who   string // "each nurse", "each carer of Mira, 7K", "wherever a heated humidifier is used"
	From  string
	By    string // who set it
	End   string // where POST ends it; empty = not for this reader
}

// AppointmentsPage says who may observe what. GET /appointments.
type AppointmentsPage struct {
	Frame
	Faults   Faults
	Agreed   []AppointmentLine
	Proposed []AppointmentLine // wait for a second person
	Ended    []AppointmentLine
	MayAdd   bool
	ID       string
	Observer string // id of who is proposed
	People   []Option
	Skills   []Option // ticked
	Licence  string
	Evidence string
	From     string // ISO
	Through  string // ISO
}

// An AppointmentLine is one appointment of an observer.
type AppointmentLine struct {
	ID       string
	Name     string
	Href     string
	Skills   string // "suctioning, tube change"
	Licence  string
	Evidence string
	From     string
	Through  string
	Signed   []Signature
	Agree    string // where POST agrees; empty = not for this reader
	MayNot   string // why the reader cannot agree: "You proposed it."
	End      string // where POST ends it; empty = not for this reader
	Faults   Faults // of its agreement
}
