package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// Transcript is all that a caregiver has shown and holds.
type Transcript struct {
	Agency       AgencyView
	Zone         *time.Location
	At           time.Time
	Standings    PersonStandings
	Records      []postgres.Demonstration // all of them, newest first
	Signatures   map[assessment.DemonstrationID][]postgres.Signature
	Certificates []postgres.Certificate // all of them, newest first
	CarriedIn    []CarriedEntry         // shown elsewhere, by old papers; nothing above comes of it
	Checks       []PassedCheck          // what they know, by the end of the day; nothing above comes of it
}

// Transcript answers for a day; the zero day is today.
func (o *Office) Transcript(ctx context.Context, by assessment.Actor, person assessment.PersonID, on civil.Date) (Transcript, error) {
	var v Transcript
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		if err := by.MayFor(assessment.ReadRecords, person, false); err != nil {
			return err
		}
		if on.IsZero() {
			on = now.Today
		}
		kept, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		p := viewPerson(kept)
		v = Transcript{Agency: viewAgency(now.Agency), Zone: now.Zone, At: now.At,
			Standings: PersonStandings{Person: p, On: on, Today: now.Today, Part: seenClients(by, assessment.ReadRecords, person) != nil}}
		if v.Standings.Rows, err = o.foldPerson(ctx, tx, now, p, on); err != nil {
			return err
		}
		v.Standings.Rows = within(by, assessment.ReadRecords, person, v.Standings.Rows, StandingView.of)
		if v.Records, err = tx.Demonstrations.All(ctx, postgres.DemonstrationFilter{Learner: person}); err != nil {
			return err
		}
		v.Records = within(by, assessment.ReadRecords, person, v.Records, recordFor)
		if v.Signatures, err = signaturesOn(ctx, tx, v.Records); err != nil {
			return err
		}
		v.Certificates, err = tx.Certificates.All(ctx, person)
		v.Certificates = within(by, assessment.ReadRecords, person, v.Certificates, certificateFor)
		if err != nil {
			return err
		}
		if v.CarriedIn, _, err = carriedIn(ctx, tx, by, person); err != nil {
			return err
		}
		if by.MayFor(assessment.ReadChecks, person, false) == nil { // a surveyor is not let in for these
			v.Checks, err = passedChecks(ctx, tx, now, person, on)
		}
		return err
	})
	return v, err
}

// signaturesOn are the signatures on some records, by record.
func signaturesOn(ctx context.Context, tx *postgres.Tx, records []postgres.Demonstration) (map[assessment.DemonstrationID][]postgres.Signature, error) {
	var ids []assessment.DemonstrationID
	for _, r := range records {
		ids = append(ids, r.ID)
	}
	all, err := tx.SignOffs.OfAll(ctx, ids)
	on := map[assessment.DemonstrationID][]postgres.Signature{}
	for _, s := range all {
		on[s.DemonstrationID] = append(on[s.DemonstrationID], s)
	}
	return on, err
}
