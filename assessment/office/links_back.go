package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// GiveBackLink ends a link that somebody opened for whom it is not: it went to the
// wrong person, and must not lie about. Whose it is finds it among what happened to their
// account, and whoever made it sees that it ended.
func (o *Office) GiveBackLink(ctx context.Context, token string) error {
	found, err := o.openLink(ctx, token)
	if err != nil {
		return err
	}
	by := actorOf(found.agency.ID, found.person)
	return o.own(ctx, by.Agency, by.Person, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.People.Lock(ctx, by.Person); err != nil { // as whoever uses or makes one
			return err
		}
		again, err := useable(ctx, tx, now, token)
		if err != nil {
			return err
		}
		if err := tx.Links.End(ctx, again.link.ID, now.At); err != nil {
			if postgres.None(err) {
				return deadLink()
			}
			return err
		}
		// Nobody is signed in, and it was not whose link it is.
		return o.note(ctx, tx, now, assessment.Actor{Agency: by.Agency}, assessment.OwnAccount, linkGivenBack, string(by.Person))
	})
}
