package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// RecordReading is a record with where its learner stands today.
type RecordReading struct {
	DemonstrationView
	Effect   civil.Date          // first day on which it counts; zero: it does not (yet)
	Standing assessment.Standing // of the learner in the skill, today
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
		if err := by.MayFor(assessment.ReadRecords, d.LearnerID, false); err != nil {
			return err
		}
		if v.DemonstrationView, err = o.viewDemonstration(ctx, tx, now, d); err != nil {
			return err
		}
		v.Effect = v.effect(now)
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

// effect is the day from which a record counts: a pass from the day of the later
// signature, anything else from the day it was performed once its observer has
// signed. Practice and what was taken back count for nothing.
func (v DemonstrationView) effect(now Moment) civil.Date {
	observer, learner := v.SignedBy(PartObserver), v.SignedBy(PartLearner)
	performed := civil.DayOf(v.PerformedAt, now.Zone)
	switch {
	case !v.Formal || v.CorrectedAt != nil || observer == nil:
		return civil.Date{}
	case v.Outcome != assessment.Competent:
		return performed
	case learner == nil:
		return civil.Date{}
	}
	later := civil.Later(civil.DayOf(observer.SignedAt, now.Zone), civil.DayOf(learner.SignedAt, now.Zone))
	return civil.Later(later, performed)
}
