package assessment

import (
	"slices"
	"time"

	"wellshown/assessment/civil"
)

// HomeVisit is an educator at a home on a day, to see what is due there.
type HomeVisit struct {
	Home     ClientID
	Educator PersonID
	On       civil.Date
	Windows  []Window // what is shown, by deadline
}

// DaySpan is the days from one through another; a zero end is open.
type DaySpan struct{ From, Through civil.Date }

// Holds reports whether a day lies in the span.
func (s DaySpan) Holds(d civil.Date) bool { return within(d, s.From, s.Through) }

// VisitEducator is an educator whose days are planned.
type VisitEducator struct {
	Person   PersonID
	Name     string
	Observes map[string][]DaySpan // by skill code: the days on which they may observe it
	Off      []DaySpan            // days off
	DaysOff  []time.Weekday       // off each week
	PerDay   int                  // so many visits a day at most
	Base     string               // where they start and come back to, as in Distances; empty: not known
	Taken    map[civil.Date]int   // of which so many are promised already
}

func (e VisitEducator) mayObserve(skill string, on civil.Date) bool {
	return slices.ContainsFunc(e.Observes[skill], func(s DaySpan) bool { return s.Holds(on) })
}

func (e VisitEducator) isOff(d civil.Date) bool {
	return slices.Contains(e.DaysOff, d.Weekday()) || slices.ContainsFunc(e.Off, func(s DaySpan) bool { return s.Holds(d) })
}

func (e VisitEducator) room(d civil.Date) int {
	if e.isOff(d) {
		return 0
	}
	return max(e.PerDay-e.Taken[d], 0)
}

// Distances is how long the way between two places is, in minutes, the same both ways.
// The places are homes, by their id, and whatever educators start from, by any other name.
type Distances struct {
	minutes map[[2]string]int
	Unknown int // for two places of which nothing is known
}

// Set says how long the way between two places is, in minutes; less than none is none.
func (d *Distances) Set(a, b string, minutes int) {
	if d.minutes == nil {
		d.minutes = map[[2]string]int{}
	}
	d.minutes[[2]string{min(a, b), max(a, b)}] = max(minutes, 0)
}

// Between is the way between two places in minutes; 0 from a place to itself.
func (d Distances) Between(a, b string) int {
	if a == b {
		return 0
	}
	if m, known := d.minutes[[2]string{min(a, b), max(a, b)}]; known {
		return m
	}
	return max(d.Unknown, 0)
}

// Visiting is what a plan of visits is made of. Windows of one home are met by one visit
// where its day lies in each of them and its educator may observe each skill on it. Nobody
// observes themselves.
type Visiting struct {
	From      civil.Date // no visit is planned before it
	Until     civil.Date // or after it; zero: two years after From, and never later than that
	Windows   []Window
	Educators []VisitEducator
	Distances Distances
}

// WhyUnmet says why a window is met by no visit.
type WhyUnmet string

// The reasons.
const (
	WindowOver     WhyUnmet = "the window is over"
	OpensLater     WhyUnmet = "the window opens after the days that are planned"
	NobodyObserves WhyUnmet = "no educator may observe this"
	OffOrFull      WhyUnmet = "all who may observe this are off or full on each of its days"
)

// Unmet is a window that no visit meets. For OffOrFull it names whoever may observe the
// skill on some day of it, in the order in which educators were given.
type Unmet struct {
	Window    Window
	Why       WhyUnmet
	Educators []Unfree
}

// Unfree is an educator who may observe a skill, with the days on which they may and
// still cannot come.
type Unfree struct {
	Person PersonID
	Name   string
	Off    []civil.Date
	Full   []civil.Date // as many visits as they can make, those of this plan counted
}

// EducatorDay is the way of an educator on a day.
type EducatorDay struct {
	Educator PersonID
	On       civil.Date
	Homes    []ClientID // in the order of the least travel
	Minutes  int        // from where they start, from home to home, and back
}

// VisitPlan says who goes where and when. It meets the most windows that it can, with
// the fewest visits that it can for that, and then little travel. MostMet and
// FewestVisits are bounds: no plan meets more windows, and none that meets as many as this
// makes fewer visits; where both are reached, as Proven says, this is the best there is.
// LeastTravel says whether it is also proven that no plan as good has less travel; that
// is found out for small plans only.
type VisitPlan struct {
	Visits       []HomeVisit // by day, educator and home
	Days         []EducatorDay
	Unmet        []Unmet // by deadline
	Met          int
	MostMet      int
	FewestVisits int
	Proven       bool
	LeastTravel  bool
	Minutes      int        // of all days
	Apart        []HomeStab // for each home what it could do with, were there room each day; of those windows that can be met
}

// mostAhead is how many days are planned at most: longer than any renewal is known ahead.
const mostAhead = 731

// last is the last day that is planned.
func (v Visiting) last() civil.Date {
	last := v.From.AddDays(mostAhead)
	if !v.Until.IsZero() {
		last = civil.Earlier(last, v.Until)
	}
	return last
}

// Plan makes the plan. The same input gives the same plan.
func (v Visiting) Plan() VisitPlan {
	p := newPlanning(v)
	d := p.draft()
	bounds := p.improve(d)
	d.shortenWays()
	d.dissolve() // where two visits to one home have come together
	plan := p.tell(d, bounds)
	if plan.Proven && p.leastTravel(d) {
		plan = p.tell(d, bounds)
		plan.LeastTravel = true
	}
	return plan
}
