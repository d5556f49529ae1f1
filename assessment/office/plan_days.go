package office

import (
	"context"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// PlanDaysForm is when a child is to go home.
type PlanDaysForm struct {
	Meeting string // YYYY-MM-DD, of the discharge meeting; empty: not set
	Home    string // YYYY-MM-DD, of going home; empty: not set
}

// PlanDays are the days of a child's way home; zero ones are not set.
type PlanDays struct {
	Meeting civil.Date
	Home    civil.Date
}

// By is until when all should be in place: the meeting, else the day of going home.
func (d PlanDays) By() civil.Date {
	if d.Meeting.IsZero() {
		return d.Home
	}
	return d.Meeting
}

// SetPlanDays sets the days of a child's way home. One that is past is refused, unless it
// was set before.
func (o *Office) SetPlanDays(ctx context.Context, by assessment.Actor, client assessment.ClientID, form PlanDaysForm) error {
	return o.as(ctx, by, assessment.EditReadiness, func(tx *postgres.Tx, now Moment) error {
		if _, err := tx.Clients.Lock(ctx, client); err != nil {
			return err
		}
		before, err := planDays(ctx, tx, now, client)
		if err != nil {
			return err
		}
		days, err := form.read(now, before)
		if err != nil || days == before {
			return err
		}
		row := postgres.PlanDays{Client: client, MeetingOn: days.Meeting, HomeOn: days.Home, SetAt: now.At, SetBy: by.Person}
		if row.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		if err := tx.Plans.SetDays(ctx, row); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.EditReadiness, "plan days", string(client))
	})
}

func (p PlanDaysForm) read(now Moment, before PlanDays) (PlanDays, error) {
	var f form
	days := PlanDays{f.maybeDay("meeting", p.Meeting), f.maybeDay("home", p.Home)}
	past := func(field string, day, before civil.Date) {
		if !day.IsZero() && day.Before(now.Today) && day != before {
			f.Add(field, "This day is past. Choose today or later.")
		}
	}
	past("meeting", days.Meeting, before.Meeting)
	past("home", days.Home, before.Home)
	if !days.Home.IsZero() && days.Home.Before(days.Meeting) {
		f.Add("home", "The meeting comes before the day of going home.")
	}
	return days, f.Err()
}

func planDays(ctx context.Context, tx *postgres.Tx, now Moment, client assessment.ClientID) (PlanDays, error) {
	rows, err := tx.Plans.Days(ctx, now.At, client)
	for _, r := range rows {
		return PlanDays{r.MeetingOn, r.HomeOn}, err
	}
	return PlanDays{}, err
}
