package knowledge

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// Rule says what passes, and when somebody may try again. All of it is the agency's.
type Rule struct {
	Length   int               // items of a form
	PassMark assessment.Number // 0 to 1: the share that must be right
	Months   int               // a pass holds so long, through the same day; 0: without end
	Wait     time.Duration     // from a try that did not pass to the next
	Tries    int               // in a row without a pass, before somebody teaches again; 0: as many as they like
}

// Result is what a sitting comes to.
type Result struct {
	Right, All int
	Missed     []string // items not right, in the order of the form
	Critical   []string // those of them that are critical
	Passed     bool
}

// Judge judges a whole form. What is critical must be right, whatever the score.
func (r Rule) Judge(form []Item, answers []Answer) Result {
	given := map[string]Answer{}
	for _, a := range answers {
		if _, twice := given[a.Item]; !twice { // the first stands
			given[a.Item] = a
		}
	}
	v := Result{All: len(form)}
	for _, i := range form {
		if i.Correct(given[i.ID]) {
			v.Right++
			continue
		}
		v.Missed = append(v.Missed, i.ID)
		if i.Critical {
			v.Critical = append(v.Critical, i.ID)
		}
	}
	v.Passed = v.All > 0 && len(v.Critical) == 0 && v.share().Cmp(r.PassMark) >= 0
	return v
}

func (v Result) share() assessment.Number {
	return assessment.Whole(v.Right).Over(assessment.Whole(v.All))
}

// Sitting is one try that was handed in.
type Sitting struct {
	Ended  time.Time
	Passed bool
}

// Through is the last day of a pass; the zero day where it has no end. A day later it
// is as if it had not been.
func (r Rule) Through(passed civil.Date) civil.Date {
	if r.Months == 0 {
		return civil.Date{}
	}
	return passed.AddMonths(r.Months)
}

// Suffices reports whether so many right of so many would pass by this rule. Whoever passed
// by a rule that asked less is asked again.
func (r Rule) Suffices(right, of int) bool {
	return of > 0 && of >= r.Length && Result{Right: right, All: of}.share().Cmp(r.PassMark) >= 0
}

// Holds reports whether somebody who passed on some days has a pass on a day.
func (r Rule) Holds(passed []civil.Date, on civil.Date) bool {
	for _, p := range passed {
		if !p.IsZero() && !p.After(on) && (r.Months == 0 || !on.After(r.Through(p))) {
			return true
		}
	}
	return false
}

// Next is when somebody may try, and whether they must be taught before: after so many
// tries in a row without a pass and with no teaching since the last of them.
func (r Rule) Next(sittings []Sitting, taught []time.Time) (from time.Time, teach bool) {
	var last time.Time
	row := 0
	for _, s := range sittings { // in the order in which they ended
		if s.Passed {
			last, row = time.Time{}, 0
			continue
		}
		if taughtBetween(taught, last, s.Ended) {
			row = 0
		}
		last, row = s.Ended, row+1
	}
	if last.IsZero() {
		return time.Time{}, false
	}
	teach = r.Tries > 0 && row >= r.Tries
	for _, t := range taught {
		if t.After(last) {
			teach = false
		}
	}
	return last.Add(r.Wait), teach
}

func taughtBetween(taught []time.Time, from, to time.Time) bool {
	for _, t := range taught {
		if !from.IsZero() && t.After(from) && t.Before(to) {
			return true
		}
	}
	return false
}
