package ward

import (
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/office"
)

// showing is how one demonstration goes: by default formal, with the child where
// the checklist allows it, seen by the first educator, every step independent
// with a value inside its range, and signed by both.
type showing struct {
	observer                    assessment.Actor
	formal, simulated, stopped  bool
	observerSigns, learnerSigns bool
	marks                       map[int]assessment.Mark
	unrecorded                  bool
}

// Way changes how a demonstration goes.
type Way func(*showing)

// Competent changes nothing; it is there to be read.
func Competent(*showing) {}

// Missing has a step not met.
func Missing(step int) Way { return Marked(step, assessment.NotMet) }

// Marked has a step get another mark than independent.
func Marked(step int, m assessment.Mark) Way { return func(s *showing) { s.marks[step] = m } }

// Stopped has it ended for safety before anything was marked.
func Stopped(s *showing) { s.stopped = true }

// Practice does not count toward competence.
func Practice(s *showing) { s.formal = false }

// Simulated is without the child.
func Simulated(s *showing) { s.simulated = true }

// SeenBy has somebody else observe.
func SeenBy(observer assessment.Actor) Way { return func(s *showing) { s.observer = observer } }

// Unsigned leaves both signatures out, UnsignedByLearner and UnsignedByObserver
// one of them.
func Unsigned(s *showing)           { s.observerSigns, s.learnerSigns = false, false }
func UnsignedByLearner(s *showing)  { s.learnerSigns = false }
func UnsignedByObserver(s *showing) { s.observerSigns = false }

// Unrecorded leaves the sheet open, with everything marked.
func Unrecorded(s *showing) { s.unrecorded = true; Unsigned(s) }

// Demonstrate has somebody show a skill at the instant on the clock, which then
// stands twenty minutes later.
func (w *Ward) Demonstrate(learner assessment.Actor, skill string, child assessment.ClientID, ways ...Way) office.DemonstrationView {
	w.tb.Helper()
	s := &showing{observer: w.Educators[0], formal: true, observerSigns: true, learnerSigns: true, marks: map[int]assessment.Mark{}}
	for _, way := range ways {
		way(s)
	}
	sheet := w.open(s, learner, skill, child)
	w.Pass(18 * time.Minute)
	w.mark(s, sheet)
	if s.unrecorded {
		return office.DemonstrationView{}
	}
	v := must(w.Office.Record(w.tb.Context(), s.observer, sheet.ID))(w.tb)
	if s.observerSigns {
		w.Pass(time.Minute)
		v = w.Sign(s.observer, v.ID, office.PartObserver)
	}
	if s.learnerSigns {
		w.Pass(time.Minute)
		v = w.Sign(learner, v.ID, office.PartLearner)
	}
	return v
}

func (w *Ward) open(s *showing, learner assessment.Actor, skill string, child assessment.ClientID) office.SheetView {
	w.tb.Helper()
	place := "at home"
	if s.simulated || manikinOnly[skill] {
		place = "skills room"
	}
	return must(w.Office.Open(w.tb.Context(), s.observer, office.OpenForm{Learner: learner.Person, Skill: skill, Client: child,
		Place: place, Real: place == "at home", Formal: s.formal}))(w.tb)
}

// manikinOnly are the starter skills that are never shown on a child.
var manikinOnly = map[string]bool{"blocked-tube": true, "cpr-trach": true, "decannulation": true}

func (w *Ward) mark(s *showing, v office.SheetView) {
	w.tb.Helper()
	if s.stopped {
		must(w.Office.Stop(w.tb.Context(), s.observer, v.ID, true, "The child was at risk."))(w.tb)
		return
	}
	var forms []office.MarkForm
	for _, step := range v.Checklist.Steps() {
		m := assessment.Independent
		if other, ok := s.marks[step.No]; ok {
			m = other
		}
		forms = append(forms, Form(w.tb, step, v.Parameters, m))
	}
	must(w.Office.MarkAll(w.tb.Context(), s.observer, v.ID, forms))(w.tb)
}

// Sign signs one part of a record with Password.
func (w *Ward) Sign(by assessment.Actor, id assessment.DemonstrationID, part string) office.DemonstrationView {
	w.tb.Helper()
	return must(w.Office.Sign(w.tb.Context(), by, office.SignForm{Demonstration: id, Part: part, Proof: Proof}))(w.tb)
}

// Award has somebody show a skill, and all that comes before it, competently and
// on as many days as it takes, until they are current in it. The clock moves on
// by a day each time. The answer is the last demonstration, zero where they were
// current already.
func (w *Ward) Award(learner assessment.Actor, skill string, child assessment.ClientID, ways ...Way) office.DemonstrationView {
	w.tb.Helper()
	for _, first := range prerequisites(w.tb, skill) {
		w.Award(learner, first, child, ways...)
	}
	var last office.DemonstrationView
	for range 10 {
		if w.Standing(learner, skill, child, civil.Date{}).Word.Holds() {
			return last
		}
		last = w.Demonstrate(learner, skill, child, ways...)
		w.Pass(24 * time.Hour)
	}
	w.tb.Fatalf("%s does not become current in %s", learner.Name, skill)
	return last
}

// Standing is what the fold says of somebody on a day; the zero day is today.
func (w *Ward) Standing(who assessment.Actor, skill string, child assessment.ClientID, on civil.Date) office.StandingView {
	w.tb.Helper()
	return must(w.Office.Standing(w.tb.Context(), w.Coordinator, who.Person, skill, child, on))(w.tb)
}
