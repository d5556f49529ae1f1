package demo

import (
	"fmt"
	"math/big"

	"wellshown/assessment"
	"wellshown/assessment/postgres"
)

// readings are the values read off at a step, inside their ranges, or one of them
// outside. Of alternatives one is chosen: the one named as the child's size where
// there is one.
func (m manner) readings(step assessment.Step, known assessment.Parameters, size string, outside bool) (map[string]postgres.Reading, error) {
	readings, values := map[string]postgres.Reading{}, map[string]assessment.Quantity{}
	chosen := m.choose(step, size)
	for _, measure := range step.Measures {
		if measure.Either != "" && chosen[measure.Either] != measure.Name {
			continue
		}
		a, missing, err := measure.Accepted(known, values)
		if err != nil || missing != "" {
			return nil, fmt.Errorf("step %d: find the range of %s (missing: %q): %w", step.No, measure.Name, missing, err)
		}
		text := m.within(a)
		if outside && measure.Judged() {
			text, outside = beyond(a), false
		}
		n, err := assessment.ParseNumber(text)
		if err != nil {
			return nil, err
		}
		values[measure.Name] = assessment.Quantity{Value: n, Unit: a.Unit}
		readings[measure.Name] = postgres.Reading{Value: text, Unit: a.Unit}
	}
	return readings, nil
}

// choose names one measure of each group of alternatives.
func (m manner) choose(step assessment.Step, size string) map[string]string {
	groups, chosen := map[string][]string{}, map[string]string{}
	var order []string
	for _, measure := range step.Measures {
		if measure.Either == "" {
			continue
		}
		if groups[measure.Either] == nil {
			order = append(order, measure.Either)
		}
		groups[measure.Either] = append(groups[measure.Either], measure.Name)
	}
	for _, g := range order {
		chosen[g] = groups[g][m.chance.IntN(len(groups[g]))]
		for _, name := range groups[g] {
			if name == size {
				chosen[g] = name
			}
		}
	}
	return chosen
}

// within is a reading well inside a range, as fine as a gauge shows it.
func (m manner) within(a assessment.Accepted) string {
	part := big.NewRat(int64(5+m.chance.IntN(11)), 20) // a quarter to three quarters of the way
	switch {
	case a.Low != nil && a.High != nil:
		low, high := rat(*a.Low), rat(*a.High)
		width := new(big.Rat).Sub(high, low)
		if width.Sign() == 0 {
			return a.Low.String()
		}
		return rounded(new(big.Rat).Add(low, new(big.Rat).Mul(width, part)), width)
	case a.Low != nil:
		low := rat(*a.Low)
		more := new(big.Rat).Mul(big.NewRat(int64(m.chance.IntN(6)), 20), low)
		return rounded(new(big.Rat).Add(low, more), low)
	case a.High != nil:
		high := rat(*a.High)
		return rounded(new(big.Rat).Mul(high, part), high)
	}
	return fmt.Sprint(30 + 5*m.chance.IntN(9))
}

// beyond is a reading that is clearly outside a range: below its lower end where
// there is room below it, else above its upper end.
func beyond(a assessment.Accepted) string {
	exact := a.Low != nil && a.High != nil && a.Low.Cmp(*a.High) == 0
	switch {
	case a.Low == nil:
		return rat(a.High.Times(assessment.MustNumber("6/5")).Plus(assessment.Whole(1))).FloatString(0)
	case a.Low.Cmp(assessment.Whole(2)) < 0:
		return rat(a.Low.Plus(assessment.Whole(2))).FloatString(1)
	case exact:
		return a.Low.Minus(assessment.Whole(1)).String()
	}
	return rat(a.Low.Times(assessment.MustNumber("19/20"))).FloatString(1)
}

// rounded writes r in whole units where the range is wide, else in tenths or
// hundredths, so that rounding never leaves the range.
func rounded(r, width *big.Rat) string {
	switch {
	case width.Cmp(big.NewRat(4, 1)) >= 0:
		return r.FloatString(0)
	case width.Cmp(big.NewRat(1, 1)) >= 0:
		return r.FloatString(1)
	}
	return r.FloatString(2)
}

func rat(n assessment.Number) *big.Rat {
	r, _ := new(big.Rat).SetString(n.Fraction())
	return r
}
