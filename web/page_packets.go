package web

// PacketsPage asks for a surveyor's packet and lists those that were asked for.
// GET /packets?kind=&person=&skill=&client=&shift=&on=.
type PacketsPage struct {
	Frame
	Faults  Faults
	Kind    string // whose form the faults belong to: incident, person, child, period
	Whose   string
	People  []Option
	Skill   string
	Skills  []Option
	Client  string
	Clients []Option
	Shift   string // of an incident on a shift; empty = on a day
	On      string // ISO
	From    string
	Through string
	Today   string
	Whole   bool              // may ask for the whole agency
	IDs     map[string]string // for each form, so that sent twice it asks once
	Asked   []PacketLine
	Days    int // for how many days a packet is kept
}

// A PacketLine is one packet that was asked for.
type PacketLine struct {
	About string // "Ruth Adeyemi in Tracheostomy suctioning for Mira, 7K"
	Night string // "3 Mar 2026"
	Href  string
	Asked string // by whom and when
	State string // in words
	Shape string
}

// PacketPage is how far a packet is, and its files. GET /packets/:id.
type PacketPage struct {
	Frame
	PacketLine
	Ready   bool
	Refused string // why it cannot be made
	Over    bool   // nothing more becomes of it
	Doing   string // what is being done now
	Done    int
	Total   int // 0 = not known yet
	Pages   string
	Gone    string // until when it is kept
	Sum     string // SHA-256 of the data
	PDF     string
	Data    string
	Both    string
	Again   string // where to ask again
}
