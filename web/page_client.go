package web

// ClientPage is one child: numbers, equipment, team and needs.
// GET /clients/{id}.
type ClientPage struct {
	Frame
	ID         string
	Code       string
	Name       string // first name
	GoesHome   string // planned day, in words; empty = none
	Edit       string
	Readiness  string
	Ready      bool
	Left       int
	All        int // 0 = no plan yet
	Parameters []Parameter
	Missing    []string // parameters that a required skill needs and the child lacks
	Equipment  []Device
	Team       []Carer
	Needs      []Need
	MayChange  bool // this reader may add and end
	Join       JoinForm
}

// A Parameter is one of the child's own numbers.
type Parameter struct {
	Name   string // "Suction depth"
	Value  string // "11.5"
	Unit   string // "cm"
	Source string // "order of 3 Nov 2026"
	From   string
	Change string // where it is changed; empty = not for this reader
}

// A Device is a piece of equipment of the child.
type Device struct {
	Kind      string
	Detail    string
	Backup    bool
	Delivered string // empty = not yet
	Checked   string // empty = not yet
	Change    string
}

// A Carer is one person on the care team.
type Carer struct {
	Name     string
	Href     string
	Kind     string
	Standing string // the worst of what this child needs
	Current  int
	Required int
	End      string // where POST ends it; empty = not for this reader
}

// A Need is one thing that this child's carers must hold.
type Need struct {
	Skill string
	Who   string // "each nurse", "two of the family"
	Why   string // "by equipment: heated humidifier"
}

// JoinForm adds a person to the care team. POST /clients/{id}/team.
type JoinForm struct {
	Faults Faults
	ID     string
	Person string
	People []Option
	From   string // ISO
}
