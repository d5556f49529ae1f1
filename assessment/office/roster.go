package office

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// RosterShiftForm is a single shift as somebody puts it on the roster or changes it.
type RosterShiftForm struct {
	ID        string // made by whoever sends it, so that sending twice adds one; empty: made here
	Version   string // only when changing: of the shift as it was read
	Client    assessment.ClientID
	Person    assessment.PersonID // empty: nobody is on it yet
	Kind      string              // which kind of caregiver it asks for; empty: any
	Starts    string              // YYYY-MM-DDTHH:MM on the agency's clocks
	Ends      string
	ShortRest string
}

// AddRosterShift puts a shift on the roster.
func (o *Office) AddRosterShift(ctx context.Context, by assessment.Actor, f RosterShiftForm) (assessment.ShiftID, error) {
	var id assessment.ShiftID
	err := o.rostering(ctx, by, "shift added", func(tx *postgres.Tx, now Moment) (string, error) {
		n, err := f.read(now)
		if err != nil {
			return "", err
		}
		if n.ID, err = idOr[assessment.ShiftID](o, f.ID, now.At); err != nil {
			return "", err
		}
		id = n.ID
		if known, err := tx.Roster.Shift(ctx, id); err == nil {
			n.ShortRest = known.ShortRest
			if versionOf(known) != versionOf(n) || known.Client != n.Client {
				return "", fault.Of(fault.Conflict, "This shift is on the roster already, and not like this. Look at it, and change it there.")
			}
			return string(id), nil
		} else if fault.KindOf(err) != fault.NotFound {
			return "", err
		}
		if n.ShortRest, err = o.mayBeOn(ctx, tx, now, n, f.ShortRest); err != nil {
			return "", err
		}
		n.AddedBy, n.AddedAt = by.Person, now.At
		return string(id), tx.Roster.AddShift(ctx, n)
	})
	return id, err
}

// ChangeRosterShift changes a single shift that is not over. Whoever has read what no
// longer stands changes nothing.
func (o *Office) ChangeRosterShift(ctx context.Context, by assessment.Actor, id assessment.ShiftID, f RosterShiftForm) error {
	return o.rostering(ctx, by, "shift changed", func(tx *postgres.Tx, now Moment) (string, error) {
		known, err := o.lockedShift(ctx, tx, now, id, f.Version)
		if err != nil {
			return "", err
		}
		f.Client = known.Client
		n, err := f.read(now)
		if err != nil {
			return "", err
		}
		n.ID = id
		if n.ShortRest, err = o.mayBeOn(ctx, tx, now, n, f.ShortRest); err != nil {
			return "", err
		}
		return string(id), tx.Roster.SaveShift(ctx, n)
	})
}

// RemoveRosterShift takes a single shift that has not begun off the roster.
func (o *Office) RemoveRosterShift(ctx context.Context, by assessment.Actor, id assessment.ShiftID, version string) error {
	return o.rostering(ctx, by, "shift taken off", func(tx *postgres.Tx, now Moment) (string, error) {
		known, err := o.lockedShift(ctx, tx, now, id, version)
		if err != nil {
			return "", err
		}
		if !known.StartsAt.After(now.At) {
			return "", fault.Of(fault.Refused, "This shift has begun and stays on the roster. Change when it ends, or who is on it.")
		}
		return string(id), tx.Roster.RemoveShift(ctx, id)
	})
}

// rostering changes the roster: one at a time, so that nobody is put on two shifts at once
// by two people.
func (o *Office) rostering(ctx context.Context, by assessment.Actor, what string, do func(*postgres.Tx, Moment) (string, error)) error {
	return o.as(ctx, by, assessment.EditRoster, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Roster.Lock(ctx); err != nil {
			return fmt.Errorf("lock the roster: %w", err)
		}
		subject, err := do(tx, now)
		if err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditRoster, what, subject)
	})
}

func (o *Office) lockedShift(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.ShiftID, version string) (postgres.RosterShift, error) {
	if _, err := assessment.ParseID[assessment.ShiftID](string(id)); err != nil {
		return postgres.RosterShift{}, err
	}
	known, err := tx.Roster.LockShift(ctx, id)
	switch {
	case err != nil:
		return known, err
	case !known.EndsAt.After(now.At):
		return known, fault.Of(fault.Refused, "This shift is over. What was stays as it was.")
	case versionOf(known) != version:
		return known, fault.Of(fault.Conflict, "Somebody has changed this shift since you read it. Look at what it is now, then change that.")
	}
	return known, nil
}

// versionOf is a hash of what can be changed; the same as coverBook.version of it.
func versionOf(s postgres.RosterShift) string {
	return hashed(s.ID, s.Person, s.Kind, s.StartsAt.UnixMicro(), s.EndsAt.UnixMicro(), s.ShortRest)
}

func (f RosterShiftForm) read(now Moment) (postgres.RosterShift, error) {
	var faults form
	n := postgres.RosterShift{Client: f.Client, Person: f.Person, Kind: faults.caregiverKind("kind", f.Kind), StartsAt: faults.instant("starts", f.Starts, now), EndsAt: faults.instant("ends", f.Ends, now)}
	if err := faults.Err(); err != nil {
		return n, err
	}
	if err := n.Planned().Check(); err != nil {
		return n, err
	}
	if !n.EndsAt.After(now.At) {
		faults.Add("ends", "This is over already. The roster is for what comes.")
	}
	if n.StartsAt.Sub(now.At) > farthest {
		faults.Add("starts", "This is more than two years ahead. Check the year.")
	}
	return n, faults.Err()
}

// farthest is common practice, no source; it catches a mistyped year.
const farthest = 2 * 366 * 24 * time.Hour

// caregiverKind is a kind of caregiver, or none.
func (f *form) caregiverKind(field, typed string) assessment.CaregiverKind {
	k, err := assessment.ParseCaregiverKind(strings.TrimSpace(typed))
	f.Take(field, err)
	return k
}

// mayBeOn refuses a single shift that cannot be as it is asked for, and says why there is
// too little rest where there is.
func (o *Office) mayBeOn(ctx context.Context, tx *postgres.Tx, now Moment, n postgres.RosterShift, short string) (string, error) {
	client, err := tx.Clients.Get(ctx, n.Client)
	if err != nil {
		return "", err
	}
	day := civil.DayOf(n.StartsAt, now.Zone)
	if err := clientOn(client, day); err != nil || n.Person == "" {
		return "", err
	}
	b, err := o.coverBook(ctx, tx, now, day.AddDays(-besideRest), day.AddDays(besideRest), postgres.RosterFilter{})
	if err != nil {
		return "", err
	}
	s := n.Planned()
	s.Person = "" // nobody is in their own way
	return o.couldTake(ctx, tx, now, b, s, n.Person, short)
}

// SetRest says how many hours lie between two shifts of one person at least; empty: none.
func (o *Office) SetRest(ctx context.Context, by assessment.Actor, hours string) error {
	return o.rostering(ctx, by, "rest set", func(tx *postgres.Tx, now Moment) (string, error) {
		n := postgres.Rest{SetBy: by.Person, SetAt: now.At}
		if typed := strings.TrimSpace(hours); typed != "" {
			var f form
			var err error
			if n.Hours, err = strconv.Atoi(typed); err != nil || n.Hours < 1 || n.Hours > 24 {
				f.Add("hours", "Give the rest in whole hours, from 1 through 24, or leave it empty.")
				return "", f.Err()
			}
		}
		var err error
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return "", err
		}
		return string(n.ID), tx.Roster.SetRest(ctx, n)
	})
}
