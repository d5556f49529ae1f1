package office

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/postgres"
)

// RemindersForm says what people are reminded of, and when.
type RemindersForm struct {
	On        bool
	At        string // HH:MM on the agency's clocks
	Opens     bool
	Days      string // numbers with commas or spaces between them
	Lapsed    bool
	Unplanned string // days; empty or 0: not
	Rostered  bool
}

// Limits of what can be set; in days.
const (
	mostReminderDays  = 120
	mostReminderTimes = 6
	mostUnplanned     = 60
)

// SetReminders sets it from now on. What was told stays told.
func (o *Office) SetReminders(ctx context.Context, by assessment.Actor, f RemindersForm) error {
	return o.as(ctx, by, assessment.EditReminders, func(tx *postgres.Tx, now Moment) error {
		n, err := f.read()
		if err != nil {
			return err
		}
		if n.ID, err = newID[string](o, now.At); err != nil {
			return err
		}
		n.SetBy, n.SetAt = by.Person, now.At
		if err := tx.Reminders.SetRule(ctx, n); err != nil {
			return fmt.Errorf("set reminders: %w", err)
		}
		return o.note(ctx, tx, now, by, assessment.EditReminders, "reminders set", n.ID)
	})
}

func (f RemindersForm) read() (postgres.ReminderRule, error) {
	var faults form
	n := postgres.ReminderRule{Off: !f.On, Opens: f.Opens, Lapsed: f.Lapsed, Rostered: f.Rostered, Days: []int{}}
	at, err := civil.ParseClock(strings.TrimSpace(f.At))
	if err != nil {
		faults.Add("at", "Give the time of day as HH:MM, such as 07:00.")
	}
	n.AtClock = int(at)
	for _, typed := range strings.FieldsFunc(f.Days, func(r rune) bool { return r == ',' || r == ';' || r == ' ' }) {
		days, err := strconv.Atoi(typed)
		if err != nil || days < 1 || days > mostReminderDays {
			faults.Add("days", "Give numbers of days from 1 through %d, with commas between them, such as: 30, 14, 7.", mostReminderDays)
			break
		}
		if !slices.Contains(n.Days, days) {
			n.Days = append(n.Days, days)
		}
	}
	slices.SortFunc(n.Days, func(a, b int) int { return b - a })
	if len(n.Days) > mostReminderTimes {
		faults.Add("days", "Give %d numbers at most: who is told every day stops reading.", mostReminderTimes)
	}
	if typed := strings.TrimSpace(f.Unplanned); typed != "" {
		if n.Unplanned, err = strconv.Atoi(typed); err != nil || n.Unplanned < 0 || n.Unplanned > mostUnplanned {
			faults.Add("unplanned", "Give a number of days from 0 through %d; 0 tells nobody.", mostUnplanned)
		}
	}
	if f.On && !n.Opens && len(n.Days) == 0 && !n.Lapsed && n.Unplanned == 0 && !n.Rostered {
		faults.Add("on", "Nothing is chosen that people are reminded of. Choose something, or switch reminders off.")
	}
	return n, faults.Err()
}
