package web

// ClientsPage lists the children. GET /clients?find=.
type ClientsPage struct {
	Frame
	Find      string
	GoingHome int // with a plan that is not yet ready
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
	Left      int // criteria not met
	All       int // criteria of the plan; 0 = no plan yet
	Team      int // people on the care team
}

// ClientFormPage adds or changes a child. GET /clients/new, POST /clients;
// GET and POST /clients/{id}/edit.
type ClientFormPage struct {
	Frame
	Faults   Faults
	New      bool
	Action   string
	ID       string // id that the new record will have
	Code     string
	Name     string // first name only
	GoesHome string // planned day of going home, ISO; may be empty
	Back     string
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
	Value      string // as typed: a number or words
	Unit       string
	Units      []Option
	From       string // ISO day from which it holds
	Source     string // order or maker, in words
	Was        string // the value that holds now; empty = none
	Back       string
}

// EquipmentFormPage adds a device. GET /clients/{id}/equipment/new,
// POST /clients/{id}/equipment.
type EquipmentFormPage struct {
	Frame
	Faults    Faults
	Action    string
	ID        string
	Client    string
	Kind      string
	Kinds     []Option
	Detail    string // generic words: "single limb, leak port, heated"
	Backup    bool
	Delivered string // ISO
	Checked   string // ISO
	Back      string
}
