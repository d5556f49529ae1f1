package demo

import (
	"math/rand/v2"
	"slices"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// manner is how a demonstration goes: what goes wrong in it, if anything, and
// what chance decides the rest. Whether that makes it competent is the office's
// to say.
type manner struct {
	wrong  wrong
	chance *rand.Rand
	only   int // mark only the first so many steps; 0: all
}

type wrong int

const (
	nothing    wrong = iota
	cued             // a critical step only after a cue
	missed           // a critical step not met
	outOfRange       // a value outside its range
	sloppy           // several steps that are not critical
	unsafe           // one step unsafe
	stopped          // ended for safety
)

// usualManner: most go well.
func (s *story) usualManner(l *learner, _ course) manner {
	m := manner{chance: l.chance}
	if l.chance.Float64() < l.care {
		m.wrong = []wrong{cued, cued, missed, missed, outOfRange, outOfRange, sloppy, sloppy, unsafe, stopped}[l.chance.IntN(10)]
	}
	return m
}

// What observers note where something went wrong.
var remarks = map[wrong]string{
	cued:       "Needed a word from me before doing this.",
	missed:     "Left out. We talked it through and went over it together.",
	outOfRange: "Read together; outside the limit.",
	sloppy:     "Hurried. To be shown again.",
	unsafe:     "I stepped in here.",
}

// mark puts the whole sheet down.
func (s *story) mark(w *showing) error {
	steps := w.course.stepsOf(w.sheet)
	bad := w.how.bad(steps)
	var forms []office.MarkForm
	for i, step := range steps {
		if w.how.only > 0 && i >= w.how.only || w.how.wrong == stopped && i > len(steps)/2 {
			break
		}
		f, err := w.how.form(w, step, bad[step.No])
		if err != nil {
			return w.fail("mark", err)
		}
		forms = append(forms, f)
	}
	if _, err := s.office.MarkAll(s.ctx, w.observer.Actor, w.sheet.ID, forms); err != nil {
		return w.fail("mark", err)
	}
	if w.how.wrong != stopped {
		return nil
	}
	if _, err := s.office.Stop(s.ctx, w.observer.Actor, w.sheet.ID, true, "Saturation fell below the ordered limit; I took over."); err != nil {
		return w.fail("stop", err)
	}
	return nil
}

// stepsOf are the steps of the revision on the sheet, which may be a newer one
// than the learner began with.
func (c course) stepsOf(v office.SheetView) []assessment.Step { return v.Checklist.Steps() }

// bad says which steps go wrong, and how they are marked.
func (m manner) bad(steps []assessment.Step) map[int]assessment.Mark {
	pick := func(fits func(assessment.Step) bool) int {
		var fit []int
		for _, s := range steps {
			if fits(s) {
				fit = append(fit, s.No)
			}
		}
		if len(fit) == 0 {
			return steps[0].No
		}
		return fit[m.chance.IntN(len(fit))]
	}
	critical := func(s assessment.Step) bool { return s.Critical }
	minor := func(s assessment.Step) bool { return !s.Critical && s.Kind == assessment.Done }
	switch m.wrong {
	case cued:
		return map[int]assessment.Mark{pick(critical): assessment.Cued}
	case missed:
		return map[int]assessment.Mark{pick(critical): assessment.NotMet}
	case unsafe:
		return map[int]assessment.Mark{pick(critical): assessment.Unsafe}
	case sloppy:
		return map[int]assessment.Mark{pick(minor): assessment.NotMet, pick(minor): assessment.NotMet, pick(minor): assessment.Cued}
	case outOfRange:
		judged := func(s assessment.Step) bool { return slices.ContainsFunc(s.Measures, assessment.Measure.Judged) }
		return map[int]assessment.Mark{pick(judged): assessment.Independent}
	}
	if m.chance.IntN(5) == 0 { // a good one with a single cue, where cues are allowed
		return map[int]assessment.Mark{pick(minor): assessment.Cued}
	}
	return nil
}

// form is what the observer puts down at a step. A mark in bad is what went wrong.
func (m manner) form(w *showing, step assessment.Step, bad assessment.Mark) (office.MarkForm, error) {
	if bad == "" && step.MayNotApply != "" && w.course.child.without(step.MayNotApply) {
		return office.MarkForm{Step: step.No, NotApplicable: true, Reason: "As ordered for " + w.course.child.name + "."}, nil
	}
	f := office.MarkForm{Step: step.No, Mark: string(assessment.Independent)}
	if bad != "" {
		f.Mark = string(bad)
		f.Note = remarks[m.wrong]
	}
	if limit := w.sheet.Checklist.Policy.Scoring.CueLimit; m.wrong == nothing && bad == assessment.Cued && limit != nil && *limit == 0 {
		f.Mark = string(assessment.Independent)
	}
	if !assessment.Mark(f.Mark).AtLeast(assessment.Assisted) {
		return f, nil
	}
	var err error
	f.Readings, err = m.readings(step, w.sheet.Parameters, w.course.child.size, m.wrong == outOfRange && bad != "")
	return f, err
}
