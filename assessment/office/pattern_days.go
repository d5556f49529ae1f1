package office

import (
	"context"
	"fmt"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PatternDayForm says how it is on one day of a pattern.
type PatternDayForm struct {
	Version   string // of the pattern as it was read
	On        string // YYYY-MM-DD
	LeftOut   bool
	Person    assessment.PersonID // empty: it is open that day
	From      string
	Until     string
	ShortRest string
}

// SetPatternDay leaves one day of a pattern out, or has somebody else or other times.
func (o *Office) SetPatternDay(ctx context.Context, by assessment.Actor, id assessment.PatternID, f PatternDayForm) error {
	return o.rostering(ctx, by, "pattern day set", func(tx *postgres.Tx, now Moment) (string, error) {
		known, err := lockedPattern(ctx, tx, now, id, f.Version)
		if err != nil {
			return "", err
		}
		var faults form
		d := postgres.PatternDay{Pattern: id, FallsOn: faults.day("on", f.On), LeftOut: f.LeftOut, Person: f.Person, FromClock: known.FromClock, UntilClock: known.UntilClock, SetBy: by.Person, SetAt: now.At}
		if !f.LeftOut {
			d.FromClock, d.UntilClock = faults.clock("from", f.From), faults.clock("until", f.Until)
		} else {
			d.Person = ""
		}
		switch weekly := known.Weekly(); {
		case d.FallsOn.IsZero():
		case !weekly.FallsOn(d.FallsOn):
			faults.Add("on", "The pattern has no shift that begins on this day.")
		case d.FallsOn.Before(now.Today):
			faults.Add("on", "This day is over. What was stays as it was.")
		}
		if err := faults.Err(); err != nil {
			return "", err
		}
		if err := notOver(ctx, tx, now, known, d.FallsOn); err != nil {
			return "", err
		}
		if e := d.Exception(); !f.LeftOut {
			if s, _ := known.Weekly().On(d.FallsOn, now.Zone, &e); !s.Ends.After(now.At) {
				faults.Add("until", "This is over already. The roster is for what comes.")
				return "", faults.Err()
			}
		}
		if d.ShortRest, err = o.mayTakeDay(ctx, tx, now, known, d, f.ShortRest); err != nil {
			return "", err
		}
		return string(id), tx.Roster.SetPatternDay(ctx, d)
	})
}

func (o *Office) mayTakeDay(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.RosterPattern, d postgres.PatternDay, short string) (string, error) {
	if d.LeftOut || d.Person == "" {
		return "", nil
	}
	e := d.Exception()
	s, _ := p.Weekly().On(d.FallsOn, now.Zone, &e)
	b, err := o.coverBook(ctx, tx, now, d.FallsOn.AddDays(-besideRest), d.FallsOn.AddDays(besideRest), postgres.RosterFilter{})
	if err != nil {
		return "", err
	}
	s.Person = ""
	if s.Kind == "" && p.Person != "" {
		s.Kind = b.people[p.Person].Kind // an aide never stands in for a nurse because nobody said so
	}
	return o.couldTake(ctx, tx, now, b, s, d.Person, short)
}

// LiftPatternDay has a day to come be as the pattern says.
func (o *Office) LiftPatternDay(ctx context.Context, by assessment.Actor, id assessment.PatternID, on civil.Date) error {
	return o.rostering(ctx, by, "pattern day lifted", func(tx *postgres.Tx, now Moment) (string, error) {
		if on.Before(now.Today) {
			return "", fault.Of(fault.Refused, "This day is over. What was stays as it was.")
		}
		known, err := tx.Roster.LockPattern(ctx, id)
		if err != nil {
			return "", err
		}
		if err := notOver(ctx, tx, now, known, on); err != nil {
			return "", err
		}
		return string(id), tx.Roster.LiftPatternDay(ctx, id, on)
	})
}

// notOver refuses a day whose shift is over, whoever was on it.
func notOver(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.RosterPattern, on civil.Date) error {
	s, there, err := shiftOn(ctx, tx, now, p, on)
	if err == nil && there && !s.Ends.After(now.At) {
		return fault.Of(fault.Refused, "This shift is over. What was stays as it was.")
	}
	return err
}

// shiftOn is a pattern's shift that begins on a day, as it is kept; false where there is none.
func shiftOn(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.RosterPattern, on civil.Date) (assessment.Shift, bool, error) {
	days, err := tx.Roster.PatternDays(ctx, []assessment.PatternID{p.ID}, on, on)
	if err != nil {
		return assessment.Shift{}, false, fmt.Errorf("read a day of a pattern: %w", err)
	}
	var otherwise *assessment.PatternException
	for _, d := range days {
		e := d.Exception()
		otherwise = &e
	}
	s, there := p.Weekly().On(on, now.Zone, otherwise)
	return s, there, nil
}

// changesFrom is the first day on which a pattern can still become another one: today, or
// tomorrow where today's shift has begun, which stays as it is.
func changesFrom(ctx context.Context, tx *postgres.Tx, now Moment, p postgres.RosterPattern) (civil.Date, error) {
	s, there, err := shiftOn(ctx, tx, now, p, now.Today)
	if err == nil && there && !s.Starts.After(now.At) {
		return now.Today.AddDays(1), nil
	}
	return now.Today, err
}
