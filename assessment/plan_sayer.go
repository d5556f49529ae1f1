package assessment

import (
	"slices"
	"strings"

	"wellshown/assessment/phrase"
)

// Sayer is who may say what is so about a line of a plan.
type Sayer string

// The sayers.
const (
	SaidByKeeper      Sayer = ""            // whoever keeps the plan
	SaidByClinician   Sayer = "clinician"   // whoever of them has a current licence on file
	SaidByEducator    Sayer = "educator"    // by role
	SaidByCoordinator Sayer = "coordinator" // by role
)

// Sayers lists them.
var Sayers = []Sayer{SaidByKeeper, SaidByClinician, SaidByEducator, SaidByCoordinator}

// Phrase names the sayer.
func (s Sayer) Phrase() phrase.Phrase {
	switch s {
	case SaidByClinician:
		return phrase.Of("a licensed clinician")
	case SaidByEducator:
		return phrase.Of("an educator")
	case SaidByCoordinator:
		return phrase.Of("a coordinator")
	}
	return phrase.Of("an educator or a coordinator")
}

// SaidBy names who may say what is so about the line, with the licence that it takes.
func (c Criterion) SaidBy() phrase.Phrase {
	if c.Licence == "" {
		return c.Says.Phrase()
	}
	return phrase.Of("%s with the licence %s", c.Says.Phrase(), c.Licence)
}

// MaySay reports whether somebody who keeps the plan, with their roles and the
// licences that are current that day, may say what is so about the line.
func (c Criterion) MaySay(roles []Role, current []Licence) bool {
	if c.Licence != "" && !slices.ContainsFunc(current, func(l Licence) bool { return strings.EqualFold(l.Kind, c.Licence) }) {
		return false
	}
	switch c.Says {
	case SaidByKeeper:
		return true
	case SaidByClinician:
		return len(current) > 0
	case SaidByEducator:
		return slices.Contains(roles, Educator)
	case SaidByCoordinator:
		return slices.Contains(roles, Coordinator)
	}
	return false
}
