package intake

import "wellshown/assessment/fault"

// Kind says what a list is of.
type Kind string

// The kinds of lists.
const (
	People    Kind = "people"
	Clients   Kind = "clients"
	Shifts    Kind = "shifts"
	CarriedIn Kind = "carried-in" // competencies shown elsewhere before
)

// Kinds lists them in the order in which an agency brings them: who is named by a later
// list comes with an earlier one.
var Kinds = []Kind{People, Clients, Shifts, CarriedIn}

// ParseKind reads a kind.
func ParseKind(s string) (Kind, error) {
	for _, k := range Kinds {
		if string(k) == s {
			return k, nil
		}
	}
	return "", fault.Of(fault.NotFound, "There is no such list.")
}

// Column is one column of a list.
type Column struct {
	Name    string   // as it stands in a template's first row
	Also    []string // what else is understood
	Needed  bool     // the column must be there, and each row must have something in it
	Says    string   // what to write
	Example []string // one for each example row of the template
}

// Columns are those of a kind, in the order of its template.
func Columns(k Kind) []Column {
	switch k {
	case People:
		return peopleColumns
	case Clients:
		return clientColumns
	case Shifts:
		return shiftColumns
	case CarriedIn:
		return carriedColumns
	}
	return nil
}

var (
	peopleColumns = []Column{
		{"name", []string{"full name", "person", "caregiver"}, true, "the whole name as it is to be printed", []string{"Sample Nurse", "Sample Parent"}},
		{"kind", []string{"caregiver kind", "kind of caregiver"}, true, "nurse, aide or family", []string{"nurse", "family"}},
		{"relation", []string{"relation to the child"}, false, "of family: what they are to the child, such as mother", []string{"", "mother"}},
		{"e-mail", []string{"email", "mail", "e-mail address", "email address"}, false, "the address by which they sign in; empty: they do not", []string{"sample.nurse@agency.example", ""}},
		{"language", nil, false, "en or es; empty: en", []string{"en", "es"}},
	}
	clientColumns = []Column{
		{"code", []string{"client", "client code", "child", "child code"}, true, "a short code of capital letters, digits and hyphens, such as 7K", []string{"SAMPLE-1", "SAMPLE-2"}},
		{"first name", []string{"name", "given name"}, true, "the first name alone", []string{"Sample", "Example"}},
		{"start", []string{"starts", "start date", "since", "from"}, false, "the first day on which the agency looks after them, as YYYY-MM-DD; empty: not said", []string{"2026-09-01", ""}},
	}
	shiftColumns = []Column{
		{"client", []string{"client code", "code", "child", "child code"}, true, "the child's code", []string{"SAMPLE-1", "SAMPLE-1"}},
		{"caregiver", []string{"person", "name", "nurse", "e-mail", "email"}, false, "name or e-mail address of who is on it; empty: nobody is yet", []string{"Sample Nurse", ""}},
		{"starts", []string{"start", "begins", "from"}, true, "day and time on the agency's clocks, as YYYY-MM-DD HH:MM", []string{"2026-12-01 19:00", "2026-12-02 07:00"}},
		{"ends", []string{"end", "until", "to"}, true, "day and time, as YYYY-MM-DD HH:MM; a night ends on the next day", []string{"2026-12-02 07:00", "2026-12-02 19:00"}},
		{"kind", []string{"caregiver kind", "asks for"}, false, "nurse, aide or family, where the shift asks for one; empty: any", []string{"nurse", ""}},
	}
	carriedColumns = []Column{
		{"person", []string{"name", "caregiver", "e-mail", "email"}, true, "name or e-mail address of whoever is said to have shown it", []string{"Sample Nurse", "Sample Nurse"}},
		{"skill", []string{"competency", "skill code"}, true, "the skill's code or title, as it stands under Checklists", []string{"suctioning", "circuit-change"}},
		{"client", []string{"client code", "child", "child code"}, false, "the child's code, of a skill that is held for each child", []string{"", "SAMPLE-1"}},
		{"observed on", []string{"observed", "shown on", "date"}, true, "the day on which it was shown, as YYYY-MM-DD", []string{"2026-03-04", "2026-03-04"}},
		{"valid through", []string{"through", "expires", "valid until"}, false, "the last day by the old paper, as YYYY-MM-DD; empty: it says none", []string{"2027-03-04", ""}},
		{"signed by", []string{"signer", "observer", "evaluator"}, true, "who signed the old paper", []string{"A. Sample, RN", "A. Sample, RN"}},
		{"where", []string{"place", "agency"}, true, "where it was shown, such as the name of the agency or hospital", []string{"Example Home Nursing", "Example Home Nursing"}},
	}
)
