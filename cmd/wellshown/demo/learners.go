package demo

import (
	"math/rand/v2"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// learner is somebody who shows skills: a caregiver, or an educator who is seen
// by colleagues.
type learner struct {
	*person
	number  int
	kind    assessment.CaregiverKind // empty: an educator
	courses []course
	chance  *rand.Rand
	care    float64 // how often a demonstration goes wrong
	left    civil.Date
	away    []span                // no visits on these days
	limits  map[string]int        // how often a skill is shown at most, by code
	stops   map[string]civil.Date // from this day on a skill is not shown any more, by code
	shown   map[string]int
	steady  bool // nothing goes wrong
	last    assessment.DemonstrationID
	cardEnd civil.Date
	next    civil.Date // day of the next visit
	turn    int        // counts replanned visits, so that an old plan is known for one
	taught  bool
}

// course is one thing to hold: a skill and, with it, the child.
type course struct {
	*skill
	child *child
	from  civil.Date
}

// span is a stretch of days, both ends included.
type span struct{ from, through civil.Date }

func (l *learner) awayOn(d civil.Date) bool {
	return slices.ContainsFunc(l.away, func(s span) bool { return !d.Before(s.from) && !d.After(s.through) })
}

// learnerNamed is somebody with a part of their own.
func (s *story) learnerNamed(name string) *learner {
	for _, l := range s.learners {
		if l.Name == name {
			return l
		}
	}
	panic("nobody in the cast is called " + name)
}

// here are those who have joined and not left.
func (s *story) here() []*learner {
	var here []*learner
	for _, l := range s.learners {
		if l.Person != "" && (l.left.IsZero() || s.day().Before(l.left)) {
			here = append(here, l)
		}
	}
	return here
}

func (s *story) childWith(code string) *child {
	for _, c := range s.children {
		if c.code == code {
			return c
		}
	}
	panic("no child in the cast has the code " + code)
}
