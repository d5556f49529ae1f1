package office

import (
	"context"
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// secrets tells of everybody in the agency how they came to what they sign with.
type secrets struct {
	links []postgres.Link // used, the one used last first
	hands assessment.Hands
}

func secretsOf(ctx context.Context, tx *postgres.Tx) (secrets, error) {
	used, err := tx.Links.Used(ctx)
	if err != nil {
		return secrets{}, fmt.Errorf("read where secrets come from: %w", err)
	}
	var all []assessment.UsedLink
	for _, l := range used {
		u := assessment.UsedLink{Person: l.PersonID, IssuedBy: l.IssuedBy, IssuedAt: l.IssuedAt, UsedAt: *l.UsedAt, Proven: l.ProvenBy != "", VouchedBy: l.VouchedBy}
		if l.VouchedAt != nil {
			u.VouchedAt = *l.VouchedAt
		}
		all = append(all, u)
	}
	return secrets{used, assessment.NewHands(all)}, nil
}

// origin tells how somebody came to their secret, and by which link: the zero one
// where it comes from none.
func (s secrets) origin(person assessment.PersonID, now time.Time) (assessment.Origin, postgres.Link) {
	from := assessment.Origin{Person: person}
	for _, l := range s.links {
		if l.PersonID != person {
			continue
		}
		from.Purpose, from.IssuedBy, from.IssuerName, from.IssuedAt = l.Purpose, l.IssuedBy, l.Issuer, l.IssuedAt
		from.Issuers, from.Vouched = s.hands.As(l.IssuedBy, l.IssuedAt), l.VouchedAt != nil || l.ProvenBy != ""
		from.Behind = s.behind(person, now)
		return from, l
	}
	return from, postgres.Link{}
}

// behind is who else than its owner could have come to a secret alone.
func (s secrets) behind(person assessment.PersonID, now time.Time) []assessment.PersonID {
	var others []assessment.PersonID
	for _, p := range s.hands.As(person, now) {
		if p != person {
			others = append(others, p)
		}
	}
	return others
}

func origin(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (assessment.Origin, postgres.Link, error) {
	all, err := secretsOf(ctx, tx)
	if err != nil {
		return assessment.Origin{}, postgres.Link{}, err
	}
	from, l := all.origin(person, now.At)
	return from, l, nil
}

// secondPerson refuses somebody as the second of two whom one person alone could
// have acted as: whoever makes a link could use it, over any number of links.
func secondPerson(ctx context.Context, tx *postgres.Tx, now Moment, by, first assessment.PersonID, at time.Time, what string) error {
	all, err := secretsOf(ctx, tx)
	if err != nil {
		return err
	}
	if !assessment.OneAndTheSame(all.hands.As(by, now.At), all.hands.As(first, at)) {
		return nil
	}
	return fault.Of(fault.Refused, "%s: one person alone could have been both, because one of the two passwords comes from a link of the other, or both from the same hands. "+
		"Somebody whose password does not come from there must first vouch for one of them, or do this in your place. Where there is nobody yet, whoever runs this service lets in a second founder: wellshown found --beside.", what)
}
