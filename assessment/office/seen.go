package office

import (
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// seenBy is what a surveyor may look at, with what they have of their own.
func seenBy(by assessment.Actor) *assessment.Survey {
	seen := *by.Survey
	seen.People = append([]assessment.PersonID{by.Person}, seen.People...)
	return &seen
}

// peopleSeen are all of whom a surveyor may read anything, and they themselves.
func peopleSeen(by assessment.Actor) []assessment.PersonID {
	return slices.Concat([]assessment.PersonID{by.Person}, by.Survey.People, by.Survey.Team)
}

// seenClients are the children for whom the actor may read what is held on a person;
// nil is for all. What is held for every child is never left out.
func seenClients(by assessment.Actor, act assessment.Act, person assessment.PersonID) []assessment.ClientID {
	if by.Reach(act) != assessment.Named || person == by.Person || slices.Contains(by.Survey.People, person) {
		return nil
	}
	return append([]assessment.ClientID{}, by.Survey.Clients...)
}

// within leaves out of what is held on a person what lies outside the actor's reach;
// client tells for whom each is held.
func within[T any](by assessment.Actor, act assessment.Act, person assessment.PersonID, held []T, client func(T) assessment.ClientID) []T {
	return slices.DeleteFunc(held, func(one T) bool { return by.MayForCase(act, person, client(one)) != nil })
}

func (v StandingView) of() assessment.ClientID  { return v.Client.ID }
func (v HappeningView) of() assessment.ClientID { return v.Client.ID }

func recordFor(d postgres.Demonstration) assessment.ClientID    { return d.ClientID }
func certificateFor(t postgres.Certificate) assessment.ClientID { return t.ClientID }
