package ward

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/catalog"
	"wellshown/assessment/office"
	"wellshown/assessment/postgres"
)

// Form is a mark with a value inside the accepted range for every measure of the
// step that asks for one. A step that is not met has none.
func Form(tb testing.TB, step assessment.Step, known assessment.Parameters, m assessment.Mark) office.MarkForm {
	tb.Helper()
	f := office.MarkForm{Step: step.No, Mark: string(m), Readings: map[string]postgres.Reading{}}
	if !m.AtLeast(assessment.Assisted) {
		return f
	}
	read, chosen := map[string]assessment.Quantity{}, map[string]bool{}
	for _, measure := range step.Measures {
		if chosen[measure.Either] { // one of several alternatives is enough
			continue
		}
		chosen[measure.Either] = measure.Either != ""
		q := inside(tb, measure, known, read)
		read[measure.Name] = q
		f.Readings[measure.Name] = postgres.Reading{Value: q.Value.String(), Unit: q.Unit}
	}
	return f
}

// inside is a value in the middle of a range; of one end only, one a little
// within; without a range, ten.
func inside(tb testing.TB, m assessment.Measure, known assessment.Parameters, read map[string]assessment.Quantity) assessment.Quantity {
	tb.Helper()
	a, missing, err := m.Accepted(known, read)
	if err != nil || missing != "" {
		tb.Fatalf("the range of %s: %v; missing: %q", m.Name, err, missing)
	}
	half := assessment.MustNumber("1/2")
	v := assessment.Whole(10)
	switch {
	case a.Low != nil && a.High != nil:
		v = a.Low.Plus(*a.High).Times(half)
	case a.Low != nil:
		v = a.Low.Plus(assessment.Whole(1))
	case a.High != nil:
		v = a.High.Times(half)
	}
	return assessment.Quantity{Value: v, Unit: a.Unit}
}

// prerequisites are the codes that a starter checklist asks for first.
func prerequisites(tb testing.TB, skill string) []string {
	tb.Helper()
	list := must(catalog.Get(skill))(tb)
	return list.Prerequisites
}
