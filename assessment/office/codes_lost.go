package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// EndCodesOf turns off the one-time codes of somebody who has lost their app and
// their recovery codes. It is an act of its own, apart from any link: an administrator
// signs it, it stands in the journal, and whose codes they were is told. It lets
// nobody sign in without the password, and vouches for nobody.
func (o *Office) EndCodesOf(ctx context.Context, by assessment.Actor, id assessment.PersonID, proof Proof) error {
	proof = proof.over("codes off", id)
	look := func(tx *postgres.Tx, _ Moment) (assessment.PersonID, error) {
		if err := mayEndCodes(ctx, tx, by, id); err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			p, err := tx.People.Get(ctx, id)
			return fmt.Sprintf("Turn the one-time codes of %s off. “I have asked %s, face to face or by a voice I know.”", p.Name, p.Name), err
		})
	}
	return o.signing(ctx, by, assessment.GiveRoles, proof, look, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.People.Lock(ctx, id); err != nil {
			return err
		}
		if err := mayEndCodes(ctx, tx, by, id); err != nil {
			return err
		}
		return o.endCodes(ctx, tx, now, by, assessment.GiveRoles, id)
	})
}

func mayEndCodes(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.PersonID) error {
	if _, err := tx.People.Get(ctx, id); err != nil {
		return err
	}
	if id == by.Person {
		return fault.Of(fault.Refused, "Turn your own codes off under your account, with your password and a code. Without a code, ask another administrator.")
	}
	c, err := tx.OneTimeCodes.Of(ctx, id)
	if fault.KindOf(err) == fault.NotFound || err == nil && c.ConfirmedAt == nil {
		return fault.Of(fault.Refused, "They have no one-time codes. Nothing has changed.")
	}
	return err
}
