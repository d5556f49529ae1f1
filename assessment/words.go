package assessment

import (
	"fmt"
	"math/big"
	"strings"
)

// unitWords shows a unit as people write it; most stand for themselves.
var unitWords = map[string]string{"degC": "°C", "1/min": "per minute"}

func unitInWords(unit string) string {
	if w, ok := unitWords[unit]; ok {
		return w
	}
	return unit
}

// RangeInWords says what the value must be: "at most 15 s", "80 to 120 mmHg",
// "between {suction_low} and {suction_high} mmHg". Parameters stand in braces.
func (m Measure) RangeInWords() string {
	if w, ok := m.around(); ok {
		return w
	}
	return span{
		low: m.Low.inWords(), high: m.High.inWords(), unit: unitInWords(m.Unit),
		exclusive: m.Exclusive, magnitude: m.Magnitude,
		plain: fixed(m.Low) != nil && fixed(m.High) != nil,
	}.inWords()
}

// around is a range written as a middle and a tolerance, where it is one.
func (m Measure) around() (string, bool) {
	l, h := m.Low, m.High
	if l == nil || h == nil || m.Exclusive || l.Parameter+l.Measure == "" ||
		l.Parameter != h.Parameter || l.Measure != h.Measure {
		return "", false
	}
	middle := (&Bound{Parameter: l.Parameter, Measure: l.Measure}).inWords()
	switch {
	case l.Times == nil && h.Times == nil && l.Minus != "" && l.Minus == h.Plus && l.Plus+h.Minus == "":
		return joined(middle+" ± {"+l.Minus+"}", unitInWords(m.Unit), m.Magnitude), true
	case l.Times != nil && h.Times != nil && l.Plus+l.Minus+h.Plus+h.Minus == "" &&
		l.Times.Plus(*h.Times).Cmp(Whole(2)) == 0 && l.Times.Cmp(*h.Times) < 0:
		middle = joined(middle, unitInWords(m.Unit), false)
		return joined(middle+" ± "+h.Times.Minus(Whole(1)).share(), "", m.Magnitude), true
	}
	return "", false
}

// inWords is one end: a number, a parameter in braces or the name of another
// value, with what is done to it.
func (b *Bound) inWords() string {
	if b == nil {
		return ""
	}
	w := b.Value.String()
	switch {
	case b.Parameter != "":
		w = "{" + b.Parameter + "}"
	case b.Measure != "":
		w = b.Measure
	}
	if b.Times != nil && b.Times.Cmp(Whole(1)) < 0 {
		w = b.Times.Times(Whole(100)).String() + " % of " + w
	} else if b.Times != nil {
		w = b.Times.String() + " × " + w
	}
	if b.Plus != "" {
		w += " + {" + b.Plus + "}"
	}
	if b.Minus != "" {
		w += " − {" + b.Minus + "}"
	}
	return w
}

// InWords says what a reading must be for this child: "at most 15 s". An end
// that has no short decimal is rounded inward, so that nothing shown as accepted
// is refused.
func (a Accepted) InWords() string {
	s := span{
		low: a.Low.shown(1), high: a.High.shown(-1), unit: unitInWords(a.Unit),
		exclusive: a.Exclusive, magnitude: a.Magnitude, plain: true,
	}
	if a.Low != nil && a.High != nil && a.Low.Cmp(*a.High) == 0 {
		s.low, s.high = a.Low.String(), a.High.String()
	}
	return s.inWords()
}

// shownPlaces is how many decimals of an end are worth reading.
const shownPlaces = 3

// shown rounds to a few decimals, up for side 1 and down for side -1; nil is
// nothing.
func (n *Number) shown(side int) string {
	if n == nil {
		return ""
	}
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(shownPlaces), nil))
	r := new(big.Rat).Mul(n.rat(), scale)
	// Floor division, and for a low end its mirror: the ceiling.
	if side > 0 {
		r.Neg(r)
	}
	r.SetInt(new(big.Int).Div(r.Num(), r.Denom()))
	if side > 0 {
		r.Neg(r)
	}
	return Number{r.Quo(r, scale)}.String()
}

// span is a range whose ends are already words.
type span struct {
	low, high, unit      string
	exclusive, magnitude bool
	plain                bool // both ends are bare numbers
}

func (s span) inWords() string {
	w := ""
	switch {
	case s.low+s.high == "":
		return "recorded, not judged"
	case s.low == s.high && !s.exclusive:
		w = "exactly " + s.low
	case s.low == "" && s.exclusive:
		w = "below " + s.high
	case s.low == "":
		w = "at most " + s.high
	case s.high == "" && s.exclusive:
		w = "above " + s.low
	case s.high == "":
		w = "at least " + s.low
	case s.exclusive:
		w = "above " + s.low + " and below " + s.high
	case s.plain:
		w = s.low + " to " + s.high
	default:
		w = "between " + s.low + " and " + s.high
	}
	return joined(w, s.unit, s.magnitude)
}

func joined(w, unit string, magnitude bool) string {
	w = strings.TrimRight(w+" "+unit, " ")
	if magnitude {
		w += ", with or without a minus sign"
	}
	return w
}

// counted is a number with its noun: "1 day", "3 days".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
