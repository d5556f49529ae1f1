package office

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/postgres"
)

// DrillTimesForm is when the moments of a drill came, in whole seconds as they were typed or
// taken from the clock; empty: it did not happen.
type DrillTimesForm struct {
	Recognised, Acted, Called string
	TakenBack                 []assessment.DrillTap // tapped and taken back before this was sent
}

// mostTakenBack bounds what is kept of wrong taps.
const mostTakenBack = 100

func (f DrillTimesForm) read() (assessment.DrillTimes, error) {
	var faults form
	read := func(m assessment.DrillMoment, typed string) int {
		if strings.TrimSpace(typed) == "" {
			return assessment.NotInDrill
		}
		n, ok := wholeSeconds(typed)
		if !ok {
			faults.Add(string(m), "Give whole seconds, from 0 to %d, or nothing where it did not happen.", assessment.MostDrillSeconds)
		}
		return n
	}
	t := assessment.DrillTimes{Recognised: read(assessment.DrillRecognised, f.Recognised), Acted: read(assessment.DrillActed, f.Acted), Called: read(assessment.DrillCalled, f.Called)}
	for _, tap := range f.TakenBack {
		faults.Take("taken_back", tap.Check())
	}
	if len(f.TakenBack) > mostTakenBack {
		faults.Add("taken_back", "At most %d moments that were taken back are kept.", mostTakenBack)
	}
	return t, faults.Err()
}

// wholeSeconds reads seconds of a drill.
func wholeSeconds(typed string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimSpace(typed))
	return n, err == nil && n >= 0 && n <= assessment.MostDrillSeconds
}

// TimeDrill puts down when the moments of a drill came. What stood before and is otherwise
// now is kept as taken back.
func (o *Office) TimeDrill(ctx context.Context, by assessment.Actor, id assessment.DemonstrationID, f DrillTimesForm) (DrillView, error) {
	var v DrillView
	err := o.as(ctx, by, assessment.Observe, func(tx *postgres.Tx, now Moment) error {
		s, err := o.lockOwn(ctx, tx, by, id)
		if err != nil {
			return err
		}
		if !s.Drill {
			return notFound()
		}
		times, err := f.read()
		if err != nil {
			return err
		}
		d, err := tx.Drills.OfSheet(ctx, id)
		if err != nil {
			return err
		}
		if back := f.back(d, times); d.TimedAt == nil || times != d.Times() || len(back) != len(d.TakenBack) {
			if len(back) > mostTakenBack {
				return fault.Of(fault.Refused, "The moments of this drill were changed too often. Discard it and begin anew.")
			}
			if err := tx.Drills.SaveTimes(ctx, id, times, back, now.At); err != nil {
				return fmt.Errorf("put down the moments of a drill: %w", err)
			}
		}
		v, err = o.viewDrill(ctx, tx, now, s)
		return err
	})
	return v, err
}

// back is all that was taken back so far: what stood and is otherwise now, then what was
// tapped and taken back before this was sent; what is both is told once. A form that was
// sent twice adds nothing.
func (f DrillTimesForm) back(d postgres.SheetDrill, times assessment.DrillTimes) []assessment.DrillTap {
	back := slices.Clone(d.TakenBack)
	if d.TimedAt == nil {
		return append(back, f.TakenBack...)
	}
	for _, m := range assessment.DrillMoments {
		was := assessment.DrillTap{Moment: m, Seconds: d.Times().At(m)}
		if was.Seconds != times.At(m) && !slices.Contains(f.TakenBack, was) {
			back = append(back, was)
		}
	}
	if n := len(back) - len(f.TakenBack); n < 0 || !slices.Equal(back[n:], f.TakenBack) {
		back = append(back, f.TakenBack...)
	}
	return back
}
