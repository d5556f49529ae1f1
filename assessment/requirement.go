package assessment

import (
	"slices"

	"wellshown/assessment/civil"
)

// Requirement says who must hold a skill: caregivers of a kind, those of one
// client, those of clients with a type of equipment; an empty field is no
// condition. It counts from its first day through its last.
type Requirement struct {
	ID            RequirementID
	Skill         string        // code
	Kind          CaregiverKind // empty: every kind
	Client        ClientID      // empty: every client
	EquipmentKind string        // such as "humidifier"; empty: whatever the client has
	From          civil.Date
	Through       civil.Date // zero: until further notice
}

// OnTeam says that a caregiver looks after a client from a day through a day.
type OnTeam struct {
	Person  PersonID
	Client  ClientID
	From    civil.Date
	Through civil.Date // zero: until further notice
}

// Need is one thing a caregiver must hold: a skill and, where the skill is
// client-specific, the client it must be held for.
type Need struct {
	Skill  string
	Client ClientID // empty for general skills
}

// within reports whether a span of days holds d; a zero end is open.
func within(d, from, through civil.Date) bool {
	return !d.Before(from) && (through.IsZero() || !d.After(through))
}

// Cared is what a requirement looks at in a client.
type Cared struct {
	ID        ClientID
	Equipment []string // kinds the client has on the day
}

// Needed lists what a caregiver of a kind must hold on a day for the clients
// they look after then. Scope tells which skills are held per client.
func Needed(on civil.Date, kind CaregiverKind, clients []Cared, requirements []Requirement, scope func(skill string) Scope) []Need {
	var needs []Need
	for _, c := range clients {
		for _, r := range requirements {
			if !r.asks(on, kind, c) {
				continue
			}
			n := Need{Skill: r.Skill}
			if scope(r.Skill) == ClientSpecific {
				n.Client = c.ID
			}
			if !slices.Contains(needs, n) {
				needs = append(needs, n)
			}
		}
	}
	return needs
}

func (r Requirement) asks(on civil.Date, kind CaregiverKind, c Cared) bool {
	return within(on, r.From, r.Through) &&
		(r.Kind == "" || r.Kind == kind) &&
		(r.Client == "" || r.Client == c.ID) &&
		(r.EquipmentKind == "" || slices.Contains(c.Equipment, r.EquipmentKind))
}

// CoversOn reports whether the caregiver is on the team on a day.
func (t OnTeam) CoversOn(d civil.Date) bool { return within(d, t.From, t.Through) }
