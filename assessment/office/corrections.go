package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CorrectDemonstration takes a record back: from today on it is as if it had
// never been. The record itself stays readable, with the reason.
func (o *Office) CorrectDemonstration(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, reason string, proof Proof) error {
	taken := func(tx *postgres.Tx) (postgres.Demonstration, error) {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return d, err
		}
		return d, mayTakeBack(by, d)
	}
	proof = proof.over(id, reason)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		var f form
		f.reason(reason, "Say what is wrong with the record. It stays readable.")
		if err := f.Err(); err != nil {
			return "", err
		}
		d, err := taken(tx)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return because("Take back, from today as if it had never been, "+recordInWords(d, now)+". What is wrong", reason), nil
		})
	}
	return o.signing(ctx, by, assessment.Correct, proof, look, func(tx *postgres.Tx, now Moment) error {
		d, err := taken(tx)
		if err != nil {
			return err
		}
		s, err := o.signed(now, by, "", reason)
		if err != nil {
			return err
		}
		if err := tx.Exceptions.AddCorrection(ctx, assessment.DemonstrationEntry, string(id), s); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Correct, "correction", string(s.ID)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, d.LearnerID)
	})
}

// mayTakeBack: taking back a failure can make somebody current, so nobody does it
// for themselves, and the observer of a failure does not do it alone.
func mayTakeBack(by assessment.Actor, d postgres.Demonstration) error {
	switch {
	case by.Person == d.LearnerID:
		return fault.Of(fault.Refused, "You cannot take back a record of your own. Ask a colleague.")
	case by.Person == d.ObserverID && d.Outcome != assessment.Competent:
		return fault.Of(fault.Refused, "A failure is taken back by somebody other than its observer. Ask a colleague.")
	}
	return nil
}
