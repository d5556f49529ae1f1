package demo

import (
	"fmt"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/fault"
	"wellshown/assessment/office"
)

// showing is one demonstration as it is going to happen.
type showing struct {
	learner  *learner
	course   course
	observer *educator
	at       time.Time
	formal   bool
	real     bool
	how      manner
	signs    signing
	then     func(assessment.DemonstrationID) // told once it is recorded; may be nil

	sheet office.SheetView
}

// signing is when the learner signs.
type signing int

const (
	atOnce signing = iota
	never
	observerNever // nor does the learner
	late          // from here on: so many days later
)

// good reports whether the showing is expected to count. What it comes to is the
// office's to say.
func (w *showing) good() bool { return w.formal && w.how.wrong == nothing && w.signs == atOnce }

// takes is how long the showing lasts: about a minute a step.
func (w *showing) takes() time.Duration {
	return time.Duration(len(w.course.list.Steps())) * 50 * time.Second
}

// usual is a showing as most of them go.
func (s *story) usual(l *learner, c course, row office.StandingView) *showing {
	w := &showing{learner: l, course: c, formal: true, how: s.usualManner(l, c)}
	learning := row.Word == assessment.NotStarted || row.Word == assessment.Learning
	switch {
	case c.list.ManikinOnly:
	case learning && row.Next.Demonstrations > 1:
		w.real = l.chance.IntN(3) == 0
	default:
		w.real = true
	}
	if l.steady {
		w.how = manner{chance: l.chance}
		return w
	}
	if row.Word == assessment.NotStarted && l.chance.IntN(6) == 0 {
		w.formal = false
	}
	switch n := l.chance.IntN(200); {
	case n < 3:
		w.signs = never
	case n < 11:
		w.signs = late + signing(1+l.chance.IntN(6))
	}
	return w
}

// show lets a demonstration happen: opened, marked and recorded, signed by the
// observer, then by the learner, each at its own time.
func (s *story) show(w *showing) {
	s.beside(w.at, func() error {
		if err := s.settled(w); err != nil {
			return err
		}
		place := "skills room"
		if w.real {
			place = w.course.child.place()
		}
		err := s.openShowing(w, place)
		if fault.KindOf(err) == fault.Refused { // as when something ran out between planning and showing
			s.result.Counts.Postponed++
			return nil
		}
		if err != nil {
			return w.fail("open", err)
		}
		s.beside(w.at.Add(w.takes()), func() error { return s.record(w) })
		return nil
	})
}

// settled waits for what the opening of a sheet depends on: the learner's standing
// in what comes first, and the observer's own in the skill.
func (s *story) settled(w *showing) error {
	if first := w.course.list.Prerequisites; len(first) > 0 {
		if err := s.signer.settle(w.learner.Person, first...); err != nil {
			return err
		}
	}
	return s.signer.settle(w.observer.Person, w.course.code)
}

func (s *story) record(w *showing) error {
	if err := s.signer.settle(w.observer.Person, w.course.code); err != nil {
		return err
	}
	if err := s.mark(w); err != nil {
		return err
	}
	v, err := s.office.Record(s.ctx, w.observer.Actor, w.sheet.ID)
	if err != nil {
		return w.fail("record", err)
	}
	w.learner.last = v.ID
	if v.Outcome == assessment.Competent && w.formal {
		w.learner.shown[w.course.code]++
	}
	s.count(w, v)
	if n := s.result.Counts.Demonstrations; s.grown != nil && n >= 8 && n&(n-1) == 0 {
		if err := s.grown(s.ctx); err != nil {
			return err
		}
	}
	if w.then != nil {
		w.then(v.ID)
	}
	if w.signs != observerNever {
		s.signLater(s.clock.Add(time.Minute), w, office.PartObserver, w.observer.person)
	}
	learnerSigns := s.clock.Add(2 * time.Minute)
	if w.signs >= late {
		learnerSigns = s.hour(s.day().AddDays(int(w.signs-late)), 18, 20)
	}
	if w.signs != never && w.signs != observerNever {
		s.signLater(learnerSigns, w, office.PartLearner, w.learner.person)
	}
	return nil
}

func (s *story) count(w *showing, v office.DemonstrationView) {
	c := &s.result.Counts
	c.Demonstrations++
	switch {
	case v.Outcome == assessment.NotYetCompetent:
		c.NotYet++
	case v.Outcome == assessment.StoppedForSafety:
		c.Stopped++
	}
	if !w.formal {
		c.Practices++
	}
	switch {
	case w.signs == never || w.signs == observerNever:
		c.Unsigned++
	case w.signs >= late:
		c.Late++
	}
}

func (w *showing) fail(doing string, err error) error {
	return fmt.Errorf("%s %s shown by %s for %s: %w", doing, w.course.code, w.learner.Name, w.course.child.code, err)
}
