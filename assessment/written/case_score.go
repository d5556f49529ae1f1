package written

import (
	"fmt"
	"slices"

	"wellshown/assessment"
)

// ScoreCase is one question for `wellshown score`: steps and rules, the child's
// values, and a sheet.
type ScoreCase struct {
	Checklist  assessment.Checklist // steps in order of their numbers, and the scoring policy; no more
	Parameters assessment.Parameters
	Sheet      assessment.Sheet
}

// DecodeScoreCase reads a case and refuses what it does not understand.
func DecodeScoreCase(data []byte) (ScoreCase, error) {
	tree, err := caseTree(data)
	if err == nil {
		tree, err = withoutVector(tree)
	}
	if err != nil {
		return ScoreCase{}, err
	}
	var first error
	top := openCase(tree, "", &first, "policy", "parameters", "steps", "sheet")
	var c ScoreCase
	c.Checklist.Policy.Scoring = readScoring(top)
	c.Parameters = readParameters(top)
	c.Checklist.Sections = []assessment.Section{{Steps: readSteps(top)}}
	c.Sheet = readSheet(top)
	if first != nil {
		return ScoreCase{}, first
	}
	return c, nil
}

// creditWords are the marks that may earn something. Unsafe never does.
var creditWords = []assessment.Mark{assessment.Independent, assessment.Cued, assessment.Assisted, assessment.NotMet}

func readScoring(top caseFields) assessment.Scoring {
	v, _ := top.need("policy")
	if v == nil {
		return assessment.Scoring{}
	}
	f := openCase(v, "policy", top.first, "credits", "pass_mark", "cue_limit")
	s := assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: f.number("pass_mark"), CueLimit: f.limit("cue_limit")}
	if f.has("credits") {
		names := make([]string, len(creditWords))
		for i, m := range creditWords {
			names[i] = string(m)
		}
		credits := openCase(f.values["credits"], "policy.credits", top.first, names...)
		for _, m := range creditWords {
			if credits.has(string(m)) {
				s.Credits[m] = credits.number(string(m))
			}
		}
	}
	if err := s.Check(); err != nil {
		f.refuse("", "%v", err)
	}
	return s
}

// readParameters reads the child's values; none given is a child without any,
// which leaves every range that needs one unknown.
func readParameters(top caseFields) assessment.Parameters {
	known := assessment.Parameters{}
	if !top.has("parameters") {
		return known
	}
	return assessment.Parameters(readQuantities(top, "parameters"))
}

// readQuantities reads values by name, each with its unit.
func readQuantities(in caseFields, name string) map[string]assessment.Quantity {
	at := caseAt(in.path, name)
	o, ok := in.values[name].(caseObject)
	if !ok {
		in.refuse(name, "this is %s where an object in curly brackets belongs", caseKind(in.values[name]))
		return nil
	}
	if len(o.names) > maxCaseItems {
		in.refuse(name, "there are %d values: at most %d are read", len(o.names), maxCaseItems)
		return nil
	}
	all := map[string]assessment.Quantity{}
	for _, n := range o.names {
		f := openCase(o.values[n], caseAt(at, n), in.first, "value", "unit")
		all[n] = assessment.Quantity{Value: f.number("value"), Unit: f.text("unit")}
	}
	return all
}

func readSteps(top caseFields) []assessment.Step {
	var steps []assessment.Step
	taken := map[int]bool{}
	for i, v := range top.list("steps", maxCaseSteps) {
		f := openCase(v, fmt.Sprintf("steps[%d]", i), top.first,
			"no", "weight", "critical", "least", "measures", "may_not_apply")
		s := readStep(f)
		if taken[s.No] {
			f.refuse("no", "there are two steps %d", s.No)
		}
		taken[s.No] = true
		steps = append(steps, s)
	}
	slices.SortFunc(steps, func(a, b assessment.Step) int { return a.No - b.No })
	return steps
}

func readStep(f caseFields) assessment.Step {
	s := assessment.Step{
		No: f.whole("no"), Weight: f.wholeOr("weight", 1), Critical: f.yesOr("critical", false),
		Least: assessment.Independent, Kind: assessment.Done,
	}
	if f.has("no") && s.No < 1 {
		f.refuse("no", "steps are numbered from 1")
	}
	if s.Weight < 1 || s.Weight > maxCaseWeight {
		f.refuse("weight", "the weight is %d: it is a whole number from 1 to %d", s.Weight, maxCaseWeight)
	}
	if f.has("least") {
		s.Least = oneOf(f, "least", assessment.Marks...)
	}
	if f.yesOr("may_not_apply", false) {
		s.MayNotApply = "where it does not apply"
	}
	if f.has("measures") {
		s.Measures = readMeasures(f)
	}
	if len(s.Measures) > 0 {
		s.Kind = assessment.Measured
	}
	return s
}

func readMeasures(step caseFields) []assessment.Measure {
	var all []assessment.Measure
	for i, v := range step.list("measures", maxCaseItems) {
		f := openCase(v, fmt.Sprintf("%s.measures[%d]", step.path, i), step.first,
			"name", "unit", "low", "high", "exclusive", "magnitude")
		m := assessment.Measure{
			Name: f.word("name"), Unit: f.text("unit"), Low: readBound(f, "low"), High: readBound(f, "high"),
			Exclusive: f.yesOr("exclusive", false), Magnitude: f.yesOr("magnitude", false),
		}
		if slices.ContainsFunc(all, func(o assessment.Measure) bool { return o.Name == m.Name }) {
			f.refuse("name", "two values of the step are named %q", m.Name)
		}
		all = append(all, m)
	}
	return all
}

// readBound reads one end of a range: a number as text, or the name of one of
// the child's values. Left out, that end is open.
func readBound(measure caseFields, name string) *assessment.Bound {
	if !measure.has(name) {
		return nil
	}
	v := measure.values[name]
	if _, ok := v.(caseObject); !ok {
		return &assessment.Bound{Value: measure.exact(name, v)}
	}
	f := openCase(v, caseAt(measure.path, name), measure.first, "parameter")
	return &assessment.Bound{Parameter: f.word("parameter")}
}

func readSheet(top caseFields) assessment.Sheet {
	v, ok := top.need("sheet")
	if !ok {
		return assessment.Sheet{}
	}
	f := openCase(v, "sheet", top.first, "stopped", "marks")
	s := assessment.Sheet{Stopped: f.yes("stopped")}
	for i, m := range f.list("marks", maxCaseSteps) {
		s.Entries = append(s.Entries, readEntry(openCase(m, fmt.Sprintf("sheet.marks[%d]", i), top.first,
			"no", "mark", "not_applicable", "values")))
	}
	return s
}

func readEntry(f caseFields) assessment.SheetEntry {
	e := assessment.SheetEntry{No: f.whole("no")}
	if f.has("mark") {
		e.Mark = oneOf(f, "mark", assessment.Marks...)
	}
	if f.has("not_applicable") {
		e.NotApplicable, e.Reason = true, f.text("not_applicable")
	}
	if f.has("values") {
		e.Values = readQuantities(f, "values")
	}
	return e
}
