package office

import (
	"context"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// PatternForm is a weekly pattern as somebody adds or changes it.
type PatternForm struct {
	ID        string // made by whoever sends it; empty: made here
	Version   string // only when changing
	Client    assessment.ClientID
	Person    assessment.PersonID // empty: open shifts
	Kind      string
	Weekdays  []int  // 1 is Monday, 7 is Sunday
	From      string // HH:MM on the agency's clocks
	Until     string // HH:MM; not after From: on the next day
	FromOn    string // YYYY-MM-DD, the first day; today or later for a new one
	ThroughOn string // empty: until further notice
	ShortRest string
}

// AddPattern puts a weekly pattern on the roster. It is not refused for the standing of who is
// on it, which the pattern outlasts: coverage tells on which days it breaks.
func (o *Office) AddPattern(ctx context.Context, by assessment.Actor, f PatternForm) (assessment.PatternID, error) {
	var id assessment.PatternID
	err := o.rostering(ctx, by, "pattern added", func(tx *postgres.Tx, now Moment) (string, error) {
		n, err := f.read(now)
		if err != nil {
			return "", err
		}
		if n.ID, err = idOr[assessment.PatternID](o, f.ID, now.At); err != nil {
			return "", err
		}
		id = n.ID
		if known, err := tx.Roster.Pattern(ctx, id); err == nil {
			if patternVersion(known) != patternVersion(n) {
				return "", fault.Of(fault.Conflict, "This pattern is on the roster already, and not like this. Look at it, and change it there.")
			}
			return string(id), nil
		} else if fault.KindOf(err) != fault.NotFound {
			return "", err
		}
		if n.FromOn.Before(now.Today) {
			var faults form
			faults.Add("from_on", "This day is over. Begin today or later.")
			return "", faults.Err()
		}
		if err := o.mayRecur(ctx, tx, now, n, instead{}); err != nil {
			return "", err
		}
		n.AddedBy, n.AddedAt = by.Person, now.At
		return string(id), tx.Roster.AddPattern(ctx, n)
	})
	return id, err
}

// ChangePattern changes a pattern from today on, or from tomorrow where today's shift has
// begun. One that has begun ends the day before, and a new one goes on in its place with the
// exceptions to come, so that what was stays as it was; the id of the one that goes on is returned.
func (o *Office) ChangePattern(ctx context.Context, by assessment.Actor, id assessment.PatternID, f PatternForm) (assessment.PatternID, error) {
	goesOn := id
	err := o.rostering(ctx, by, "pattern changed", func(tx *postgres.Tx, now Moment) (string, error) {
		known, err := lockedPattern(ctx, tx, now, id, f.Version)
		if err != nil {
			return "", err
		}
		from, err := changesFrom(ctx, tx, now, known)
		if err != nil {
			return "", err
		}
		f.Client = known.Client
		if known.FromOn.Before(from) {
			f.FromOn = from.String()
		}
		n, err := f.read(now)
		if err != nil {
			return "", err
		}
		n.ID, n.AddedBy, n.AddedAt = id, by.Person, now.At
		if n.FromOn.Before(now.Today) {
			var faults form
			faults.Add("from_on", "This day is over. Begin today or later.")
			return "", faults.Err()
		}
		if err := o.mayRecur(ctx, tx, now, n, instead{id, from}); err != nil {
			return "", err
		}
		if !known.FromOn.Before(from) {
			return string(id), tx.Roster.SavePattern(ctx, n)
		}
		if n.ID, err = newID[assessment.PatternID](o, now.At); err != nil {
			return "", err
		}
		goesOn = n.ID
		if err := tx.Roster.AddPattern(ctx, n); err != nil {
			return "", err
		}
		if err := tx.Roster.MovePatternDays(ctx, id, n.ID, from); err != nil {
			return "", err
		}
		return string(n.ID), tx.Roster.EndPattern(ctx, id, from.AddDays(-1))
	})
	return goesOn, err
}

// EndPattern has no more shifts of a pattern begin. What was stays, and what has begun.
func (o *Office) EndPattern(ctx context.Context, by assessment.Actor, id assessment.PatternID, version string) error {
	return o.rostering(ctx, by, "pattern ended", func(tx *postgres.Tx, now Moment) (string, error) {
		known, err := lockedPattern(ctx, tx, now, id, version)
		if err != nil {
			return "", err
		}
		from, err := changesFrom(ctx, tx, now, known)
		if err != nil {
			return "", err
		}
		if !known.FromOn.Before(from) {
			return string(id), tx.Roster.RemovePattern(ctx, id)
		}
		if err := tx.Roster.DropPatternDays(ctx, id, from); err != nil {
			return "", err
		}
		return string(id), tx.Roster.EndPattern(ctx, id, from.AddDays(-1))
	})
}

func lockedPattern(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.PatternID, version string) (postgres.RosterPattern, error) {
	known, err := tx.Roster.LockPattern(ctx, id)
	switch {
	case err != nil:
		return known, err
	case !known.ThroughOn.IsZero() && known.ThroughOn.Before(now.Today):
		return known, fault.Of(fault.Refused, "This pattern ended on %s. What was stays as it was.", known.ThroughOn)
	case patternVersion(known) != version:
		return known, fault.Of(fault.Conflict, "Somebody has changed this pattern since you read it. Look at what it is now, then change that.")
	}
	return known, nil
}

func patternVersion(p postgres.RosterPattern) string {
	return hashed(p.ID, p.Client, p.Person, p.Kind, p.Weekdays, p.FromClock, p.UntilClock, p.FromOn.String(), p.ThroughOn.String(), p.ShortRest)
}

func (f PatternForm) read(now Moment) (postgres.RosterPattern, error) {
	var faults form
	n := postgres.RosterPattern{Client: f.Client, Person: f.Person, Kind: faults.caregiverKind("kind", f.Kind), FromClock: faults.clock("from", f.From), UntilClock: faults.clock("until", f.Until),
		FromOn: faults.day("from_on", f.FromOn), ThroughOn: faults.maybeDay("through_on", f.ThroughOn), ShortRest: f.ShortRest}
	for d := 1; d <= 7; d++ {
		if slices.Contains(f.Weekdays, d) {
			n.Weekdays = append(n.Weekdays, int16(d))
		}
	}
	if slices.ContainsFunc(f.Weekdays, func(d int) bool { return d < 1 || d > 7 }) {
		faults.Add("weekdays", "A day of the week is a number from 1, Monday, through 7, Sunday.")
	}
	if f.ShortRest != "" && !slices.Contains(ShortRests, f.ShortRest) {
		faults.Add("short_rest", "Choose one of the reasons in the list.")
	}
	if err := faults.Err(); err != nil {
		return n, err
	}
	if n.FromOn.Sub(now.Today) > 2*366 {
		faults.Add("from_on", "This is more than two years ahead. Check the year.")
		return n, faults.Err()
	}
	return n, n.Weekly().Check()
}

// clock is a time of day.
func (f *form) clock(field, typed string) int16 {
	c, err := civil.ParseClock(strings.TrimSpace(typed))
	f.Take(field, err)
	return int16(c)
}
