package web

import (
	"strconv"
	"strings"

	"wellshown/assessment"
	"wellshown/assessment/office"
)

// markingPage draws a sheet with one of its steps large; 0 is none.
func markingPage(v *visit, sheet office.SheetView, now int) MarkingPage {
	at := demonstrationAt(sheet.ID)
	page := MarkingPage{Frame: v.frame(""), Skill: sheet.Title, Learner: sheet.Learner, Client: sheet.Client, Practice: !sheet.Formal, Real: sheet.RealClient,
		Marked: sheet.Marked, Stop: at + "/stop", Review: at + "/review", Leave: "/", Stopped: sheet.Stopped}
	if sheet.Drill {
		page.Drill = at + "/drill"
	}
	steps := sheet.Checklist.Steps()
	page.Total = len(steps)
	for i, step := range steps {
		line := stepLine(sheet, step, now)
		page.Steps = append(page.Steps, line)
		if step.No == now {
			if i > 0 && page.Steps[i-1].Mark != "" { // what was tapped last, to see a mistake at once
				page.Before = page.Steps[i-1 : i]
			}
			page.Now = currentStep(sheet, step)
			page.Now.Earlier, page.Now.Later = around(at, steps, i)
		}
	}
	return page
}

func around(at string, steps []assessment.Step, i int) (earlier, later string) {
	if i > 0 {
		earlier = at + "/marks/" + strconv.Itoa(steps[i-1].No)
	}
	if i+1 < len(steps) {
		later = at + "/marks/" + strconv.Itoa(steps[i+1].No)
	}
	return earlier, later
}

func stepLine(sheet office.SheetView, step assessment.Step, now int) StepLine {
	m := sheet.Marks[step.No]
	line := StepLine{Number: step.No, Text: spoken(step.Text, sheet.Checklist, sheet.Words), Href: demonstrationAt(sheet.ID) + "/marks/" + strconv.Itoa(step.No),
		Critical: step.Critical, Mark: markOf(m.Mark, m.NotApplicable), Now: step.No == now}
	var values []string
	for _, measure := range step.Measures {
		if q, given := sheetValues(sheet, step.No)[measure.Name]; given {
			values = append(values, q.InWords())
		}
	}
	line.Values = strings.Join(values, ", ")
	if line.Mark != "" || step.No < now {
		line.Open = openAt(sheet, step.No)
	}
	if out := outside(sheet, step.No); len(out) > 0 && line.Mark != "" {
		line.Out = "out of range: counts as not met"
	}
	return line
}

func markOf(m assessment.Mark, notApplies bool) string {
	if notApplies {
		return notApplicable
	}
	return string(m)
}

// openAt says what keeps a step open, in words; nothing for nothing.
func openAt(sheet office.SheetView, step int) string {
	for _, o := range sheet.Open {
		if o.Step == step {
			return openWords(o, sheet.Checklist)
		}
	}
	return ""
}

func openWords(o assessment.Open, list assessment.Checklist) string {
	switch o.Why {
	case assessment.WhyMark:
		return "has no mark"
	case assessment.WhyValue:
		return "needs its value: " + alternatives(o, list)
	case assessment.WhyReason:
		return "needs a reason why it does not apply"
	case assessment.WhyNotAllowed:
		return "always applies, and needs a mark"
	}
	for _, p := range list.Parameters {
		if p.Name == o.Of {
			return "needs a value of the child that is not ordered: " + p.Says
		}
	}
	return "needs a value of the child that is not ordered: " + o.Of
}

// alternatives names the value that is missing with those that could stand in its place.
func alternatives(o assessment.Open, list assessment.Checklist) string {
	step, _ := list.Step(o.Step)
	group := ""
	for _, m := range step.Measures {
		if m.Name == o.Of {
			group = m.Either
		}
	}
	if group == "" {
		return o.Of
	}
	var names []string
	for _, m := range step.Measures {
		if m.Either == group {
			names = append(names, m.Name)
		}
	}
	return strings.Join(names, " or ")
}

func currentStep(sheet office.SheetView, step assessment.Step) CurrentStep {
	m := sheet.Marks[step.No]
	say := func(text string) string { return spoken(text, sheet.Checklist, sheet.Words) }
	now := CurrentStep{Number: step.No, Action: demonstrationAt(sheet.ID) + "/marks/" + strconv.Itoa(step.No), Text: say(step.Text), Kind: string(step.Kind),
		Note: say(step.Note), NotApply: say(step.MayNotApply), NotNow: m.NotApplicable, Reason: m.Reason, Remark: m.Note, Was: markOf(m.Mark, m.NotApplicable),
		Version: sheet.Stands(step.No)}
	if step.Critical {
		now.Critical = step.Because
	}
	for _, mark := range assessment.Marks {
		now.Marks = append(now.Marks, MarkButton{string(mark), mark == m.Mark})
	}
	now.Measures = measures(sheet, step)
	return now
}

// measures are the values to read at a step, with the child's own ranges. Values
// that can stand in for one another say so.
func measures(sheet office.SheetView, step assessment.Step) []Measure {
	read := sheetValues(sheet, step.No)
	begun := map[string]bool{}
	var all []Measure
	for _, m := range step.Measures {
		a, missing, err := m.Accepted(sheet.Parameters, read)
		shown := Measure{Name: m.Name, Label: capital(m.Name), Unit: a.Unit, Units: unitsFor(a.Unit), Accepts: acceptedWords(sheet, m, a, missing, err),
			Timed: step.Kind == assessment.Timed && a.Unit == "s", OneOf: m.Either != "" && !begun[m.Either], Or: m.Either != "" && begun[m.Either]}
		if q, given := read[m.Name]; given {
			shown.Value, shown.Unit = q.Value.String(), q.Unit
			in, bad := a.Holds(q)
			shown.Outside = err == nil && missing == "" && bad == nil && !in
		}
		shown.UnitWords = assessment.UnitInWords(shown.Unit)
		if sheet.Client != "" && usesChild(m) {
			first, _, _ := strings.Cut(sheet.Client, ",")
			shown.Whose = "for " + first
		}
		begun[m.Either] = true
		all = append(all, shown)
	}
	return all
}

func usesChild(m assessment.Measure) bool {
	for _, b := range []*assessment.Bound{m.Low, m.High} {
		if b != nil && len(b.Uses()) > 0 {
			return true
		}
	}
	return false
}

// acceptedWords says what a value must be for this child. A range that hangs on
// another value of the step, or on what is not ordered, is said as it is written.
func acceptedWords(sheet office.SheetView, m assessment.Measure, a assessment.Accepted, missing string, err error) string {
	switch {
	case !m.Judged():
		return ""
	case err != nil || missing != "":
		return spoken(m.RangeInWords(), sheet.Checklist, sheet.Words)
	}
	return a.InWords()
}

// offered are units in which devices show one and the same thing. Times and
// lengths are left out: a wrong tap there would pass for a reading.
var offered = []string{"mmHg", "cmH2O", "kPa", "mL", "L", "mL/min", "L/min"}

// unitsFor are the units to choose from, that of the range first; none where
// there is no choice.
func unitsFor(unit string) []Option {
	options := []Option{{Value: unit, Text: assessment.UnitInWords(unit)}}
	choice := false
	for _, other := range offered {
		if other == unit {
			choice = true
		} else if _, err := (assessment.Quantity{Unit: unit}).Convert(other); err == nil {
			options = append(options, Option{Value: other, Text: assessment.UnitInWords(other)})
		}
	}
	if !choice || len(options) == 1 {
		return nil
	}
	return options
}

// sheetValues are the values that stand at a step. What does not read as a number
// was never kept.
func sheetValues(sheet office.SheetView, step int) map[string]assessment.Quantity {
	read := map[string]assessment.Quantity{}
	for name, r := range sheet.Marks[step].Readings {
		if n, err := assessment.ParseNumber(r.Value); err == nil {
			read[name] = assessment.Quantity{Value: n, Unit: r.Unit}
		}
	}
	return read
}

// outside names the values of a step that lie out of their range.
func outside(sheet office.SheetView, no int) []string {
	step, _ := sheet.Checklist.Step(no)
	var out []string
	for _, m := range measures(sheet, step) {
		if m.Outside {
			out = append(out, m.Name)
		}
	}
	return out
}

// capital makes a label of the name of a value.
func capital(name string) string {
	if name == "" {
		return ""
	}
	r := []rune(name)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
