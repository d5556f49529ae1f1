package assessment

import (
	"slices"
	"time"
)

// TokenID names the token of a program; it opens nothing.
type TokenID string

// Program is what acts by a token. It is no person: it signs nothing and has no
// roles; what it changes names the token and whoever made it.
type Program struct {
	Token TokenID
	Name  string
	Acts  []Act // what the token allows and its maker may do today
}

// How long a token lasts, in days: unless told otherwise, and at most.
const (
	TokenDays     = 90
	MostTokenDays = 365
)

// ForPrograms reports whether a token may allow the act: what only reads, and a few
// that keep lists in order. What is signed, judged, promised to somebody or about an
// account takes a person.
func (a Act) ForPrograms() bool {
	switch a {
	case EditPeople, EditClients, EditRequirements, EditChecklists, EditRoster, PlanVisits, BringIn:
		return true
	case LookUp, ReadErasures: // pages for people to look at; programs read standings
		return false
	case ReadBank: // nobody can tell who holds a token, and so whose pass needs a trainer beside them
		return false
	}
	return a.Reads()
}

// MayGrant lists the acts that whoever makes tokens may put into one, by name: those
// that they may do themselves everywhere in the agency.
func (a Actor) MayGrant() []Act {
	var all []Act
	for _, act := range Acts() {
		if act.ForPrograms() && a.Program == nil && a.Reach(GiveRoles) == Everything && a.Reach(act) == Everything {
			all = append(all, act)
		}
	}
	slices.Sort(all)
	return all
}

// Token is what was agreed when a token was made, and what became of it.
type Token struct {
	Acts      []Act
	Reading   bool // nothing that changes anything
	MadeAt    time.Time
	ExpiresAt time.Time
	RevokedAt *time.Time
	UsedAt    *time.Time // to the minute; nil: never
}

// Why a token does not work.
const (
	TokenRevoked  = "revoked"
	TokenRunOut   = "run out"
	TokenOrphaned = "its maker may no longer make tokens"
)

// Dead says why the token does not work at an instant, or nothing. One cannot work
// before it was made or was last used: that clock was set back. A token is answered
// for by who made it: once they have left, or may no longer make tokens, it is dead.
func (t Token) Dead(at time.Time, maker Actor, left bool) string {
	switch {
	case t.RevokedAt != nil:
		return TokenRevoked
	case !at.Before(t.ExpiresAt), at.Before(t.MadeAt), t.UsedAt != nil && at.Before(*t.UsedAt):
		return TokenRunOut
	case left || len(t.Allows(maker)) == 0:
		return TokenOrphaned
	}
	return ""
}

// Allows is what the token lets a program do: never more than its maker may do now.
func (t Token) Allows(maker Actor) []Act {
	var all []Act
	for _, act := range maker.MayGrant() {
		if slices.Contains(t.Acts, act) && (act.Reads() || !t.Reading) {
			all = append(all, act)
		}
	}
	return all
}
