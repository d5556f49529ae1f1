package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/fault"
)

// LongestSurvey is for how many days a surveyor is let in at most, the first and the
// last among them. Whoever needs longer is let in again, by somebody who thinks anew.
const LongestSurvey = 30

// Survey is what a surveyor may look at now: the whole agency, or the people and
// children that were named. With a child come the people who look after it or ever
// did, but of them only what is general or about that child.
type Survey struct {
	Whole   bool
	People  []PersonID // named: all that is held on their skills
	Team    []PersonID // of the named children, at any time
	Clients []ClientID // named
	Begins  time.Time  // the first access to come; zero: none
	Over    time.Time  // when the last access ended; zero: none did
}

// SurveyAccess is one access as it was given.
type SurveyAccess struct {
	Whole    bool
	People   []PersonID
	Clients  []ClientID
	From, To time.Time  // from the first instant up to, not including, the last
	EndedAt  *time.Time // nil: not ended early
}

// OpenAt reports whether the access is open at an instant.
func (a SurveyAccess) OpenAt(at time.Time) bool {
	return !at.Before(a.From) && at.Before(a.over())
}

// over is when it ends or ended.
func (a SurveyAccess) over() time.Time {
	if a.EndedAt != nil && a.EndedAt.Before(a.To) {
		return *a.EndedAt
	}
	return a.To
}

// SurveyAt is what all accesses together open at an instant.
func SurveyAt(given []SurveyAccess, at time.Time) *Survey {
	s := &Survey{}
	for _, a := range given {
		over := a.over()
		switch {
		case a.OpenAt(at):
			s.Whole = s.Whole || a.Whole
			s.People, s.Clients = append(s.People, a.People...), append(s.Clients, a.Clients...)
		case !over.After(at) && over.After(s.Over):
			s.Over = over
		case over.After(a.From) && at.Before(a.From) && (s.Begins.IsZero() || a.From.Before(s.Begins)):
			s.Begins = a.From
		}
	}
	return s
}

// Open reports whether it opens anything.
func (s *Survey) Open() bool { return s != nil && (s.Whole || len(s.People)+len(s.Clients) > 0) }

// reach is how far a surveyor's permission for an act goes: nowhere without access;
// over the agency only with access to all of it.
func (s *Survey) reach(act Act, full Reach) Reach {
	switch {
	case act == OwnAccount:
		return full
	case !s.Open():
		return Nothing
	case s.Whole, full == Nothing:
		return full
	}
	switch act {
	case LookUp, ReadPeople, ReadClients, ReadStandings, ReadRecords, ReadReadiness, AskPacket:
		return Named
	case ReadChecklists, ReadLessons, ReadLedger: // nothing of anybody stands there
		return full
	}
	return Nothing
}

// Refuse says why a surveyor may not do what surveyors do.
func (s *Survey) Refuse() error {
	const clock = "2 January 2006, 15:04 MST"
	switch {
	case s.Open():
		return fault.Of(fault.Forbidden, "You were let in for the people and children that are named on the page “What you may look at”, and this is about the whole agency. Ask an administrator of the agency if you need it.")
	case s != nil && !s.Begins.IsZero():
		return fault.Of(fault.Forbidden, "Your access as a surveyor has not begun. It begins on %s.", s.Begins.Format(clock))
	case s != nil && !s.Over.IsZero():
		return fault.Of(fault.Forbidden, "Your access as a surveyor is over. It ended on %s. Ask an administrator of the agency to let you in again.", s.Over.Format(clock))
	}
	return fault.Of(fault.Forbidden, "You have not been let in as a surveyor yet. Ask an administrator of the agency, and say whom or what you have to look at.")
}

// MaySee reports whether a client is one of those that a surveyor was let in for.
func (s *Survey) MaySee(client ClientID) bool {
	return s != nil && (s.Whole || slices.Contains(s.Clients, client))
}

// MayMeet reports whether anything of a person may be read.
func (s *Survey) MayMeet(person PersonID) bool {
	return s != nil && (s.Whole || slices.Contains(s.People, person) || slices.Contains(s.Team, person))
}

// MayRead reports whether what is held on a person for a client may be read; the
// empty client stands for what is held for every child.
func (s *Survey) MayRead(person PersonID, client ClientID) bool {
	switch {
	case s == nil:
		return false
	case s.Whole, slices.Contains(s.People, person):
		return true
	case client != "":
		return s.MaySee(client)
	}
	return slices.Contains(s.Team, person)
}
