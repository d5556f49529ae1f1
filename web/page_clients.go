package web

// ClientsPage lists the children. GET /clients?find=.
type ClientsPage struct {
	Frame
	Import    string // where lists are brought in; empty = not for this reader
	Find      string
	Own       bool // this reader sees only their own
	GoingHome int  // with a plan, and not yet called ready
	Clients   []ClientLine
	Pager     Pager
	New       string // empty = not for this reader
}

// A ClientLine is a child in a list: code and first name, nothing more.
type ClientLine struct {
	Code      string // "7K"
	Name      string // first name
	Href      string
	Readiness string // page
	Ready     bool
	Signed    bool // a clinician has signed that, and it stands
	Left      int  // criteria not met
	All       int  // criteria of the plan; 0 = no plan yet
	Team      int  // people on the care team
}

// ClientFormPage adds or changes a child. GET /clients/new, POST /clients;
// GET and POST /clients/{id}/edit.
type ClientFormPage struct {
	Frame
	Faults Faults
	New    bool
	Action string
	ID     string // id that the new record will have
	Code   string
	Name   string // first name only; field first_name
	Since  string // first day with the agency, ISO
	Back   string
}

// ParameterFormPage sets one of the child's numbers, from an order.
// GET /clients/{id}/parameters/new, POST /clients/{id}/parameters.
type ParameterFormPage struct {
	Frame
	Faults     Faults
	Action     string
	ID         string
	Client     string // "Mira, 7K"
	Parameter  string // chosen, such as suction_depth
	Parameters []Option
	Value      string // as typed, a number; either this
	Unit       string
	Units      []Option
	Words      string // or this: an order that is put in words
	Was        string // what holds now; empty = nothing
	Back       string
}

// EquipmentFormPage says which equipment the child has from a day on. GET /clients/{id}/equipment/new,
// POST /clients/{id}/equipment.
type EquipmentFormPage struct {
	Frame
	Faults Faults
	Action string
	ID     string
	Client string
	Kind   string
	Kinds  []Option
	Type   string // which one, in generic words; empty = none any more
	From   string // ISO
	Back   string

	Preview Preview
}
