package office

import (
	"context"
	"slices"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/phrase"
	"wellshown/assessment/postgres"
)

// ShiftForm is one of the early shifts after discharge.
type ShiftForm struct {
	Person assessment.PersonID
	Starts string // YYYY-MM-DDTHH:MM on the agency's clocks
	Ends   string // the same; at most 24 hours later
}

// ShiftView is a planned shift.
type ShiftView struct {
	ID     assessment.RecordID
	Person assessment.PersonID
	Name   string
	Starts time.Time // on the agency's clocks
	Ends   time.Time
}

// longestShift is common practice, no source; it catches a mistyped year.
const longestShift = 24 * time.Hour

// PlanShift plans an early shift.
func (o *Office) PlanShift(ctx context.Context, by assessment.Actor, client assessment.ClientID, s ShiftForm) (ShiftView, error) {
	var v ShiftView
	err := o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		n, err := s.read(now)
		if err != nil {
			return err
		}
		if _, err := tx.Clients.Lock(ctx, client); err != nil {
			return err
		}
		if err := mayTake(ctx, tx, client, n); err != nil {
			return err
		}
		n.Client = client
		if n.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Plans.AddShift(ctx, n); err != nil {
			return err
		}
		kept, err := tx.Plans.Shift(ctx, n.ID)
		if err != nil {
			return err
		}
		v = viewShift(kept, now.Zone)
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "shift", string(n.ID))
	})
	return v, err
}

func (s ShiftForm) read(now Moment) (postgres.Shift, error) {
	var f form
	n := postgres.Shift{Person: s.Person, StartsAt: f.instant("starts", s.Starts, now), EndsAt: f.instant("ends", s.Ends, now)}
	if s.Person == "" {
		f.Add("person", "Choose who takes the shift.")
	}
	if !n.EndsAt.After(n.StartsAt) {
		f.Add("ends", "The shift ends before it starts.")
	}
	if n.EndsAt.Sub(n.StartsAt) > longestShift {
		f.Add("ends", "This shift is longer than 24 hours. Check the days, or plan it as several.")
	}
	return n, f.Err()
}

// mayTake refuses people that there are not, and the same shift twice.
func mayTake(ctx context.Context, tx *postgres.Tx, client assessment.ClientID, n postgres.Shift) error {
	p, err := tx.People.Get(ctx, n.Person)
	if err != nil {
		return err
	}
	planned, err := tx.Plans.Shifts(ctx, client)
	if err != nil {
		return err
	}
	for _, k := range planned {
		if k.Person == n.Person && k.StartsAt.Before(n.EndsAt) && n.StartsAt.Before(k.EndsAt) {
			return fault.Of(fault.Conflict, "%s has a shift with this child at that time already.", p.Name)
		}
	}
	return nil
}

func viewShift(s postgres.Shift, zone *time.Location) ShiftView {
	return ShiftView{ID: s.ID, Person: s.Person, Name: s.Name, Starts: s.StartsAt.In(zone), Ends: s.EndsAt.In(zone)}
}

// RemoveShift takes a shift off the plan.
func (o *Office) RemoveShift(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		if err := tx.Plans.RemoveShift(ctx, id); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "shift removed", string(id))
	})
}

// label names a shift by its times and who takes it.
func (v ShiftView) label() phrase.Phrase {
	return phrase.Of("%s, %s–%s, %s", civil.DayOf(v.Starts, v.Starts.Location()), v.Starts.Format("15:04"), v.Ends.Format("15:04"), v.Name)
}

// days are the civil days that a shift touches.
func (v ShiftView) days() []civil.Date {
	first, last := civil.DayOf(v.Starts, v.Starts.Location()), civil.DayOf(v.Ends.Add(-time.Nanosecond), v.Ends.Location())
	var days []civil.Date
	for d := first; !d.After(last); d = d.AddDays(1) {
		days = append(days, d)
	}
	return days
}

// lacking are the titles of skills in which whoever takes the shift is not current
// on some day of it: those that the plan names, since professionals reach the same
// competence as the family (ATS 2016, table 5, section 4), and those required of
// their kind for this child.
func (p *planned) lacking(s postgres.Shift, v ShiftView, skills []string) ([]phrase.Phrase, error) {
	var lacks []string
	for _, day := range v.days() {
		d := *p.demands
		d.on = day
		needed := slices.Clone(skills)
		for _, n := range d.of(s.Kind, s.Client) {
			if !slices.Contains(needed, n.Skill) {
				needed = append(needed, n.Skill)
			}
		}
		if len(needed) == 0 {
			return []phrase.Phrase{phrase.Of("any skill: none is required of them yet")}, nil
		}
		for _, code := range needed {
			standing, err := p.standing(s.Person, code, day)
			if err != nil {
				return nil, err
			}
			title := p.titles[code]
			if title == "" {
				title = code
			}
			if (!standing.Word.Holds() || gone(s.PersonLeft, day)) && !slices.Contains(lacks, title) {
				lacks = append(lacks, title)
			}
		}
	}
	return asTyped(lacks), nil
}

// asTyped are words that are the same in every language.
func asTyped(words []string) []phrase.Phrase {
	var all []phrase.Phrase
	for _, w := range words {
		all = append(all, phrase.Text(w))
	}
	return all
}
