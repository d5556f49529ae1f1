package office

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// VisitWeeksView is how an educator's weeks are.
type VisitWeeksView struct {
	Educator PersonRef
	Set      bool  // somebody has said so; else it is what is taken for granted
	DaysOff  []int // each week: 1 is Monday, 7 is Sunday
	PerDay   int
	Base     BaseView
	Off      []DaysOffView
}

// DaysOffView is days on which they make no visits.
type DaysOffView struct {
	ID      assessment.RecordID
	From    civil.Date
	Through civil.Date
}

// BaseView is a place that educators start from.
type BaseView struct {
	ID   assessment.RecordID
	Name string
}

// viewWeeks adds what can be set.
func (b *visitBook) viewWeeks(ctx context.Context, tx *postgres.Tx, now Moment, v *VisitsView) error {
	bases, err := tx.Visits.Bases(ctx)
	if err != nil {
		return fmt.Errorf("read bases: %w", err)
	}
	named := map[assessment.RecordID]string{}
	for _, base := range bases {
		named[base.ID] = base.Name
		v.Bases = append(v.Bases, BaseView{base.ID, base.Name})
	}
	off, err := tx.Visits.DaysOff(ctx, now.Today)
	if err != nil {
		return fmt.Errorf("read days off: %w", err)
	}
	for _, e := range b.educators {
		w, set := b.weeks[e.Person]
		line := VisitWeeksView{Educator: b.table.names.people[e.Person], Set: set, DaysOff: UsualDaysOff, PerDay: e.PerDay, Base: BaseView{w.Base, named[w.Base]}}
		if set {
			line.DaysOff = nil
			for _, d := range w.DaysOff {
				line.DaysOff = append(line.DaysOff, int(d))
			}
		}
		for _, d := range off {
			if d.Person == e.Person {
				line.Off = append(line.Off, DaysOffView{d.ID, d.FromOn, d.ThroughOn})
			}
		}
		v.Educators = append(v.Educators, line)
	}
	for _, w := range b.ways {
		to := named[w.Base]
		if w.Other != "" {
			to = b.table.names.clients[w.Other].Code
		}
		v.Ways = append(v.Ways, WayView{w.ID, b.table.names.clients[w.Client], to, w.Minutes})
	}
	clients, err := tx.Clients.List(ctx, postgres.ClientFilter{On: now.Today})
	if err != nil {
		return fmt.Errorf("read children: %w", err)
	}
	for _, c := range clients {
		v.Clients = append(v.Clients, ClientRef{c.ID, c.Code, c.FirstName})
	}
	return nil
}

// AvailabilityForm is how an educator's weeks are.
type AvailabilityForm struct {
	DaysOff []int  // each week: 1 is Monday, 7 is Sunday
	PerDay  string // visits at most
	Base    string // the name of a place; empty: not known
}

// SetAvailability says how an educator's weeks are from now on. A place that there is not
// yet is named by it.
func (o *Office) SetAvailability(ctx context.Context, by assessment.Actor, educator assessment.PersonID, f AvailabilityForm) error {
	return o.visitPlanning(ctx, by, "availability set", func(tx *postgres.Tx, now Moment) (string, error) {
		if err := isEducator(ctx, tx, now, educator); err != nil {
			return "", err
		}
		var faults form
		a := postgres.Availability{Person: educator, DaysOff: []int16{}, SetBy: by.Person, SetAt: now.At}
		for _, d := range f.DaysOff {
			if d < 1 || d > 7 {
				faults.Add("days_off", "The days of the week are 1, Monday, through 7, Sunday.")
				break
			}
			a.DaysOff = append(a.DaysOff, int16(d))
		}
		slices.Sort(a.DaysOff)
		a.DaysOff = slices.Compact(a.DaysOff)
		a.PerDay = faults.whole("per_day", f.PerDay, 12, "Give the visits on one day, from 0 through 12.")
		base := faults.maybe("base", f.Base, 80)
		if err := faults.Err(); err != nil {
			return "", err
		}
		var err error
		if a.Base, err = o.baseNamed(ctx, tx, now, by, base); err != nil {
			return "", err
		}
		return string(educator), tx.Visits.SetAvailability(ctx, a)
	})
}

// whole is a whole number from 0 through most.
func (f *form) whole(field, typed string, most int, says string) int {
	n, err := strconv.Atoi(strings.TrimSpace(typed))
	if err != nil || n < 0 || n > most {
		f.Add(field, "%s", says)
	}
	return n
}

func isEducator(ctx context.Context, tx *postgres.Tx, now Moment, id assessment.PersonID) error {
	p, err := tx.People.Get(ctx, id)
	switch {
	case err != nil:
		return err
	case !slices.Contains(p.Roles, assessment.Educator) || gone(p.LeftOn, now.Today):
		return fault.Of(fault.Refused, "%s is no educator here and makes no visits.", p.Name)
	}
	return nil
}

// baseNamed is the place of a name, added where there is none; none for no name.
func (o *Office) baseNamed(ctx context.Context, tx *postgres.Tx, now Moment, by assessment.Actor, name string) (assessment.RecordID, error) {
	if name == "" {
		return "", nil
	}
	bases, err := tx.Visits.Bases(ctx)
	if err != nil {
		return "", err
	}
	for _, b := range bases {
		if strings.EqualFold(b.Name, name) {
			return b.ID, nil
		}
	}
	id, err := newID[assessment.RecordID](o, now.At)
	if err != nil {
		return "", err
	}
	return id, tx.Visits.AddBase(ctx, postgres.VisitBase{ID: id, Name: name, AddedBy: by.Person, AddedAt: now.At})
}

// AddDaysOff writes down days on which an educator makes no visits; no last day: one day.
func (o *Office) AddDaysOff(ctx context.Context, by assessment.Actor, educator assessment.PersonID, from, through string) error {
	return o.visitPlanning(ctx, by, "days off added", func(tx *postgres.Tx, now Moment) (string, error) {
		if err := isEducator(ctx, tx, now, educator); err != nil {
			return "", err
		}
		if strings.TrimSpace(through) == "" {
			through = from
		}
		first, last, err := daysOf(from, through)
		if err != nil {
			return "", err
		}
		if last.Before(now.Today) {
			var f form
			f.Add("through", "These days are over already.")
			return "", f.Err()
		}
		d := postgres.DaysOff{Person: educator, FromOn: first, ThroughOn: last, AddedBy: by.Person, AddedAt: now.At}
		if d.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return "", err
		}
		return string(d.ID), tx.Visits.AddDaysOff(ctx, d)
	})
}

// RemoveDaysOff takes days off away again.
func (o *Office) RemoveDaysOff(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.visitPlanning(ctx, by, "days off removed", func(tx *postgres.Tx, now Moment) (string, error) {
		return string(id), tx.Visits.RemoveDaysOff(ctx, id)
	})
}
