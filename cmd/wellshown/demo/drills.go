package demo

import (
	"slices"
	"strconv"

	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
)

// drills is how many of the last emergency showings are drills, each of somebody else.
const drills = 2

// isDrill reports whether a showing is done as a drill: a scenario with a clock.
func (s *story) isDrill(w *showing) bool {
	return len(s.drilled) < drills && w.formal && !w.real && s.ago(120).Before(s.day()) && slices.Contains(catalog.Emergencies, w.course.code) && !slices.Contains(s.drilled, w.learner.Person)
}

// openDrill begins a showing as a drill. One of the two acts after calling, and has a wrong
// tap taken back.
func (s *story) openDrill(w *showing) error {
	all, err := s.office.BeforeDrill(s.ctx, w.observer.Actor, office.Chosen{})
	if err != nil {
		return err
	}
	form := office.DrillForm{ID: string(all.ID), Learner: w.learner.Person, Skill: w.course.code, Client: w.course.child.id, Place: "skills room", Formal: true}
	d, err := s.office.BeginDrill(s.ctx, w.observer.Actor, form)
	if err != nil {
		return err
	}
	times := office.DrillTimesForm{Recognised: "5", Acted: "12", Called: "20"}
	if len(s.drilled) > 0 {
		times.Acted, times.Called = "34", "9"
	}
	if _, err := s.office.TimeDrill(s.ctx, w.observer.Actor, d.ID, office.DrillTimesForm{Recognised: strconv.Itoa(2 + len(s.drilled))}); err != nil {
		return err
	}
	if _, err := s.office.TimeDrill(s.ctx, w.observer.Actor, d.ID, times); err != nil {
		return err
	}
	s.drilled = append(s.drilled, w.learner.Person)
	w.sheet, err = s.office.Sheet(s.ctx, w.observer.Actor, d.ID)
	return err
}

// openShowing opens the sheet of a showing.
func (s *story) openShowing(w *showing, place string) error {
	if s.isDrill(w) {
		return s.openDrill(w)
	}
	var err error
	w.sheet, err = s.office.Open(s.ctx, w.observer.Actor, office.OpenForm{Learner: w.learner.Person, Skill: w.course.code,
		Client: w.course.child.id, Place: place, Real: w.real, Formal: w.formal})
	return err
}
