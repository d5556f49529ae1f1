package assessment

import (
	"slices"
	"time"
)

// LongestSurvey is how long a surveyor is let in at most.
const LongestSurvey = 30 * 24 * time.Hour

// Survey is what a surveyor may look at while their access is open: the whole
// agency, or the people and children that were named.
type Survey struct {
	Whole   bool
	People  []PersonID // the named ones, and those who look after the named children
	Clients []ClientID
	Until   time.Time // when the last of it ends
}

// SurveyAccess is one access as it was given.
type SurveyAccess struct {
	Whole         bool
	People        []PersonID
	Clients       []ClientID
	From, Through time.Time
	EndedAt       *time.Time // nil: not ended early
}

// OpenAt reports whether the access is open at an instant: from its first one up to
// before its last, unless it was ended.
func (a SurveyAccess) OpenAt(at time.Time) bool {
	return !at.Before(a.From) && at.Before(a.Through) && a.EndedAt == nil
}

// SurveyAt is what all accesses together open at an instant; nil for nothing.
func SurveyAt(given []SurveyAccess, at time.Time) *Survey {
	var s *Survey
	for _, a := range given {
		if !a.OpenAt(at) {
			continue
		}
		if s == nil {
			s = &Survey{}
		}
		s.Whole = s.Whole || a.Whole
		s.People, s.Clients = append(s.People, a.People...), append(s.Clients, a.Clients...)
		if a.Through.After(s.Until) {
			s.Until = a.Through
		}
	}
	return s
}

// reach is how far a surveyor's permission for an act goes: nowhere without access;
// over the agency only with access to all of it.
func (s *Survey) reach(act Act, full Reach) Reach {
	switch {
	case act == OwnAccount:
		return full
	case s == nil:
		return Nothing
	case s.Whole, full == Nothing:
		return full
	}
	switch act {
	case ReadPeople, ReadClients, ReadStandings, ReadRecords, ReadReadiness:
		return Named
	case ReadChecklists, ReadLedger: // nothing of anybody stands there
		return full
	}
	return Nothing
}

// MaySee reports whether a client is one of those that a surveyor was let in for.
func (s *Survey) MaySee(client ClientID) bool { return s != nil && slices.Contains(s.Clients, client) }

// MayRead is MaySee for a person.
func (s *Survey) MayRead(person PersonID) bool { return s != nil && slices.Contains(s.People, person) }
