package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// TeachingCorrection puts another session in the place of one that was written down wrongly;
// one without learners says that there was none.
type TeachingCorrection struct {
	TeachingForm
	Of     assessment.RecordID
	Reason string
	Proof  Proof
}

// CorrectTeaching keeps the session as it was and a new one that names it. What the first
// one wrote into histories is taken back.
func (o *Office) CorrectTeaching(ctx context.Context, by assessment.Actor, f TeachingCorrection) (assessment.RecordID, error) {
	var id assessment.RecordID
	proof := f.Proof.over(f)
	look := func(tx *postgres.Tx, now Moment) (assessment.PersonID, error) {
		old, err := f.old(ctx, tx, by)
		if err != nil {
			return "", err
		}
		if _, _, err := f.new(ctx, o, tx, now, by, old); err != nil {
			return "", err
		}
		return by.Person, proof.tell(func() (string, error) {
			return because(fmt.Sprintf("Correct the teaching session of %s", old.HeldOn.Format("2 Jan 2006")), f.Reason), nil
		})
	}
	err := o.signing(ctx, by, assessment.Correct, proof, look, func(tx *postgres.Tx, now Moment) error {
		old, err := f.old(ctx, tx, by)
		if err != nil {
			return err
		}
		s, learners, err := f.new(ctx, o, tx, now, by, old)
		if err != nil {
			return err
		}
		id = s.ID
		if err := lockAll(ctx, tx, old.LearnerIDs, s.LearnerIDs); err != nil {
			return err
		}
		if err := o.takeTeachingBack(ctx, tx, now, by, old, f.Reason); err != nil {
			return err
		}
		if err := o.keepTeaching(ctx, tx, now, by, s, learners); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.Correct, "teaching_session", string(s.ID))
	})
	return id, err
}

// old is the session that is corrected; nobody corrects what they were taught themselves.
func (f TeachingCorrection) old(ctx context.Context, tx *postgres.Tx, by assessment.Actor) (postgres.TeachingSession, error) {
	if err := mustSayWhy(f.Reason); err != nil {
		return postgres.TeachingSession{}, err
	}
	old, err := tx.Teaching.Get(ctx, f.Of)
	switch {
	case err != nil:
		return old, err
	case old.Corrected != "":
		return old, fault.Of(fault.Conflict, "This session has been corrected already. Look at the one that stands in its place.")
	case slices.Contains(old.LearnerIDs, by.Person):
		return old, fault.Of(fault.Refused, "You cannot correct what you were taught yourself. Ask a colleague.")
	}
	return old, nil
}

func (f TeachingCorrection) new(ctx context.Context, o *Office, tx *postgres.Tx, now Moment, by assessment.Actor, old postgres.TeachingSession) (postgres.TeachingSession, []postgres.Learner, error) {
	s, learners, err := o.readTeaching(ctx, tx, now, by, f.TeachingForm)
	s.Corrects, s.Why = old.ID, f.Reason
	for _, l := range learners {
		s.LearnerIDs = append(s.LearnerIDs, l.Person)
	}
	return s, learners, err
}

// lockAll locks the histories of all that are named, by id, so that two who lock several
// never wait for each other.
func lockAll(ctx context.Context, tx *postgres.Tx, named ...[]assessment.PersonID) error {
	all := slices.Concat(named...)
	slices.Sort(all)
	for _, who := range slices.Compact(all) {
		if err := tx.History.Lock(ctx, who); err != nil {
			return fmt.Errorf("lock a history: %w", err)
		}
	}
	return nil
}

// takeTeachingBack takes back what a session wrote into histories, as TakeBack does.
func (o *Office) takeTeachingBack(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, old postgres.TeachingSession, reason string) error {
	wrote, err := tx.Teaching.Standing(ctx, old.ID)
	if err != nil {
		return fmt.Errorf("read what a session wrote: %w", err)
	}
	for _, entry := range wrote {
		s, err := o.signed(now, by, "", reason)
		if err != nil {
			return err
		}
		if err := tx.Exceptions.AddCorrection(ctx, assessment.TeachingEntry, string(entry), s); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.Correct, "correction", string(s.ID)); err != nil {
			return err
		}
	}
	for _, who := range old.LearnerIDs {
		if err := o.reindexPerson(ctx, tx, now, who); err != nil {
			return err
		}
	}
	return nil
}
