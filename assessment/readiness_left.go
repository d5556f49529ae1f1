package assessment

import (
	"wellshown/assessment/civil"
	"wellshown/assessment/phrase"
)

// Party is who sees to something that is left.
type Party string

// The parties.
const (
	FamilySees    Party = "family"
	AgencySees    Party = "agency"
	ClinicianSees Party = "clinician"
)

// Parties lists them.
var Parties = []Party{FamilySees, AgencySees, ClinicianSees}

// Phrase names the party to a family.
func (p Party) Phrase() phrase.Phrase {
	switch p {
	case FamilySees:
		return phrase.Of("the family")
	case ClinicianSees:
		return phrase.Of("the child’s clinician")
	}
	return phrase.Of("the agency")
}

// Todo is one thing that is left: what, who sees to it and by when.
type Todo struct {
	phrase.Phrase
	Who  Party
	Name string     // of the one whom it takes, or whom the plan names; empty: whoever of them
	By   civil.Date // last day; zero: not set
}

// Whose names who sees to it.
func (t Todo) Whose() phrase.Phrase {
	if t.Name != "" {
		return phrase.Text(t.Name)
	}
	return t.Who.Phrase()
}

// Late reports whether its last day is past.
func (t Todo) Late(on civil.Date) bool { return !t.By.IsZero() && t.By.Before(on) }

// lacks notes what a line still lacks, for whoever sees to lines of its kind.
func (l *Line) lacks(words phrase.Phrase) {
	l.Left = append(l.Left, Todo{Phrase: words, Who: l.Criterion.sees()})
}

// plan gives each thing that is left the day of the line, else that of the plan, and
// whom the line names.
func (l *Line) plan(going civil.Date) {
	for i := range l.Left {
		t := &l.Left[i]
		t.By = l.Criterion.By
		if t.By.IsZero() {
			t.By = going
		}
		if t.Name == "" {
			t.Name = l.Criterion.Responsible
		}
	}
}

// sees is who sees to what a line of a kind lacks.
func (c Criterion) sees() Party {
	switch c.Kind {
	case FamilyCurrent, EmergencyDrills, CardsOnFile, IndependentStay:
		return FamilySees
	case EquipmentHome, EarlyShifts:
		return AgencySees
	}
	if c.Says == SaidByClinician {
		return ClinicianSees
	}
	return AgencySees
}
