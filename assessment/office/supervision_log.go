package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// AddSupervision writes down an assessment.
func (o *Office) AddSupervision(ctx context.Context, by assessment.Actor, f SupervisionForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		v, err := f.read(now)
		if err != nil {
			return err
		}
		if v.ID, err = idOr[assessment.RecordID](o, f.ID, now.At); err != nil {
			return err
		}
		id = v.ID
		if known, err := tx.Practice.SupervisedOnce(ctx, v.ID); err == nil {
			if known.Client == v.Client && known.Aide == v.Aide && known.MadeOn == v.MadeOn && known.How == v.How && known.Found == v.Found {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another record under this id.")
		} else if fault.KindOf(err) != fault.NotFound {
			return err
		}
		if err := tx.Practice.Lock(ctx); err != nil {
			return err
		}
		b, err := o.supervisionBook(ctx, tx, now)
		if err != nil {
			return err
		}
		if err := b.maySupervise(ctx, tx, v); err != nil {
			return err
		}
		v.WrittenBy, v.WrittenAt = by.Person, now.At
		if err := tx.Practice.AddSupervised(ctx, v); err != nil {
			return fmt.Errorf("keep an assessment: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "supervisory_visit", string(v.ID))
	})
	return id, err
}

func (f SupervisionForm) read(now Moment) (postgres.SupervisoryVisit, error) {
	var faults form
	v := postgres.SupervisoryVisit{Client: f.Client, Aide: f.Aide, Supervisor: f.Supervisor, MadeOn: faults.day("on", f.On), How: oneOf(&faults, "how", f.How, assessment.SupervisionHows),
		Watched: f.Watched, Why: faults.words("why", f.Why, 2000), Found: faults.words("found", f.Found, 2000), Deficient: f.Deficient}
	switch {
	case v.MadeOn.After(now.Today):
		faults.Add("on", "This day is to come. Write it down once it was made.")
	case v.Client == "":
		faults.Add("client", "Choose the child.")
	case v.Aide == "":
		faults.Add("aide", "Choose the aide.")
	case v.Supervisor == "":
		faults.Add("supervisor", "Choose who assessed it.")
	}
	if v.Deficient && !assessment.Says(v.Found) {
		faults.Add("found", "Say what was found.")
	}
	if v.How == assessment.OnSite {
		v.Why = ""
	}
	return v, faults.Err()
}

// maySupervise refuses an aide who is none, a supervisor without a licence on the day, and what
// may not be by audio-video.
func (b *supervisionBook) maySupervise(ctx context.Context, tx *postgres.Tx, v postgres.SupervisoryVisit) error {
	aide, err := tx.People.Get(ctx, v.Aide)
	if err != nil {
		return err
	}
	if _, err := tx.Clients.Get(ctx, v.Client); err != nil {
		return err
	}
	supervisor, err := tx.People.Get(ctx, v.Supervisor)
	if err != nil {
		return err
	}
	licences, err := tx.Qualifications.Licences(ctx, v.Supervisor)
	switch {
	case err != nil:
		return err
	case v.Aide == v.Supervisor:
		return faultAt("supervisor", "Nobody supervises themselves. Choose who did.")
	case aide.Kind != assessment.Aide:
		return faultAt("aide", aide.Name+" is no aide here.")
	case !licensed(licences, v.Supervisor, v.MadeOn):
		return faultAt("supervisor", supervisor.Name+" has no licence on file that holds on that day.")
	}
	var known []assessment.SupervisoryVisit
	for _, k := range b.visits {
		if k.TakenBackAt == nil {
			known = append(known, assessment.SupervisoryVisit{Client: k.Client, Aide: k.Aide, On: k.MadeOn, How: k.How})
		}
	}
	care, _ := assessment.CareOn(b.care[v.Client], v.MadeOn)
	return assessment.MayBeVideo(assessment.SupervisoryVisit{Client: v.Client, Aide: v.Aide, On: v.MadeOn, How: v.How, Watched: v.Watched, Why: v.Why}, care, known)
}

// TakeSupervisionBack has an assessment that was written down by mistake count for nothing. It
// stays readable.
func (o *Office) TakeSupervisionBack(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		v, err := tx.Practice.SupervisedOnce(ctx, id)
		switch {
		case err != nil:
			return err
		case v.TakenBackAt != nil:
			return fault.Of(fault.Conflict, "This was taken back already.")
		}
		if err := tx.Practice.TakeBackSupervised(ctx, id, by.Person, now.At); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "supervisory_visit", string(id))
	})
}

// SetSkilledCare says from a day on whether a child gets skilled care besides an aide's.
func (o *Office) SetSkilledCare(ctx context.Context, by assessment.Actor, client assessment.ClientID, f SkilledCareForm) error {
	return o.as(ctx, by, assessment.EditClients, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.Clients.Get(ctx, client); err != nil {
			return err
		}
		var faults form
		c := postgres.SkilledCare{Client: client, FromOn: faults.day("from", f.From), Skilled: f.Skilled, EpisodesFrom: faults.maybeDay("episodes", f.Episodes), SetBy: by.Person, SetAt: now.At}
		if err := faults.Err(); err != nil {
			return err
		}
		var err error
		if c.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Practice.SetSkilledCare(ctx, c); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditClients, "skilled_care", string(c.ID))
	})
}
