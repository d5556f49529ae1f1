package web

// PeoplePage lists people. GET /people?find=&kind=&role=&after=.
type PeoplePage struct {
	Frame
	Import   string // where lists are brought in; empty = not for this reader
	Find     string
	Kind     string
	Role     string
	Kinds    []Option // first one: any kind
	Roles    []Option // first one: any role
	Filtered bool     // a filter is set
	All      int      // people that fit; 0 = not counted
	Trouble  int      // of them, with a required skill lapsed or withdrawn
	People   []PersonLine
	Pager    Pager
	New      string // where a person is added; empty = not for this reader
	Tokens   bool   // the reader makes tokens of programs
}

// A PersonLine is a person in a list.
type PersonLine struct {
	Name     string
	Href     string
	Kind     string // nurse, aide, mother …
	Roles    string // "caregiver, educator"
	Left     bool   // no longer active
	Standing string // the worst of their required standings today; empty = none required
	Current  int    // required skills current today, due ones included
	Required int    // required skills
}

// PersonFormPage adds or changes a person. GET /people/new, POST /people;
// GET and POST /people/{id}/edit.
type PersonFormPage struct {
	Frame
	Faults    Faults
	New       bool
	Action    string
	ID        string   // id that the new record will have: sent twice, kept once
	Version   string   // of the person that is changed, as they were read
	Was       []Hidden // what was read of them, so that what changes in the meantime can be told
	Changed   bool     // somebody has changed them since
	Changes   []Change // by that
	Name      string
	Email     string
	Kind      string   // of caregiver; empty = none
	Kinds     []Option // the first is none
	Relation  string   // to the child, such as mother
	Speaks    string   // en or es
	Languages []Option
	Roles     []Option // Chosen = has it
	Back      string   // where to go without saving
	// GivesRoles tells that this reader gives roles.
	GivesRoles bool
}

// Hidden is a field of a form that is not seen.
type Hidden struct{ Name, Value string }
