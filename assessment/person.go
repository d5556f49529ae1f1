package assessment

import "wellshown/assessment/fault"

// Role is what somebody does in an agency. A person has none or several.
type Role string

// The roles.
const (
	Administrator Role = "administrator"
	Educator      Role = "educator"
	Coordinator   Role = "coordinator"
	Caregiver     Role = "caregiver"
	Surveyor      Role = "surveyor"
)

// Roles lists all roles.
var Roles = []Role{Administrator, Educator, Coordinator, Caregiver, Surveyor}

// ParseRole reads one of the five roles.
func ParseRole(s string) (Role, error) {
	for _, r := range Roles {
		if string(r) == s {
			return r, nil
		}
	}
	return "", fault.Of(fault.Invalid, "%q is not a role: it is administrator, educator, coordinator, caregiver or surveyor", s)
}

// CaregiverKind says what sort of caregiver somebody is; requirements go by it.
type CaregiverKind string

// The kinds of caregiver. The empty kind is nobody's caregiver.
const (
	Family CaregiverKind = "family"
	Nurse  CaregiverKind = "nurse"
	Aide   CaregiverKind = "aide"
)

// CaregiverKinds lists the kinds.
var CaregiverKinds = []CaregiverKind{Family, Nurse, Aide}

// ParseCaregiverKind reads a kind; empty text is no caregiver.
func ParseCaregiverKind(s string) (CaregiverKind, error) {
	switch k := CaregiverKind(s); k {
	case "", Family, Nurse, Aide:
		return k, nil
	}
	return "", fault.Of(fault.Invalid, "%q is not a kind of caregiver: it is family, nurse or aide", s)
}

// Actor is whoever is acting, with the roles held at that moment.
type Actor struct {
	Agency AgencyID
	Person PersonID
	Name   string
	Roles  []Role
	// Session names the session they act in; empty for a program or a command. It
	// tells one session from another and opens none.
	Session string
	// Program is set where a program acts by a token. Person and Name are then those
	// of whoever made the token.
	Program *Program
	// Survey is what they may look at as a surveyor now; nil: they are none.
	Survey *Survey
}

// Is reports whether the actor has a role.
func (a Actor) Is(r Role) bool {
	for _, held := range a.Roles {
		if held == r {
			return true
		}
	}
	return false
}
