package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/fault"
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
	Vouched    bool // somebody else has seen that it was them, or they had shown a second secret of their own
}

// MaySign refuses a signature that one person alone could have made in the name of
// another: misuse must take two (21 CFR 11.200(a)(3)). Whoever makes a link could
// use it themselves. After a reset nobody signs before somebody else has vouched
// for them; after an invitation they do not sign what the one who made it signs
// too. The others are those who sign the same record.
func (o Origin) MaySign(others ...PersonID) error {
	switch {
	case o.Purpose == "" || o.Vouched:
		return nil
	case o.Purpose == Invitation && !slices.Contains(others, o.IssuedBy):
		return nil
	case o.Purpose == Invitation:
		return fault.Of(fault.Refused, "The password comes from an invitation that %s made, who signs this record too. One person alone could have done both. "+
			"Ask an educator, a coordinator or an administrator other than %s to vouch for you on your page first. Nothing has been signed.", o.IssuerName, o.IssuerName)
	}
	return fault.Of(fault.Refused, "The password was set anew by a link that %s made. Before you sign, somebody else must say that it is you: "+
		"ask an educator, a coordinator or an administrator other than %s to vouch for you on your page. Nothing has been signed.", o.IssuerName, o.IssuerName)
}

// SecondCounts reports whether a second secret that somebody shows with a link of
// this issuer tells that it is them. It does not where the issuer could have set
// that one as well, through a link before.
func (o Origin) SecondCounts(issuer PersonID) bool {
	return o.Purpose == "" || o.Vouched || o.Purpose == Invitation && o.IssuedBy != issuer
}

// MayVouch refuses whoever cannot say for others that it is this person: the one
// who made the link, the person, and whoever came to a secret of their own only
// after the link was made, because who makes links could have made that one too.
func (o Origin) MayVouch(by Origin, usedAt time.Time) error {
	switch {
	case o.Purpose == "":
		return fault.Of(fault.Refused, "Nobody needs to vouch for them: their password does not come from a link.")
	case o.Vouched:
		return fault.Of(fault.Conflict, "Somebody has vouched for them already.")
	case by.Person == o.Person:
		return fault.Of(fault.Refused, "You cannot vouch for yourself. Ask an educator, a coordinator or an administrator other than %s.", o.IssuerName)
	case by.Person == o.IssuedBy:
		return fault.Of(fault.Refused, "You made the link, so somebody else must vouch: an educator, a coordinator or another administrator.")
	case by.Purpose != "" && !by.Vouched && usedAt.After(o.IssuedAt):
		return fault.Of(fault.Refused, "Your own password is newer than this link. Ask somebody to vouch who could sign in before %s made it.", o.IssuerName)
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
