package office

import (
	"context"
	"fmt"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// InServiceForm writes down training at work that was held.
type InServiceForm struct {
	ID          string // made by whoever sends it, so that sending twice adds one; empty: made here
	HeldOn      string
	Hours       string // such as 1.5 or 1:30
	Topic       string
	Trainer     string
	Counts      bool // toward in-service
	Orientation bool
	People      []assessment.PersonID // who took part
}

// AddSession writes down training that was held.
func (o *Office) AddSession(ctx context.Context, by assessment.Actor, f InServiceForm) (assessment.RecordID, error) {
	var id assessment.RecordID
	err := o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		s, err := f.read(now)
		if err != nil {
			return err
		}
		if s.ID, err = idOr[assessment.RecordID](o, f.ID, now.At); err != nil {
			return err
		}
		id = s.ID
		if known, err := tx.Practice.Session(ctx, s.ID); err == nil {
			if known.HeldOn == s.HeldOn && known.Minutes == s.Minutes && known.Topic == s.Topic && slices.Equal(known.People, s.People) {
				return nil
			}
			return fault.Of(fault.Conflict, "There is another record under this id.")
		} else if fault.KindOf(err) != fault.NotFound {
			return err
		}
		for _, p := range s.People {
			if err := tookPart(ctx, tx, s.HeldOn, p); err != nil {
				return err
			}
		}
		s.WrittenBy, s.WrittenAt = by.Person, now.At
		if err := tx.Practice.AddSession(ctx, s); err != nil {
			return fmt.Errorf("keep a session: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "in_service_session", string(s.ID))
	})
	return id, err
}

func (f InServiceForm) read(now Moment) (postgres.InServiceSession, error) {
	var faults form
	s := postgres.InServiceSession{HeldOn: faults.day("held_on", f.HeldOn), Minutes: faults.minutes("hours", f.Hours, 24*60), Topic: faults.line("topic", f.Topic, 200, "Say what it was about."),
		Trainer: faults.line("trainer", f.Trainer, 200, "Say who gave it."), Counts: f.Counts, Orientation: f.Orientation, People: slices.Clone(f.People)}
	if s.HeldOn.After(now.Today) {
		faults.Add("held_on", "This day is to come. Write it down once it was held.")
	}
	slices.Sort(s.People)
	if s.People = slices.Compact(s.People); len(s.People) == 0 {
		faults.Add("people", "Choose who took part.")
	}
	return s, faults.Err()
}

// tookPart refuses whoever was no longer here.
func tookPart(ctx context.Context, tx *postgres.Tx, on civil.Date, id assessment.PersonID) error {
	p, err := tx.People.Get(ctx, id)
	switch {
	case err != nil:
		return err
	case p.Kind != assessment.Aide && p.Kind != assessment.Nurse:
		return faultAt("people", p.Name+" is neither an aide nor a nurse here.")
	case gone(p.LeftOn, on):
		return faultAt("people", p.Name+" was no longer with the agency on that day.")
	}
	return nil
}

// TakeSessionBack has training that was written down by mistake count for nothing. It stays
// readable with the reason.
func (o *Office) TakeSessionBack(ctx context.Context, by assessment.Actor, id assessment.RecordID, reason string) error {
	return o.as(ctx, by, assessment.LogPractice, func(tx *postgres.Tx, now Moment) error {
		var f form
		why := f.words("reason", reason, 2000)
		if !assessment.Says(why) {
			f.Add("reason", "Say what is wrong with it. It stays readable.")
		}
		if err := f.Err(); err != nil {
			return err
		}
		s, err := tx.Practice.Session(ctx, id)
		switch {
		case err != nil:
			return err
		case s.TakenBackAt != nil:
			return fault.Of(fault.Conflict, "This was taken back already.")
		}
		if err := tx.Practice.TakeBackSession(ctx, id, by.Person, now.At, why); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.LogPractice, "in_service_session", string(id))
	})
}

// SetHired says since when somebody works for the agency: in-service hours by the anniversary
// count from it.
func (o *Office) SetHired(ctx context.Context, by assessment.Actor, person assessment.PersonID, on string) error {
	return o.as(ctx, by, assessment.EditPeople, func(tx *postgres.Tx, now Moment) error {
		var f form
		h := postgres.Hired{Person: person, HiredOn: f.day("on", on), SetBy: by.Person, SetAt: now.At}
		p, err := tx.People.Get(ctx, person)
		if err != nil {
			return err
		}
		if !p.LeftOn.IsZero() && !h.HiredOn.Before(p.LeftOn) {
			f.Add("on", "They left on %s, before this day.", p.LeftOn)
		}
		if err := f.Err(); err != nil {
			return err
		}
		if err := tx.Practice.SetHired(ctx, h); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditPeople, "employment", string(person))
	})
}
