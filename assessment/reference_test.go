package assessment_test

import (
	"slices"
	"time"

	"wellshown/assessment"
)

// This file is a second implementation of standing, written from the rules alone
// in the simplest and slowest way: everything is worked out again for each day,
// days are plain counts with a calendar of their own, and "since" is found by
// looking at every single day. It shares no code with the core beyond the shape
// of its input.

type refBar struct {
	kind string // failed, redemonstrated, reinstated
	id   string
	at   time.Time
	day  refDay
}

// refWorld is what a day sees.
type refWorld struct {
	zone  *time.Location
	terms assessment.Terms
	all   []assessment.Entry
}

type refAnswer struct {
	word    string
	held    bool
	through refDay
}

// effectDay: a negative acts from the day performed once the observer has signed;
// a positive from the day of the later signature, never before it was performed.
func (w refWorld) effectDay(e assessment.Entry) (refDay, bool) {
	switch e.Kind {
	case "practice", "teaching", "waiver":
		return refOfCivil(e.On), true
	case "demonstration":
		if e.ObserverSigned.IsZero() {
			return 0, false
		}
		performed := refOn(e.At, w.zone)
		if e.Outcome != assessment.Competent {
			return performed, true
		}
		if e.LearnerSigned.IsZero() {
			return 0, false
		}
		return max(performed, refOn(e.ObserverSigned, w.zone), refOn(e.LearnerSigned, w.zone)), true
	}
	return refOn(e.At, w.zone), true
}

// seenOn lists what is in effect on day x and not corrected by then.
func (w refWorld) seenOn(x refDay) []assessment.Entry {
	var seen []assessment.Entry
	gone := map[string]bool{}
	for _, e := range w.all {
		if day, ok := w.effectDay(e); ok && day <= x {
			seen = append(seen, e)
			if e.Kind == "correction" {
				gone[e.Of] = true
			}
		}
	}
	return slices.DeleteFunc(seen, func(e assessment.Entry) bool { return gone[e.ID] })
}

// walked is the order of the walk: by instant; at one instant withdrawals, then
// failures, then passes, then reinstatements; then by id. Practice follows all
// that happened on its day.
func (w refWorld) walked(seen []assessment.Entry) []assessment.Entry {
	var order []assessment.Entry
	for _, e := range seen {
		if e.Kind == "demonstration" || e.Kind == "withdrawal" || e.Kind == "reinstatement" || e.Kind == "practice" {
			order = append(order, e)
		}
	}
	slices.SortFunc(order, func(a, b assessment.Entry) int {
		if w.goesBefore(a, b) {
			return -1
		}
		return 1
	})
	return order
}

func refPractice(e assessment.Entry) bool {
	return e.Kind == "practice" || e.Kind == "demonstration" && !e.Formal && e.Outcome == assessment.Competent
}

func (w refWorld) day(e assessment.Entry) refDay {
	if e.Kind == "practice" {
		return refOfCivil(e.On)
	}
	return refOn(e.At, w.zone)
}

func (w refWorld) goesBefore(a, b assessment.Entry) bool {
	if refPractice(a) || refPractice(b) {
		if da, db := w.day(a), w.day(b); da != db {
			return da < db
		}
		if refPractice(a) != refPractice(b) {
			return refPractice(b)
		}
		return a.ID < b.ID
	}
	if !a.At.Equal(b.At) {
		return a.At.Before(b.At)
	}
	if ra, rb := refRank(a), refRank(b); ra != rb {
		return ra < rb
	}
	return a.ID < b.ID
}

func refRank(e assessment.Entry) int {
	switch {
	case e.Kind == "withdrawal":
		return 1
	case e.Kind == "reinstatement":
		return 4
	case e.Outcome == assessment.Competent:
		return 3
	}
	return 2
}

// refState is the state of the rules' fourth section, word for word.
type refState struct {
	holding, ever bool
	anchor        refDay
	k             int
	through       refDay
	revision      int
	practised     refDay
	run           []assessment.Entry
	bars          []refBar
}

func (w refWorld) end(a refDay, k int) refDay {
	end := refAdd(a, k*w.terms.Validity.Months)
	if w.terms.Validity.Anchor == assessment.MonthEnd {
		t := refName(end)
		return refCount(refDate{t.y, t.m, refMonthLength(t.y, t.m)})
	}
	return end
}

func (w refWorld) fold(order []assessment.Entry) refState {
	var s refState
	for _, e := range order {
		switch {
		case refPractice(e):
			w.practice(&s, w.day(e))
		case e.Kind == "withdrawal":
			s.bars = append(s.bars, refBar{string(e.Until), e.ID, e.At, w.day(e)})
		case e.Kind == "reinstatement":
			s.bars = slices.DeleteFunc(s.bars, func(b refBar) bool { return b.kind == "reinstated" && b.id == e.Of })
		case e.Formal && e.Outcome == assessment.Competent:
			w.pass(&s, e)
		case e.Formal:
			if w.terms.Award.Consecutive {
				s.run = nil
			}
			if s.holding {
				s.bars = append(s.bars, refBar{"failed", e.ID, e.At, w.day(e)})
			}
		}
	}
	return s
}

func (w refWorld) practice(s *refState, q refDay) {
	if a := w.terms.Validity.AbsenceDays; a > 0 && s.holding && q <= s.practised+refDay(a) {
		s.practised = q
	}
}

func (w refWorld) pass(s *refState, e assessment.Entry) {
	v, p := w.terms.Validity, w.day(e)
	var left []refBar
	for _, b := range s.bars {
		lifted := b.kind == "failed" && e.At.After(b.at) || b.kind == "redemonstrated" && p > b.day
		if !lifted {
			left = append(left, b)
		}
	}
	s.bars = left
	tooLong := s.holding && v.LapseMonths != nil && p > refAdd(s.through, *v.LapseMonths)
	switch {
	case !s.holding || tooLong:
		if s.holding {
			s.holding, s.run = false, nil
		}
		s.run = append(s.run, e)
		w.award(s, p)
		return
	case p <= s.through && p >= s.through-refDay(v.RenewalDays):
		s.k++
		s.through = w.end(s.anchor, s.k)
	case p <= s.through:
		if fresh := w.end(p, 1); s.through <= fresh {
			s.anchor, s.k, s.through = p, 1, fresh
		}
	default:
		s.anchor, s.k, s.through = p, 1, w.end(p, 1)
	}
	s.run, s.practised, s.revision = nil, p, max(s.revision, e.Revision)
}

func (w refWorld) award(s *refState, p refDay) {
	a := w.terms.Award
	count, real, revision := 0, 0, 0
	var days []refDay
	var observers []string
	for _, e := range s.run {
		d := w.day(e)
		if d < p-refDay(a.SpanDays) {
			continue
		}
		count++
		revision = max(revision, e.Revision)
		if e.Real {
			real++
		}
		if !slices.Contains(days, d) {
			days = append(days, d)
		}
		if !slices.Contains(observers, e.Observer) {
			observers = append(observers, e.Observer)
		}
	}
	if count < a.Count || len(days) < a.Days || len(observers) < a.Observers || real < a.Real {
		return
	}
	s.holding, s.ever = true, true
	s.anchor, s.k, s.through, s.practised, s.revision = p, 1, w.end(p, 1), p, revision
}
