package assessment_test

import (
	"math/big"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

func quantity(value, unit string) assessment.Quantity {
	return assessment.Quantity{Value: assessment.MustNumber(value), Unit: unit}
}

// NIST SP 811, appendix B.8 (2008 edition): 1 mmHg = 133.3224 Pa, 1 cmH2O =
// 98.0665 Pa; the figures below follow by arithmetic, at the digits shown.
func TestPressuresConvert(t *testing.T) {
	for _, c := range []struct {
		value, from, to, want string
		digits                int
	}{
		{"80", "mmHg", "kPa", "10.67", 2}, {"80", "mmHg", "cmH2O", "108.8", 1},
		{"100", "mmHg", "kPa", "13.33", 2}, {"100", "mmHg", "cmH2O", "136.0", 1},
		{"120", "mmHg", "kPa", "16.00", 2}, {"120", "mmHg", "cmH2O", "163.1", 1},
		{"10", "kPa", "mmHg", "75.0", 1}, {"16", "kPa", "mmHg", "120.0", 1},
		{"40", "cmH2O", "mmHg", "29.4", 1}, {"40", "cmH2O", "kPa", "3.92", 2},
		{"1", "mmHg", "kPa", "0.133322", 6}, {"1", "mmHg", "cmH2O", "1.35951", 5}, {"1", "kPa", "mmHg", "7.50062", 5},
	} {
		got, err := quantity(c.value, c.from).Convert(c.to)
		r, ok := new(big.Rat).SetString(got.Value.Fraction())
		if err != nil || !ok || r.FloatString(c.digits) != c.want || got.Unit != c.to {
			t.Errorf("%s %s is %s %s (%v), not %s %s", c.value, c.from, got.Value, got.Unit, err, c.want, c.to)
		}
	}
}

// Exact both ways: what comes back is what went out.
func TestConversionIsExact(t *testing.T) {
	pairs := [][2]string{{"mmHg", "kPa"}, {"cmH2O", "mmHg"}, {"Pa", "kPa"}, {"s", "min"}, {"mm", "cm"}, {"mL", "L"}, {"mL/min", "L/min"}}
	for _, p := range pairs {
		for _, v := range []string{"1/3", "-13.3", "0", "999999999999.999999999999"} {
			there, err := quantity(v, p[0]).Convert(p[1])
			if err != nil {
				t.Fatal(err)
			}
			back, err := there.Convert(p[0])
			if err != nil || back.Value.Cmp(assessment.MustNumber(v)) != 0 {
				t.Errorf("%s %s comes back from %s as %s (%v)", v, p[0], p[1], back, err)
			}
		}
	}
	for _, c := range []struct{ value, from, to, want string }{{"1", "min", "s", "60"}, {"1", "cm", "mm", "10"}, {"1", "L", "mL", "1000"}, {"1", "L/min", "mL/min", "1000"}, {"1", "kPa", "Pa", "1000"}, {"1", "cmH2O", "Pa", "98.0665"}} {
		if got, err := quantity(c.value, c.from).Convert(c.to); err != nil || got.Value.String() != c.want {
			t.Errorf("%s %s is %s (%v), not %s", c.value, c.from, got, err, c.want)
		}
	}
}

func TestUnitsThatDoNotConvert(t *testing.T) {
	for _, p := range [][2]string{{"mmHg", "s"}, {"%", "1"}, {"degC", "degF"}, {"Fr", "mm"}, {"1/min", "1/s"}, {"mL", "mL/min"}, {"MMHG", "mmHg"}, {"", "mmHg"}, {"mmHg", ""}} {
		if got, err := quantity("1", p[0]).Convert(p[1]); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%q became %q: %s, %v", p[0], p[1], got, err)
		}
	}
	for _, u := range []string{"%", "degC", "1/min", "Fr", "", "drops"} {
		if got, err := quantity("5", u).Convert(u); err != nil || got.Value.String() != "5" {
			t.Errorf("%q does not equal itself: %s, %v", u, got, err)
		}
	}
}

// A range in the unit of the gauge is judged in it: 10 to 13 kPa accepts 10 kPa,
// though a rounded pair prints 80 mmHg as 10 kPa and 80 mmHg are 10.67.
func TestJudgedInTheUnitItWasReadIn(t *testing.T) {
	low, high := assessment.MustNumber("10"), assessment.MustNumber("13")
	kilopascals := assessment.Accepted{Low: &low, High: &high, Unit: "kPa"}
	if in, err := kilopascals.Holds(quantity("10", "kPa")); err != nil || !in {
		t.Errorf("10 kPa in 10 to 13 kPa: %v, %v", in, err)
	}
	eighty, hundred := assessment.MustNumber("80"), assessment.MustNumber("100")
	mercury := assessment.Accepted{Low: &eighty, High: &hundred, Unit: "mmHg"}
	for value, want := range map[string]bool{"10": false, "10.66": false, "10.67": true, "13.33": true, "13.34": false} {
		if in, err := mercury.Holds(quantity(value, "kPa")); err != nil || in != want {
			t.Errorf("%s kPa in 80 to 100 mmHg: %v, %v", value, in, err)
		}
	}
	if in, err := mercury.Holds(quantity("90", "s")); err == nil || in {
		t.Error("seconds were judged in mmHg")
	}
}
