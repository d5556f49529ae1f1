package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// WayView is how long a way is.
type WayView struct {
	ID      assessment.RecordID
	From    ClientRef
	To      string // a child's code, or a base by its name
	Minutes int
}

// TravelForm says how long a way is: from a home to another, or to a base by its name.
type TravelForm struct {
	From    assessment.ClientID
	To      assessment.ClientID // empty: the base
	Base    string
	Minutes string
}

// SetTravelTime says how long a way is, the same both ways.
func (o *Office) SetTravelTime(ctx context.Context, by assessment.Actor, f TravelForm) error {
	return o.visitPlanning(ctx, by, "way set", func(tx *postgres.Tx, now Moment) (string, error) {
		var faults form
		w := postgres.TravelTime{Client: f.From, Other: f.To, SetBy: by.Person, SetAt: now.At, Minutes: faults.whole("minutes", f.Minutes, 720, "Give the way in minutes, from 0 through 720.")}
		base := faults.maybe("base", f.Base, 80)
		switch {
		case f.From == "":
			faults.Add("from", "Choose the child.")
		case (f.To == "") == (base == ""):
			faults.Add("to", "Choose another child, or name the place: one of the two.")
		case f.From == f.To:
			faults.Add("to", "This is the same home. Choose another child.")
		}
		if err := faults.Err(); err != nil {
			return "", err
		}
		if w.Other != "" && w.Other < w.Client {
			w.Client, w.Other = w.Other, w.Client
		}
		var err error
		if w.Base, err = o.baseNamed(ctx, tx, now, by, base); err != nil {
			return "", err
		}
		if w.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return "", err
		}
		return string(w.ID), tx.Visits.SetTravelTime(ctx, w)
	})
}

// RemoveTravelTime forgets how long a way is: it then counts as one that nobody has measured.
func (o *Office) RemoveTravelTime(ctx context.Context, by assessment.Actor, id assessment.RecordID) error {
	return o.visitPlanning(ctx, by, "way removed", func(tx *postgres.Tx, now Moment) (string, error) {
		return string(id), tx.Visits.RemoveTravelTime(ctx, id)
	})
}
