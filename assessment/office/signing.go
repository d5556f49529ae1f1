package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// signing is as for what somebody signs. What can be refused without a proof is
// looked at first, so that nobody gives one for nothing; look also tells who
// signs. The proof comes next, while no connection to the database is held:
// it may have to wait for its turn. Then the use case itself, which must look
// again, because all may have changed since.
func (o *Office) signing(ctx context.Context, by assessment.Actor, act assessment.Act, proof Proof,
	look func(*postgres.Tx, Moment) (assessment.PersonID, error), do func(*postgres.Tx, Moment) error) error {
	if err := by.May(act); err != nil {
		return err
	}
	var signer assessment.PersonID
	err := o.reading(ctx, by.Agency, func(tx *postgres.Tx, now Moment) (err error) {
		signer, err = look(tx, now)
		return err
	})
	if err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	prove := func() error { return o.confirm(ctx, by, signer, proof) }
	if proof.Passkey != "" && proof.of != nil {
		prove = func() error { return o.confirmByPasskey(ctx, by, signer, act, *proof.of, proof.Passkey) }
	}
	if err := prove(); err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	return o.as(ctx, by, act, do)
}
