package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// CloseIncidentForm closes an incident.
type CloseIncidentForm struct {
	ID     assessment.RecordID
	Record assessment.DemonstrationID // that evaluated it again
	Note   string                     // how they were taught again, and what the record shows
	Proof  Proof
}

// CloseIncident says that it was taught and evaluated again, and by which record. It makes
// nobody current: what an incident took is lifted by what is shown, and by nothing else.
func (o *Office) CloseIncident(ctx context.Context, by assessment.Actor, f CloseIncidentForm) error {
	proof := f.Proof.over(f.ID, f.Record, f.Note)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		v, err := o.closable(ctx, tx, now, by, f)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return because(fmt.Sprintf("Close the incident in %s of %s on %s", v.Skill.Title, v.Person.Name, inMinutes(v.Happened, now.Zone)), f.Note), nil
		})
	}
	return o.signing(ctx, by, assessment.CloseIncident, proof, look, func(tx *postgres.Tx, now Moment) error {
		v, err := o.closable(ctx, tx, now, by, f)
		if err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, v.Person.ID); err != nil {
			return err
		}
		if _, err = o.closable(ctx, tx, now, by, f); err != nil { // nothing has changed until the lock was had
			return err
		}
		s, err := o.signed(now, by, "", f.Note)
		if err != nil {
			return err
		}
		if err := tx.Incidents.Close(ctx, f.ID, f.Record, s); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.CloseIncident, "incident_closing", string(f.ID))
	})
}

// closable is the incident, if it can be closed as the form says.
func (o *Office) closable(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f CloseIncidentForm) (IncidentDesk, error) {
	i, err := tx.Incidents.Get(ctx, f.ID)
	if err != nil {
		return IncidentDesk{}, err
	}
	if err := incidentFault(i); err != nil {
		return IncidentDesk{}, err
	}
	if i.Person == by.Person {
		return IncidentDesk{}, fault.Of(fault.Refused, "You cannot close an incident of your own. Ask a colleague.")
	}
	v, err := o.incidentDesk(ctx, tx, now, by, i)
	if err != nil {
		return v, err
	}
	if !v.Waits.IsZero() {
		return v, fault.Of(fault.Refused, "The incident cannot be closed yet. %s", v.Waits)
	}
	var faults form
	if !assessment.Says(faults.words("note", f.Note, 2000)) {
		faults.Add("note", "Say how they were taught again, and what the record shows.")
	}
	if !slices.ContainsFunc(v.Records, func(r RecordRef) bool { return r.ID == f.Record }) {
		faults.Add("record", "Choose the record by which it was evaluated again.")
	}
	return v, faults.Err()
}

// TakeIncidentBack makes it as if it had never been, from today on, with all the withdrawals
// that it made. It stays readable with the reason.
func (o *Office) TakeIncidentBack(ctx context.Context, by assessment.Actor, id assessment.RecordID, reason string, proof Proof) error {
	proof = proof.over(id, reason)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		if err := mustSayWhy(reason); err != nil {
			return "", err
		}
		i, err := incidentToTakeBack(ctx, tx, by, id)
		if err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			skill, person, err := o.named(ctx, tx, i.Key())
			return because(fmt.Sprintf("Take back the incident in %s of %s on %s, and what it withdrew, from today as if it had never been", skill, person, inMinutes(i.HappenedAt, now.Zone)), reason), err
		})
	}
	return o.signing(ctx, by, assessment.Correct, proof, look, func(tx *postgres.Tx, now Moment) error {
		i, err := tx.Incidents.Get(ctx, id)
		if err != nil {
			return err
		}
		if err := tx.History.Lock(ctx, i.Person); err != nil {
			return err
		}
		if i, err = incidentToTakeBack(ctx, tx, by, id); err != nil {
			return err
		}
		if err := o.takeBackOne(ctx, tx, now, by, "incident", id, reason); err != nil {
			return err
		}
		made, err := tx.Incidents.Withdrawals(ctx, id)
		if err != nil {
			return err
		}
		for _, w := range made {
			if w.TakenBack {
				continue
			}
			if err := o.takeBackOne(ctx, tx, now, by, assessment.WithdrawalEntry, w.ID, reason); err != nil {
				return err
			}
		}
		return o.reindexPerson(ctx, tx, now, i.Person)
	})
}

func (o *Office) takeBackOne(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, kind assessment.EntryKind, id assessment.RecordID, reason string) error {
	s, err := o.signed(now, by, "", reason)
	if err != nil {
		return err
	}
	if err := tx.Exceptions.AddCorrection(ctx, kind, string(id), s); err != nil {
		return err
	}
	return o.note(ctx, tx, now, by, assessment.Correct, "correction", string(s.ID))
}

func incidentToTakeBack(ctx context.Context, tx *postgres.Tx, by assessment.Actor, id assessment.RecordID) (postgres.Incident, error) {
	i, err := tx.Incidents.Get(ctx, id)
	switch {
	case err != nil:
		return i, err
	case i.TakenBackAt != nil:
		return i, incidentFault(i)
	}
	return i, mayTakeIncidentBack(by, i)
}

// mayTakeIncidentBack: it gives back what was taken away, so nobody does it for themselves, and
// whoever recorded it does not do it alone.
func mayTakeIncidentBack(by assessment.Actor, i postgres.Incident) error {
	switch {
	case i.Person == by.Person:
		return fault.Of(fault.Refused, "You cannot take back what is about yourself. Ask a colleague.")
	case i.SignedBy == by.Person:
		return fault.Of(fault.Refused, "An incident is taken back by somebody other than who recorded it. Ask a colleague.")
	}
	return nil
}
