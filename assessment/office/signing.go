package office

import (
	"context"
	"encoding/hex"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// signers are who signs now, and who else signs the same record.
type signers struct {
	signer assessment.PersonID
	others []assessment.PersonID
	sure   bool // the one signature can make somebody current: it must be its owner's alone
}

// signing is as for what somebody signs alone; look tells who.
func (o *Office) signing(ctx context.Context, by assessment.Actor, act assessment.Act, proof Proof,
	look func(*postgres.Tx, Moment) (assessment.PersonID, error), do func(*postgres.Tx, Moment) error) error {
	alone := func(tx *postgres.Tx, now Moment) (signers, error) {
		signer, err := look(tx, now)
		return signers{signer: signer, sure: act.SignedAlone()}, err
	}
	return o.signingBeside(ctx, by, act, proof, alone, do)
}

// signingBeside is as for what somebody signs. What can be refused without a proof
// is looked at first, so that nobody gives one for nothing; look also tells who
// signs. The proof comes next, while no connection to the database is held: it may
// have to wait for its turn. Then the use case itself, which must look again,
// because all may have changed since, the signer's password among it.
func (o *Office) signingBeside(ctx context.Context, by assessment.Actor, act assessment.Act, proof Proof,
	look func(*postgres.Tx, Moment) (signers, error), do func(*postgres.Tx, Moment) error) error {
	if by.Program != nil {
		return fault.Of(fault.Forbidden, "A program cannot sign. It takes a person who is signed in. Nothing has been signed.")
	}
	if err := by.May(act); err != nil {
		return err
	}
	var who signers
	err := o.reading(ctx, by.Agency, func(tx *postgres.Tx, now Moment) (err error) {
		if who, err = look(tx, now); err != nil {
			return err
		}
		return maySign(ctx, tx, now, who)
	})
	if err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	prove := func() (still, error) { return o.confirm(ctx, by, who.signer, proof) }
	if proof.Passkey != "" && proof.of != nil {
		prove = func() (still, error) { return o.confirmByPasskey(ctx, by, who.signer, act, *proof.of, proof.Passkey) }
	}
	proven, err := prove()
	if err != nil {
		return fmt.Errorf("%s: %w", act, err)
	}
	return o.as(ctx, by, act, func(tx *postgres.Tx, now Moment) error {
		if err := stillMay(ctx, tx, now, by, act); err != nil {
			return err
		}
		if err := maySign(ctx, tx, now, who); err != nil {
			return err
		}
		if err := do(tx, now); err != nil {
			return err
		}
		// Last, for all before may have had to wait for others.
		err := proven.or(ctx, tx, faultAt("password", "What you signed with was changed or taken away a moment ago. Sign with what is good now. Nothing has been signed."))
		if err != nil {
			return err
		}
		return noteSitting(ctx, tx, now, by, who.signer)
	})
}

// stillMay asks for the roles of whoever signs as they are now: they may have ended
// while the proof waited for its turn.
func stillMay(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, act assessment.Act) error {
	p, err := tx.People.Get(ctx, by.Person)
	switch {
	case err != nil:
		return err
	case gone(p.LeftOn, now.Today):
		return fault.Of(fault.Refused, "You left the agency on %s. Nothing has been signed. A coordinator can say whether that is right.", p.LeftOn)
	case actorOf(by.Agency, p).May(act) != nil:
		return fault.Of(fault.Refused, "Your roles have changed meanwhile and no longer allow this: %s. Nothing has been signed. An administrator can say whether that is right.", act)
	}
	return nil
}

// maySign asks whether the signer's secret is theirs alone, and no one person could
// have signed all parts.
func maySign(ctx context.Context, tx *postgres.Tx, now Moment, who signers) error {
	all, err := secretsOf(ctx, tx)
	if err != nil {
		return err
	}
	var others []assessment.PersonID
	for _, other := range who.others {
		if other != who.signer {
			others = append(others, all.hands.As(other, now.At)...)
		}
	}
	from, _ := all.origin(who.signer, now.At)
	if who.sure { // whoever is behind the signer would do it alone
		others = append(others, from.Behind...)
	}
	return from.MaySign(others...)
}

// noteSitting begins or goes on with the sitting of whoever signs in a session of
// their own. It comes last: two that sign at once in one session wait for each
// other here, with nothing left to do.
func noteSitting(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, signer assessment.PersonID) error {
	if by.Session == "" || signer != by.Person {
		return nil
	}
	hash, err := hex.DecodeString(by.Session)
	if err != nil {
		return fmt.Errorf("read the name of a session: %w", err)
	}
	return tx.Sessions.Signed(ctx, hash, signer, now.At)
}
