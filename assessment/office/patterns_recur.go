package office

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// recurring is for how many days ahead a pattern is looked at for other shifts of the same
// person; common practice, no source. What comes later shows in coverage.
const recurring = 56

// instead is the pattern that another one takes the place of, from a day on; none for a new one.
type instead struct {
	pattern assessment.PatternID
	from    civil.Date
}

// mayRecur refuses a pattern of somebody who is not here, is of another kind, or has other
// shifts at the time. Whether they are current each day is what coverage tells: a pattern
// outlasts any standing.
func (o *Office) mayRecur(ctx context.Context, tx *postgres.Tx, now Moment, n postgres.RosterPattern, of instead) error {
	client, err := tx.Clients.Get(ctx, n.Client)
	if err != nil {
		return err
	}
	from := civil.Later(n.FromOn, now.Today)
	if err := clientOn(client, from); err != nil || n.Person == "" {
		return err
	}
	who, err := tx.People.Get(ctx, n.Person)
	switch {
	case err != nil:
		return err
	case who.Kind == "":
		return atPerson(who.Name + " is no caregiver here and cannot be on a shift.")
	case n.Kind != "" && n.Kind != who.Kind:
		return atPerson(fmt.Sprintf("These shifts ask for a caregiver of the kind %s, and %s is another.", n.Kind, who.Name))
	case gone(who.LeftOn, from):
		return atPerson(fmt.Sprintf("%s is no longer with the agency on %s.", who.Name, from))
	}
	b, err := o.coverBook(ctx, tx, now, from.AddDays(-besideRest), from.AddDays(recurring+besideRest), postgres.RosterFilter{})
	if err != nil {
		return err
	}
	var days []postgres.PatternDay
	if of.pattern != "" {
		if days, err = tx.Roster.PatternDays(ctx, []assessment.PatternID{of.pattern}, from, from.AddDays(recurring)); err != nil {
			return fmt.Errorf("read exceptions of a pattern: %w", err)
		}
	}
	return b.recurs(now, who, n, of, days, from)
}

// recurs looks for the first other shift of the same person that leaves no time or, without
// a reason, no rest. Days that are otherwise stay so, whoever is on them.
func (b *coverBook) recurs(now Moment, who postgres.Person, n postgres.RosterPattern, of instead, days []postgres.PatternDay, from civil.Date) error {
	const ours = "ours"
	weekly := n.Weekly()
	weekly.ID = ours
	var otherwise []assessment.PatternException
	for _, d := range days {
		e := d.Exception()
		e.Pattern = ours
		otherwise = append(otherwise, e)
	}
	shifts := assessment.PatternShifts([]assessment.Pattern{weekly}, otherwise, from, from.AddDays(recurring), now.Zone)
	shifts = slices.DeleteFunc(shifts, func(s assessment.Shift) bool { return s.Person != n.Person })
	for _, s := range b.shifts {
		pattern, day, _ := patternDay(s.ID)
		if s.Person == n.Person && (pattern == "" || pattern != of.pattern || day.Before(of.from)) {
			shifts = append(shifts, s)
		}
	}
	for _, c := range assessment.Clashes(shifts, b.rest) {
		isOurs := func(s assessment.Shift) bool { return strings.HasPrefix(string(s.ID), ours+".") }
		mine, other := c.First, c.Second
		if !isOurs(mine) {
			mine, other = other, mine
		}
		switch {
		case !isOurs(mine) || !c.Overlap && n.ShortRest != "":
			continue
		case c.Overlap:
			return b.cannot(now, who, mine, assessment.Obstacle{Why: assessment.OnAnother, Other: other})
		}
		return b.cannot(now, who, mine, assessment.Obstacle{Why: assessment.TooSoon, Other: other, Rest: c.Rest})
	}
	return nil
}
