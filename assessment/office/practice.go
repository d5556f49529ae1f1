package office

import (
	"context"
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// Practice is which rules of practice the agency uses. Those that nobody has set are those that
// withhold most; what federal rules ask of home health aides is off until it is switched on.
type Practice struct {
	IncidentWithdraws assessment.IncidentScope
	IncidentByItself  bool // false: whoever records one says what it withdraws
	InService         bool
	InServiceRule     assessment.InServiceRule
	Supervision       bool
	SetBy             PersonRef // empty: nobody has set them
	SetAt             time.Time
}

// usualPractice is what holds where nobody has set anything.
var usualPractice = Practice{
	IncidentWithdraws: assessment.SkillAndRelated, IncidentByItself: true,
	InServiceRule: assessment.InServiceRule{Year: assessment.EmploymentAnniversary, Minutes: assessment.InServiceMinutes},
}

// PracticeForm sets them.
type PracticeForm struct {
	IncidentWithdraws string
	IncidentByItself  bool
	InService         bool
	InServiceHours    string // such as 12 or 7.5
	InServiceYear     string
	OrientationCounts bool
	Supervision       bool
}

// Practice answers which rules of practice are used.
func (o *Office) Practice(ctx context.Context, by assessment.Actor) (Practice, error) {
	var v Practice
	err := o.as(ctx, by, assessment.ReadReports, func(tx *postgres.Tx, _ Moment) (err error) {
		if v, err = practice(ctx, tx); err != nil || v.SetBy.ID == "" {
			return err
		}
		p, err := tx.People.Get(ctx, v.SetBy.ID)
		v.SetBy.Name = p.Name
		return err
	})
	return v, err
}

func practice(ctx context.Context, tx *postgres.Tx) (Practice, error) {
	kept, err := tx.Practice.Pack(ctx)
	if fault.KindOf(err) == fault.NotFound {
		return usualPractice, nil
	}
	return Practice{IncidentWithdraws: kept.IncidentWithdraws, IncidentByItself: kept.IncidentByItself, InService: kept.InService, Supervision: kept.Supervision,
		InServiceRule: assessment.InServiceRule{Year: kept.InServiceYear, Minutes: kept.InServiceMinutes, Orientation: kept.OrientationCounts},
		SetBy:         PersonRef{ID: kept.SetBy}, SetAt: kept.SetAt}, err
}

// SetPractice sets them from now on. It changes nobody's standing: what was withdrawn stays so.
func (o *Office) SetPractice(ctx context.Context, by assessment.Actor, f PracticeForm) error {
	var faults form
	kept := postgres.PracticePack{IncidentWithdraws: oneOf(&faults, "incident_withdraws", f.IncidentWithdraws, assessment.IncidentScopes), IncidentByItself: f.IncidentByItself,
		InService: f.InService, InServiceYear: oneOf(&faults, "in_service_year", f.InServiceYear, assessment.InServiceYears), OrientationCounts: f.OrientationCounts, Supervision: f.Supervision, SetBy: by.Person}
	kept.InServiceMinutes = faults.minutes("in_service_hours", f.InServiceHours, 200*60)
	if kept.InServiceMinutes > 0 && kept.InServiceMinutes < 60 {
		faults.Add("in_service_hours", "Give at least one hour.")
	}
	return o.as(ctx, by, assessment.SetPractice, func(tx *postgres.Tx, now Moment) (err error) {
		if err := faults.Err(); err != nil {
			return err
		}
		if kept.ID, err = newID[assessment.RecordID](o, now.At); err != nil {
			return err
		}
		kept.SetAt = now.At
		if err := tx.Practice.SetPack(ctx, kept); err != nil {
			return err
		}
		return o.note(ctx, tx, now, by, assessment.SetPractice, "practice_pack", string(kept.ID))
	})
}

// oneOf is one of the words that can be chosen.
func oneOf[T ~string](f *form, field, typed string, all []T) T {
	for _, one := range all {
		if string(one) == typed {
			return one
		}
	}
	f.Add(field, "Choose one of the answers in the list.")
	return ""
}

// minutes reads hours as whole minutes: 1.5, 1,5 or 1:30 for an hour and a half.
func (f *form) minutes(field, typed string, most int) int {
	const says = "Give the hours, such as 1.5 or 1:30, in whole minutes."
	hours, rest, clock := strings.Cut(strings.TrimSpace(typed), ":")
	read, ok := new(big.Rat).SetString(strings.Replace(hours, ",", ".", 1))
	if !ok || !plainHours(hours) || clock && (len(rest) != 2 || strings.ContainsAny(hours, ".,")) {
		f.Add(field, says)
		return 0
	}
	read.Mul(read, big.NewRat(60, 1))
	if clock {
		minutes, ok := new(big.Rat).SetString(rest)
		if !ok || !plainHours(rest) || minutes.Cmp(big.NewRat(59, 1)) > 0 {
			f.Add(field, says)
			return 0
		}
		read.Add(read, minutes)
	}
	switch {
	case !read.IsInt():
		f.Add(field, says)
	case read.Sign() <= 0 || read.Cmp(big.NewRat(int64(most), 1)) > 0:
		f.Add(field, "Give more than nothing and at most %d hours.", most/60)
	default:
		return int(read.Num().Int64())
	}
	return 0
}

// plainHours: digits with one point or comma at most, and few of them, so that nothing that is
// read as a number in another way gets here.
func plainHours(s string) bool {
	return s != "" && len(s) <= 8 && strings.Trim(s, "0123456789.,") == "" && strings.Count(s, ".")+strings.Count(s, ",") <= 1 && strings.ContainsAny(s, "0123456789")
}

// HoursOf writes minutes as hours: 12, or 7:30.
func HoursOf(minutes int) string {
	if minutes%60 == 0 {
		return strconv.Itoa(minutes / 60)
	}
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
}

// PracticeCounts is what of the rules for aides waits for somebody.
type PracticeCounts struct {
	InService   bool // hours are counted
	Ending      int  // aides who are short of hours, with a period that ends within 90 days
	Supervision bool // supervision is kept
	Overdue     int  // assessments
	Soon        int  // assessments due within 7 days
}

// practiceCounts reads nothing more where the rules are off.
func (o *Office) practiceCounts(ctx context.Context, tx *postgres.Tx, now Moment) (PracticeCounts, error) {
	rules, err := practice(ctx, tx)
	c := PracticeCounts{InService: rules.InService, Supervision: rules.Supervision}
	if err != nil {
		return c, err
	}
	if rules.InService {
		v, err := o.inService(ctx, tx, now, "")
		if err != nil {
			return c, err
		}
		for _, l := range v.Lines {
			if l.Ends {
				c.Ending++
			}
		}
	}
	if rules.Supervision {
		v, err := o.supervision(ctx, tx, now, "", "")
		if err != nil {
			return c, err
		}
		c.Overdue, c.Soon = v.Overdue, v.Soon
	}
	return c, nil
}
