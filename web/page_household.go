package web

// HouseholdPage is a child's family, side by side: who can do what. GET
// /clients/{id}/household.
type HouseholdPage struct {
	Frame
	Client  string // first name
	Able    int    // of the family who can do all that is asked
	Enough  int    // how many it takes at least
	Members []HouseholdLine
	Skills  []HouseholdRow
	Back    string // the list for going home
}

// A HouseholdLine is one of the family.
type HouseholdLine struct {
	Name  string
	Mine  bool // the reader
	Holds int
	All   int
}

// A HouseholdRow is one skill with how each of the family stands in it.
type HouseholdRow struct {
	Title  string
	Enough bool // as many hold it as are needed
	Who    []HouseholdCell
}

// A HouseholdCell is how one of the family stands in a skill.
type HouseholdCell struct {
	Name string
	SkillStanding
}
