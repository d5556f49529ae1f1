package office

import (
	"context"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// LogForm is a skill taught, or used at work as reported.
type LogForm struct {
	Person assessment.PersonID
	Skill  string
	Client assessment.ClientID
	Kind   assessment.EntryKind // practice or teaching
	On     string
	Note   string
}

// Log writes down teaching or practice. Neither makes anyone competent.
func (o *Office) Log(ctx context.Context, by assessment.Actor, form LogForm) error {
	return o.as(ctx, by, assessment.LogCare, func(tx *postgres.Tx, now Moment) error {
		on, err := form.check(now)
		if err != nil {
			return err
		}
		if form.Person == by.Person {
			return fault.Of(fault.Refused, "What you were taught or did yourself is logged by somebody else. Ask a colleague.")
		}
		key, err := o.key(ctx, tx, ExceptionForm{Person: form.Person, Skill: form.Skill, Client: form.Client, Reason: "logged"})
		if err != nil {
			return err
		}
		id, err := newID[assessment.RecordID](o, now.At)
		if err != nil {
			return err
		}
		x := postgres.Exposure{ID: id, Key: key, Kind: form.Kind, On: on, Note: strings.TrimSpace(form.Note), RecordedAt: now.At, RecordedBy: by.Person}
		if err := tx.Exceptions.AddExposure(ctx, x); err != nil {
			return err
		}
		if err := o.note(ctx, tx, now, by, assessment.LogCare, string(form.Kind), string(id)); err != nil {
			return err
		}
		return o.reindexPerson(ctx, tx, now, form.Person)
	})
}

func (f LogForm) check(now Moment) (civil.Date, error) {
	var faults form
	faults.words("note", f.Note, 2000)
	on, err := civil.Parse(f.On)
	faults.Take("on", err)
	if err == nil && on.After(now.Today) {
		faults.Add("on", "This day has not come yet.")
	}
	if f.Kind != assessment.PracticeEntry && f.Kind != assessment.TeachingEntry {
		faults.Add("kind", "Choose teaching or practice.")
	}
	return on, faults.Err()
}
