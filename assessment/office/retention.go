package office

import (
	"context"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// RetentionForm is how long records are to be kept.
type RetentionForm struct {
	Years  string // empty: for ever
	Reason string
}

// RetentionView is how long records are kept, and who has set it so.
type RetentionView struct {
	assessment.Retention
	Reason string
	SetBy  PersonRef // empty: it was never set, and everything is kept for ever
	SetAt  time.Time
}

// SetRetention sets from how many years on an erasure may be asked for. It erases
// nothing.
func (o *Office) SetRetention(ctx context.Context, by assessment.Actor, f RetentionForm) error {
	var faults form
	kept := postgres.Retention{SetBy: by.Person}
	if typed := strings.TrimSpace(f.Years); typed != "" {
		years, err := strconv.Atoi(typed)
		if err != nil || years == 0 {
			faults.Add("years", "Enter a number of years, such as 7, or leave it empty to keep everything for ever.")
		}
		read, err := assessment.ReadRetention(years)
		faults.Take("years", err)
		kept.Years = read.Years
	}
	faults.reason(f.Reason, "Say why. It stays with the setting.")
	kept.Reason = faults.words("reason", f.Reason, 2000)
	return o.as(ctx, by, assessment.SetRetention, func(tx *postgres.Tx, now Moment) (err error) {
		if err := faults.Err(); err != nil {
			return err
		}
		if kept.ID, err = newID[string](o, now.At); err != nil {
			return err
		}
		kept.SetAt = now.At
		if err := tx.Erasures.SetRetention(ctx, kept); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.SetRetention, "retention", kept.ID)
	})
}

func retention(ctx context.Context, tx *postgres.Tx) (RetentionView, error) {
	kept, err := tx.Erasures.Retention(ctx)
	if fault.KindOf(err) == fault.NotFound {
		return RetentionView{}, nil
	}
	return RetentionView{Retention: assessment.Retention{Years: kept.Years}, Reason: kept.Reason, SetBy: PersonRef{ID: kept.SetBy, Name: kept.Setter}, SetAt: kept.SetAt}, err
}
