package assessment

import (
	"time"

	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
)

// LinkPurpose is what a single-use link is for.
type LinkPurpose string

// The purposes: the first secret of a person, or another one in its place.
const (
	Invitation LinkPurpose = "invitation"
	Reset      LinkPurpose = "reset"
)

// Lasts is how long a link can be used: an invitation is handed over when people
// meet, a reset while somebody waits for it (common practice, no source).
func (p LinkPurpose) Lasts() time.Duration {
	if p == Invitation {
		return 72 * time.Hour
	}
	return 24 * time.Hour
}

// Origin tells how somebody came to the secret that they sign with.
type Origin struct {
	Person     PersonID
	Purpose    LinkPurpose // of the last link they used; empty: none
	IssuedBy   PersonID    // who made it
	IssuerName string
	IssuedAt   time.Time
	Issuers    []PersonID // all who could have made it: Hands.As of the issuer then
	Vouched    bool       // somebody else has seen that it was them, or they had shown a second secret of their own
	Behind     []PersonID // who else could have come to the secret alone; nobody once somebody independent vouched
}

// nobodyYet says what to do where no one can vouch: everybody's password comes from
// the first administrator.
var nobodyYet = phrase.Of("Where there is nobody yet, whoever runs this service lets in a second founder: wellshown found --beside.")

// MaySign refuses a signature that one person alone could have made in the name of
// another: misuse must take two (21 CFR 11.200(a)(3)). Whoever makes a link could
// use it themselves. After a reset nobody signs before somebody else has vouched
// for them; after an invitation they do not sign what somebody signs too who could
// be the same: the one who made it, or one whose password comes from there as well.
// The others are all who could act as those who sign the same record.
func (o Origin) MaySign(others ...PersonID) error {
	switch {
	case len(o.Behind) == 0:
		return nil
	case o.Purpose == Invitation && !OneAndTheSame(o.Behind, others):
		return nil
	case o.Purpose == Invitation:
		return fault.Of(fault.Refused, "The password comes from an invitation that %s made, and one person alone could have signed all parts of this. "+
			"Ask an educator, a coordinator or an administrator whose own password does not come from %s to vouch for you on your page first. %s Nothing has been signed.", o.IssuerName, o.IssuerName, nobodyYet)
	}
	return fault.Of(fault.Refused, "The password was set anew by a link that %s made. Before you sign, somebody else must say that it is you: "+
		"ask an educator, a coordinator or an administrator whose own password does not come from %s to vouch for you on your page. %s Nothing has been signed.", o.IssuerName, o.IssuerName, nobodyYet)
}

// SecondCounts reports whether a second secret that somebody shows with a link tells
// that it is them. It does not where one who could have made that link could have
// set the second secret as well.
func (o Origin) SecondCounts(issuers ...PersonID) bool {
	return len(o.Behind) == 0 || o.Purpose == Invitation && !OneAndTheSame(o.Behind, issuers)
}

// MayVouch refuses whoever cannot say for others that it is this person: the
// person, the one who made the link, and whoever's own secret comes, over any number
// of links, from one who could have made it. As are all who could act as the one
// who vouches.
func (o Origin) MayVouch(by PersonID, as []PersonID) error {
	switch {
	case o.Purpose == "":
		return fault.Of(fault.Refused, "Nobody needs to vouch for them: their password does not come from a link.")
	case o.Vouched && len(o.Behind) > 0:
		return fault.Of(fault.Conflict, "Somebody has vouched for them already, whose own password comes from whoever made this link, so it does not count. Make a new link for them.")
	case o.Vouched:
		return fault.Of(fault.Conflict, "Somebody has vouched for them already.")
	case by == o.Person:
		return fault.Of(fault.Refused, "You cannot vouch for yourself. Ask an educator, a coordinator or an administrator other than %s.", o.IssuerName)
	case by == o.IssuedBy:
		return fault.Of(fault.Refused, "You made the link, so somebody else must vouch: an educator, a coordinator or another administrator whose password does not come from you. %s", nobodyYet)
	case OneAndTheSame(as, o.Issuers):
		return fault.Of(fault.Refused, "Your own password comes from the same hands as this link, which %s made: one person alone could have done both. "+
			"Ask somebody to vouch whose password does not come from there, or for whom such a one has vouched. %s", o.IssuerName, nobodyYet)
	}
	return nil
}

// SittingLasts is how long after a signature the next one belongs to the same
// sitting (common practice, no source: 21 CFR 11.200(a)(1)(i) names no time).
const SittingLasts = time.Hour

// PINSuffices reports whether a signature goes on with a sitting: the first one of
// a session takes the whole proof, later ones a part that only the signer has
// (21 CFR 11.200(a)(1)(i)). The instant is that of the last signature in the
// session, nil for none; one that lies ahead of the clock proves nothing.
func PINSuffices(last *time.Time, now time.Time) bool {
	return last != nil && !now.Before(*last) && now.Sub(*last) < SittingLasts
}
