package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// Reliance is how far a certificate can be relied on on a day. A paper outlives
// what it says: the competency may have ended, what it rests on may have been
// taken back even where the skill is held by later demonstrations, and nobody
// answers for somebody who has left.
type Reliance struct {
	On          civil.Date
	Standing    assessment.Standing
	TakenBackOn civil.Date // first day on which a record that it rests on was taken back; zero: all stand
	LeftOn      civil.Date // first day on which the holder is no longer with the agency; zero: nobody has said so
}

// Left reports whether the holder has left by that day.
func (r Reliance) Left() bool { return gone(r.LeftOn, r.On) }

// Holds reports whether the certificate can be relied on.
func (r Reliance) Holds() bool {
	return r.Standing.Word.Holds() && r.TakenBackOn.IsZero() && !r.Left()
}

func (o *Office) reliance(ctx context.Context, tx *postgres.Tx, now Moment, t postgres.Certificate) (Reliance, error) {
	r := Reliance{On: now.Today}
	c, err := o.caseOf(ctx, tx, now, assessment.CaseKey{Person: t.PersonID, Skill: t.SkillID, Client: t.ClientID})
	if err != nil {
		return r, err
	}
	r.Standing = c.On(now.Today)
	person, err := tx.People.Get(ctx, t.PersonID)
	if err != nil {
		return r, err
	}
	r.LeftOn = person.LeftOn
	for _, id := range t.RestsOn {
		d, err := tx.Demonstrations.Get(ctx, id)
		if err != nil {
			return r, err
		}
		if d.CorrectedAt == nil {
			continue
		}
		if day := civil.DayOf(*d.CorrectedAt, now.Zone); r.TakenBackOn.IsZero() || day.Before(r.TakenBackOn) {
			r.TakenBackOn = day
		}
	}
	return r, nil
}
