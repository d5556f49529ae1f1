package assessment

import (
	"math/big"
	"regexp"
	"strings"

	"wellshown/assessment/fault"
)

// Number is an exact rational: what was read off a gauge, a bound, a credit, a
// pass mark. The zero Number is 0. Numbers are values and never change.
type Number struct{ r *big.Rat }

// Decimals or fractions of at most 12 digits a part: enough for every gauge, and
// short enough that no input can make arithmetic slow.
var numberForm = regexp.MustCompile(`^-?[0-9]{1,12}(\.[0-9]{1,12}|/[0-9]{1,12})?$`)

// ParseNumber reads a decimal ("14.9", "-13.3") or a fraction ("1/2") exactly.
func ParseNumber(s string) (Number, error) {
	if !numberForm.MatchString(s) {
		return Number{}, fault.Of(fault.Invalid, "%q is not a number: write digits such as 14.9 or 1/2", s)
	}
	top, bottom, isFraction := strings.Cut(s, "/")
	r, _ := new(big.Rat).SetString(top)
	if !isFraction {
		return Number{r}, nil
	}
	// Each part by itself: math/big takes a fraction's leading zero for base 8.
	under, _ := new(big.Rat).SetString(bottom)
	if under.Sign() == 0 {
		return Number{}, fault.Of(fault.Invalid, "%q divides by zero", s)
	}
	return Number{r.Quo(r, under)}, nil
}

// MustNumber is ParseNumber for constants; it panics on a fault.
func MustNumber(s string) Number {
	n, err := ParseNumber(s)
	if err != nil {
		panic(err)
	}
	return n
}

// Whole is the integer n.
func Whole(n int) Number { return Number{new(big.Rat).SetInt64(int64(n))} }

func (n Number) rat() *big.Rat {
	if n.r == nil {
		return new(big.Rat)
	}
	return n.r
}

// String is the shortest exact form: a finite decimal where there is one of at
// most 12 places, else a fraction.
func (n Number) String() string {
	r := n.rat()
	if r.IsInt() {
		return r.RatString()
	}
	places, exact := r.FloatPrec()
	if exact && places <= 12 {
		return r.FloatString(places)
	}
	return r.RatString()
}

// Fraction is n as a reduced fraction, or an integer: "7/8", "1".
func (n Number) Fraction() string { return n.rat().RatString() }

// Percent is n × 100 cut (never rounded up) to one decimal: 191/200 is "95.5",
// and 94.96 % shows as "94.9", so that no shown figure reaches a mark that the
// exact one missed.
func (n Number) Percent() string {
	tenths := new(big.Rat).Mul(n.rat(), big.NewRat(1000, 1))
	whole := Number{new(big.Rat).SetInt(new(big.Int).Quo(tenths.Num(), tenths.Denom()))}
	return Number{new(big.Rat).Quo(whole.rat(), big.NewRat(10, 1))}.String()
}

// Cmp is -1, 0 or 1 as n is less than, equal to or greater than m.
func (n Number) Cmp(m Number) int { return n.rat().Cmp(m.rat()) }

// Sign is -1, 0 or 1.
func (n Number) Sign() int { return n.rat().Sign() }

// Plus is n + m.
func (n Number) Plus(m Number) Number { return Number{new(big.Rat).Add(n.rat(), m.rat())} }

// Minus is n − m.
func (n Number) Minus(m Number) Number { return Number{new(big.Rat).Sub(n.rat(), m.rat())} }

// Times is n × m.
func (n Number) Times(m Number) Number { return Number{new(big.Rat).Mul(n.rat(), m.rat())} }

// Over is n ÷ m; m must not be 0.
func (n Number) Over(m Number) Number { return Number{new(big.Rat).Quo(n.rat(), m.rat())} }

// Abs is n without its sign.
func (n Number) Abs() Number { return Number{new(big.Rat).Abs(n.rat())} }
