package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TakeBackForm takes back what was written down about somebody by mistake: a card,
// a licence, practice, teaching, a waiver, a withdrawal or a reinstatement. A
// demonstration has CorrectDemonstration.
type TakeBackForm struct {
	Kind   assessment.EntryKind // or postgres.LicenceEntry
	ID     assessment.RecordID
	Reason string
	Proof  Proof
}

// act: papers are taken back by whoever may put them on file, all else by whoever
// may correct a record.
func (f TakeBackForm) act() (assessment.Act, error) {
	switch f.Kind {
	case assessment.CardEntry, postgres.LicenceEntry:
		return assessment.EditPeople, nil
	case assessment.PracticeEntry, assessment.TeachingEntry, assessment.WaiverEntry, assessment.WithdrawalEntry, assessment.ReinstatementEntry:
		return assessment.Correct, nil
	}
	return "", faultAt("kind", "Choose what is taken back: a card, a licence, practice, teaching, a waiver, a withdrawal or a reinstatement.")
}

// TakeBack makes it as if it had never been, from today on. It stays readable with
// the reason.
func (o *Office) TakeBack(ctx context.Context, by assessment.Actor, form TakeBackForm) error {
	act, err := form.act()
	if err != nil {
		return err
	}
	proof := form.Proof.over(form)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		if err := mustSayWhy(form.Reason); err != nil {
			return "", err
		}
		n, err := form.noted(ctx, tx, by)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) { return form.says(ctx, o, tx, now, n.Person) })
	}
	return o.signing(ctx, by, act, proof, look, func(tx *postgres.Tx, now Moment) error {
		n, err := form.noted(ctx, tx, by)
		if err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, n.Person); err != nil {
			return err
		}
		s, err := o.signed(now, by, "", form.Reason)
		if err != nil {
			return err
		}
		if err := tx.Exceptions.AddCorrection(ctx, form.Kind, string(form.ID), s); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, act, "correction", string(s.ID)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, n.Person)
	})
}

func mustSayWhy(reason string) error {
	var f form
	f.reason(reason, "Say what is wrong with it. It stays readable.")
	return f.Err()
}

// noted finds what is taken back and refuses whoever may not: nobody takes back
// what is about themselves, and what took a competency away is not taken back by
// the one who signed it alone.
func (f TakeBackForm) noted(ctx context.Context, tx *postgres.Tx, by assessment.Actor) (postgres.Noted, error) {
	n, err := tx.Exceptions.Noted(ctx, f.Kind, f.ID)
	switch {
	case err != nil:
		return n, err
	case n.Person == by.Person:
		return n, fault.Of(fault.Refused, "You cannot take back what is about yourself. Ask a colleague.")
	case n.By == by.Person && f.Kind == assessment.WithdrawalEntry:
		return n, fault.Of(fault.Refused, "A withdrawal is taken back by somebody other than who signed it. Ask a colleague.")
	}
	return n, nil
}
