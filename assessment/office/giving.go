package office

import (
	"context"
	"fmt"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// ShortRests are the reasons that can be given for too little rest before or after a shift.
var ShortRests = []string{"nobody else could", "they asked for it", "handed over late", "emergency"}

// GiveForm puts somebody on a shift.
type GiveForm struct {
	Shift     assessment.ShiftID
	Version   string              // of the shift as it was read
	Person    assessment.PersonID // empty: nobody; the shift is open
	ShortRest string              // why, where there is less rest than is asked; else empty
}

// GiveShift puts somebody on a shift, or nobody. Who does not hold all that is needed, is of
// another kind, or is elsewhere at the time is refused; too little rest asks for a reason.
func (o *Office) GiveShift(ctx context.Context, by assessment.Actor, f GiveForm) error {
	return o.GiveShifts(ctx, by, []GiveForm{f})
}

// GiveShifts gives several shifts, all of them or none.
func (o *Office) GiveShifts(ctx context.Context, by assessment.Actor, all []GiveForm) error {
	switch {
	case len(all) == 0:
		return fault.Of(fault.Invalid, "Choose at least one shift.")
	case len(all) > MostShared:
		return fault.Of(fault.Invalid, "At most %d shifts are given at once. Choose fewer.", MostShared)
	}
	return o.as(ctx, by, assessment.EditRoster, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Roster.Lock(ctx); err != nil {
			return fmt.Errorf("lock the roster: %w", err)
		}
		for _, f := range all {
			if err := o.give(ctx, tx, now, by, f); err != nil {
				return err
			}
			if err := o.note(ctx, tx, now, by, assessment.EditRoster, "shift given", string(f.Shift[:min(len(f.Shift), uuidLength)])); err != nil {
				return err
			}
		}
		return nil
	})
}

func (o *Office) give(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, f GiveForm) error {
	b, s, err := o.bookOf(ctx, tx, now, f.Shift)
	if err != nil {
		return err
	}
	switch {
	case !s.Ends.After(now.At):
		return fault.Of(fault.Refused, "This shift is over. What was stays as it was.")
	case b.version(s) != f.Version:
		return fault.Of(fault.Conflict, "Somebody has changed this shift since you read it. Look at what it is now, then choose.")
	case f.Person == s.Person && f.Person != "":
		return fault.Of(fault.Conflict, "%s is on this shift already.", b.people[f.Person].Name)
	}
	short, err := o.couldTake(ctx, tx, now, b, s, f.Person, f.ShortRest)
	if err != nil {
		return err
	}
	if pattern, day, of := patternDay(s.ID); of {
		d, err := patternDayAsKept(ctx, tx, pattern, day)
		if err != nil {
			return err
		}
		d.Person, d.ShortRest, d.SetBy, d.SetAt = f.Person, short, by.Person, now.At
		return tx.Roster.SetPatternDay(ctx, d)
	}
	if b.told[s.ID].source == OfWayHome {
		if f.Person == "" {
			return fault.Of(fault.Refused, "An early shift of a way home always says who takes it. Give it to somebody, or take it off the plan.")
		}
		return tx.Plans.GiveShift(ctx, assessment.RecordID(s.ID), f.Person)
	}
	kept, err := tx.Roster.LockShift(ctx, s.ID)
	if err != nil {
		return err
	}
	if f.Person == "" && kept.Kind == "" {
		kept.Kind = b.people[kept.Person].Kind // who takes it after them is of their kind
	}
	kept.Person, kept.ShortRest = f.Person, short
	return tx.Roster.SaveShift(ctx, kept)
}

// patternDayAsKept is how it is on one day of a pattern: its exception, or what the pattern
// says. Its times are those of the clock, whatever clocks do that night.
func patternDayAsKept(ctx context.Context, tx *postgres.Tx, id assessment.PatternID, on civil.Date) (postgres.PatternDay, error) {
	p, err := tx.Roster.LockPattern(ctx, id)
	if err != nil {
		return postgres.PatternDay{}, err
	}
	days, err := tx.Roster.PatternDays(ctx, []assessment.PatternID{id}, on, on)
	if err != nil || len(days) > 0 {
		return append(days, postgres.PatternDay{})[0], err
	}
	return postgres.PatternDay{Pattern: id, FallsOn: on, Person: p.Person, FromClock: p.FromClock, UntilClock: p.UntilClock, ShortRest: p.ShortRest}, nil
}

// couldTake refuses whoever cannot be on a shift, and says why there is too little rest
// where there is; nobody always can.
func (o *Office) couldTake(ctx context.Context, tx *postgres.Tx, now Moment, b *coverBook, s assessment.Shift, person assessment.PersonID, short string) (string, error) {
	if person == "" {
		return "", nil
	}
	p, known := b.people[person]
	if !known {
		return "", notFound()
	}
	if short != "" && !slices.Contains(ShortRests, short) {
		var f form
		f.Add("short_rest", "Choose one of the reasons in the list.")
		return "", f.Err()
	}
	people := []assessment.PersonID{person}
	if !s.Open() && s.Person != person {
		people = append(people, s.Person) // whose kind is asked for
	}
	c, err := b.judge(ctx, tx, now, []assessment.Shift{s}, people, true)
	if err != nil {
		return "", err
	}
	_, not := c.StandIns(s)
	i := slices.IndexFunc(not, func(r assessment.Refused) bool { return r.Person == person })
	if i < 0 {
		return "", nil
	}
	if not[i].Why == assessment.TooSoon && short != "" {
		return short, nil
	}
	return "", b.cannot(now, p, s, not[i].Obstacle)
}

// cannot says to whoever puts somebody on a shift why they cannot be.
func (b *coverBook) cannot(now Moment, p postgres.Person, s assessment.Shift, o assessment.Obstacle) error {
	l := b.lack(now, o)
	when := s.Starts.In(now.Zone).Format("2 January 2006, 15:04")
	says := func(format string, args ...any) error { return atPerson(fmt.Sprintf(format, args...)) }
	switch o.Why {
	case assessment.NotHeld:
		return says("%s cannot take the shift of %s: not current in %s on %s (%s). Choose somebody who is, or have it shown first.", p.Name, when, l.Skill.Title, l.On, l.Word)
	case assessment.OtherKind:
		return says("The shift of %s asks for a caregiver of the kind %s, and %s is another.", when, o.Asks, p.Name)
	case assessment.NothingAsked:
		return says("Nothing is required of %s for this child on %s, so nothing shows that they can look after it. Set what is required first.", p.Name, l.On)
	case assessment.HasLeft:
		return says("%s is no longer with the agency on %s.", p.Name, l.On)
	case assessment.OnAnother:
		return says("%s is on another shift then: %s, from %s until %s.", p.Name, l.Other.Client.FirstName, l.Other.Starts.Format("2 January 2006, 15:04"), l.Other.Ends.Format("15:04"))
	case assessment.TooSoon:
		var f form
		f.Add("short_rest", "%s would have %s of rest beside the shift that starts on %s, and %s is asked. Choose somebody else, or say why.", p.Name, inHours(l.Rest), l.Other.Starts.Format("2 January 2006, 15:04"), inHours(b.rest))
		return f.Err()
	}
	return says("%s is no caregiver here and cannot be on a shift.", p.Name)
}

// atPerson is a refusal that stands at the field of who takes a shift.
func atPerson(says string) error {
	return &fault.Fault{Kind: fault.Refused, Message: says, Fields: map[string]string{"person": says}}
}

// inHours is a length of time in hours and minutes.
func inHours(d time.Duration) string {
	h, m := int(d/time.Hour), int(d%time.Hour/time.Minute)
	switch {
	case h == 0:
		return fmt.Sprintf("%d minutes", m)
	case m == 0 && h == 1:
		return "1 hour"
	case m == 0:
		return fmt.Sprintf("%d hours", h)
	}
	return fmt.Sprintf("%d h %d min", h, m)
}

// clientOn refuses a child who is not here yet or any more on a day.
func clientOn(c postgres.Client, on civil.Date) error {
	if gone(c.LeftOn, on) {
		return fault.Of(fault.Refused, "%s is no longer with the agency on %s.", c.FirstName, on)
	}
	if on.Before(c.SinceOn) {
		return fault.Of(fault.Refused, "The agency looks after %s from %s on. Choose that day or a later one, or change the start on the child's page.", c.FirstName, c.SinceOn)
	}
	return nil
}
