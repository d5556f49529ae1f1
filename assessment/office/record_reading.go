package office

import (
	"context"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// RecordReading is a record with where its learner stands today.
type RecordReading struct {
	DemonstrationView
	Effect      civil.Date          // first day on which it counts; zero: it does not (yet)
	Standing    assessment.Standing // of the learner in the skill, today
	MayTakeBack bool                // the actor may
	Now         time.Time           // when a signature given now would be signed
	More        int                 // other records that wait for the actor's signature, once this one has both
	Speaks      string              // BCP 47 tag of the learner's language
	Licence     string              // that the observer's would stand with; empty: they have signed, or it is not for the actor
}

// ReadRecord is one record to read. Its own observer may look for it while it is
// still being marked, and is told so by ErrOpen.
func (o *Office) ReadRecord(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID) (RecordReading, error) {
	var v RecordReading
	err := o.as(ctx, by, assessment.ReadRecords, func(tx *postgres.Tx, now Moment) error {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return orOpen(ctx, tx, by, id, err)
		}
		if err := by.MayForCase(assessment.ReadRecords, d.LearnerID, d.ClientID); err != nil {
			return err
		}
		if v.DemonstrationView, err = o.viewDemonstration(ctx, tx, now, d); err != nil {
			return err
		}
		learner, err := tx.People.Get(ctx, d.LearnerID)
		if err != nil {
			return err
		}
		v.Speaks = learner.Language
		v.Effect = v.effect(now)
		v.MayTakeBack = d.CorrectedAt == nil && by.May(assessment.Correct) == nil && mayTakeBack(by, d) == nil
		v.Now = now.At
		if by.Person == d.ObserverID && v.SignedBy(PartObserver) == nil {
			if v.Licence, err = printedLicence(ctx, tx, now, d.ObserverID); err != nil {
				return err
			}
		}
		if v.SignedBy(PartObserver) != nil && v.SignedBy(PartLearner) != nil && (by.Person == d.ObserverID || by.Person == d.LearnerID) {
			if v.More, err = tx.Demonstrations.Count(ctx, postgres.DemonstrationFilter{Awaits: by.Person, Unsigned: true}); err != nil {
				return err
			}
		}
		key := assessment.CaseKey{Person: d.LearnerID, Skill: d.SkillID, Client: d.ClientID}
		c, err := o.caseOf(ctx, tx, now, key)
		if err != nil {
			return err
		}
		v.Standing = c.On(now.Today)
		return nil
	})
	return v, err
}

// effect is the day from which a record counts; zero while it does not. Practice
// and what was taken back count for nothing.
func (v DemonstrationView) effect(now Moment) civil.Date {
	if !v.Formal || v.CorrectedAt != nil {
		return civil.Date{}
	}
	e := assessment.Entry{Kind: assessment.DemonstrationEntry, At: v.PerformedAt, Outcome: v.Outcome}
	if s := v.SignedBy(PartObserver); s != nil {
		e.ObserverSigned = s.SignedAt
	}
	if s := v.SignedBy(PartLearner); s != nil {
		e.LearnerSigned = s.SignedAt
	}
	day, _ := e.EffectDay(now.Zone)
	return day
}

// printedLicence is what somebody's signature would stand with if it were given now.
func printedLicence(ctx context.Context, tx *postgres.Tx, now Moment, person assessment.PersonID) (string, error) {
	kept, err := tx.Qualifications.Licences(ctx, person)
	var all []assessment.Licence
	for _, l := range kept {
		all = append(all, assessment.Licence{Kind: l.Kind, Number: l.Number, Through: l.ThroughOn})
	}
	return asPrinted(all, now.Today), err
}
