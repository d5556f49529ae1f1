package integration

import (
	"fmt"

	"wellshown/assessment"
)

// oddUnits are the units of a range with which its parameters can be compared; the
// last ones only equal themselves.
var oddUnits = [][]string{{"mmHg", "cmH2O", "kPa", "Pa"}, {"s", "min"}, {"mm", "cm"}, {"mL", "L"}, {"mL/min", "L/min"}, {"1/min"}, {"degC"}}

// oddList is a small checklist with ranges such as nobody writes and the rules
// allow: factors, sums and differences, ends that are other values, alternatives.
func (g *sheetMaker) oddList() assessment.Checklist {
	var c assessment.Checklist
	c.Policy.Scoring = g.oddScoring()
	kind := oneOf(g, oddUnits...)
	for _, name := range []string{"a_low", "b_high", "c"} {
		p := assessment.Parameter{Name: name, Unit: oneOf(g, kind...)}
		if g.chance(25) {
			p.Default = &assessment.Quantity{Value: assessment.MustNumber(oneOf(g, "10", "1/3", "-2")), Unit: p.Unit}
		}
		c.Parameters = append(c.Parameters, p)
	}
	var steps []assessment.Step
	for no := range 1 + g.IntN(6) {
		steps = append(steps, g.oddStep(no+1, kind))
	}
	c.Sections = []assessment.Section{{Steps: steps[:len(steps)/2]}, {Steps: steps[len(steps)/2:]}}
	return c
}

func (g *sheetMaker) oddScoring() assessment.Scoring {
	s := assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber(oneOf(g, "0", "1/3", "1/2", "0.8", "95/100", "1"))}
	if g.chance(30) {
		s.Credits[assessment.Cued], s.Credits[assessment.Assisted] = assessment.MustNumber("2/3"), assessment.MustNumber(oneOf(g, "1/3", "0.3333", "2/3"))
	}
	if g.chance(50) {
		s.CueLimit = new(g.IntN(3))
	}
	return s
}

func (g *sheetMaker) oddStep(no int, kind []string) assessment.Step {
	s := assessment.Step{No: no, Text: fmt.Sprintf("Line %d “quoted” & <b>", no), Kind: assessment.Done, Weight: 1 + g.IntN(5), Critical: g.chance(30),
		Least: oneOf(g, assessment.Independent, assessment.Cued, assessment.Assisted)}
	if g.chance(30) {
		s.MayNotApply = "where none is fitted"
	}
	either := ""
	if g.chance(20) {
		either = "way"
	}
	for i := range g.IntN(4) {
		s.Kind = assessment.Measured
		m := assessment.Measure{Name: fmt.Sprint("value ", i), Unit: oneOf(g, kind...), Exclusive: g.chance(30), Magnitude: g.chance(30)}
		if i > 0 {
			m.Either = either
		}
		m.Low, m.High = g.oddBound(i, 0), g.oddBound(i, 20)
		if g.chance(10) { // the unit of its first parameter, if it has one
			m.Unit = ""
		}
		s.Measures = append(s.Measures, m)
	}
	return s
}

// oddBound is one end of the range of a step's measure no i; nil is no end.
func (g *sheetMaker) oddBound(i, about int) *assessment.Bound {
	b := &assessment.Bound{}
	switch n := g.IntN(10); {
	case n < 2:
		return nil
	case n < 5:
		b.Value = assessment.MustNumber(fmt.Sprint(about, oneOf(g, "", "", ".000000000001", "/7")))
	case n < 9 || i == 0:
		b.Parameter = oneOf(g, "a_low", "b_high", "c")
	default:
		b.Measure = "value 0"
	}
	if g.chance(25) {
		b.Times = new(assessment.MustNumber(oneOf(g, "0.9", "1.1", "1/3", "2")))
	}
	if g.chance(20) {
		b.Plus = oneOf(g, "b_high", "c")
	}
	if g.chance(20) {
		b.Minus = oneOf(g, "a_low", "c")
	}
	return b
}
