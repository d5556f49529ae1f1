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
	Open     time.Duration     // from beginning to handing in; 0: without end
}

// UsualOpen is how long a sitting is open where nobody has said: long enough to be called
// away to a child, too short to learn the answers meanwhile (common practice, no source).
const UsualOpen = 4 * time.Hour

// Ends is the last instant at which a sitting can be handed in as a pass; zero: it has none.
func (r Rule) Ends(begun time.Time) time.Time {
	if r.Open == 0 {
		return time.Time{}
	}
	return begun.Add(r.Open)
}

// Over reports whether the time of a sitting is over at an instant. Before it was begun, by a
// clock that was set right since, nobody can tell how long it took: then it is over.
func (r Rule) Over(begun, at time.Time) bool {
	return r.Open > 0 && (at.After(r.Ends(begun)) || at.Before(begun))
}

// Ended is when a try was over: when it was handed in, or before that, when its time was.
// What was taught since then was taught after it.
func (r Rule) Ended(begun, handedIn time.Time) time.Time {
	if r.Over(begun, handedIn) && !handedIn.Before(begun) {
		return r.Ends(begun)
	}
	return handedIn
}

// Result is what a sitting comes to.
type Result struct {
	Right, All int
	Missed     []string // items not right, in the order of the form
	Critical   []string // those of them that are critical
	Late       bool     // handed in when its time was over
	Passed     bool
}

// Judge judges a whole form. What is critical must be right, whatever the score, and what is
// handed in when its time is over is no pass, whatever was answered.
func (r Rule) Judge(form []Item, answers []Answer, begun, handedIn time.Time) Result {
	given := map[string]Answer{}
	for _, a := range answers {
		if _, twice := given[a.Item]; !twice { // the first stands
			given[a.Item] = a
		}
	}
	v := Result{All: len(form), Late: r.Over(begun, handedIn)}
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
	v.Passed = !v.Late && v.All > 0 && len(v.Critical) == 0 && v.share().Cmp(r.PassMark) >= 0
	return v
}

func (v Result) share() assessment.Number {
	return assessment.Whole(v.Right).Over(assessment.Whole(v.All))
}

// Sitting is one try that was handed in.
type Sitting struct {
	Ended  time.Time
	Told   time.Time // when it was handed in, and what is right was told
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
// tries in a row without a pass and with no teaching since the last of them. The time to
// wait begins when what is right was told: else whoever lets the time of a try go by, and
// reads the answers later, could write them down in the next one at once.
func (r Rule) Next(sittings []Sitting, taught []time.Time) (from time.Time, teach bool) {
	var last, told time.Time
	row := 0
	for _, s := range sittings { // in the order in which they ended
		if s.Passed {
			last, row = time.Time{}, 0
			continue
		}
		if taughtBetween(taught, last, s.Ended) {
			row = 0
		}
		last, told, row = s.Ended, s.Told, row+1
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
	return told.Add(r.Wait), teach
}

func taughtBetween(taught []time.Time, from, to time.Time) bool {
	for _, t := range taught {
		if !from.IsZero() && t.After(from) && t.Before(to) {
			return true
		}
	}
	return false
}
