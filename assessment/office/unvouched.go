package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// UnvouchedView is somebody who cannot sign before somebody else has vouched for them.
type UnvouchedView struct {
	Person PersonRef
	Issuer string // who made the link that their password comes from
	May    bool   // whoever asks may vouch for them
}

// unvouched lists who waits for somebody to vouch, to whoever may do so at all: those
// who are with the agency and would sign something.
func unvouched(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor) ([]UnvouchedView, error) {
	if by.May(assessment.VouchFor) != nil {
		return nil, nil
	}
	found, err := tx.Links.Unvouched(ctx)
	if err != nil {
		return nil, fmt.Errorf("read who waits for somebody to vouch: %w", err)
	}
	secrets, err := secretsOf(ctx, tx)
	if err != nil {
		return nil, err
	}
	var all []UnvouchedView
	for _, l := range found {
		p, err := tx.People.Get(ctx, l.PersonID)
		if err != nil {
			return nil, err
		}
		if gone(p.LeftOn, now.Today) || actorOf(by.Agency, p).May(assessment.SignRecord) != nil {
			continue
		}
		from, _ := secrets.origin(p.ID, now.At)
		all = append(all, UnvouchedView{PersonRef{ID: p.ID, Name: p.Name}, l.Issuer, from.MayVouch(by.Person, secrets.hands.As(by.Person, now.At)) == nil})
	}
	return all, nil
}

// waitsForVouching says why somebody cannot sign yet, in words; nothing where they can.
func waitsForVouching(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (phrase.Phrase, error) {
	from, _, err := origin(ctx, tx, now, person)
	if err != nil {
		return phrase.Phrase{}, err
	}
	if wait, refused := fault.As(from.MaySign()); refused {
		return wait.Phrase(), nil
	}
	return phrase.Phrase{}, nil
}
