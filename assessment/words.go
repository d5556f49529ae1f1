package assessment

import (
	"math/big"

	"wellshown/assessment/phrase"
)

// RangeInWords says in English what the value must be: "at most 15 s", "80 to 120 mmHg",
// "between {suction_low} and {suction_high} mmHg". Parameters stand in braces.
func (m Measure) RangeInWords() string { return m.Phrase().String() }

// Phrase says what the value must be, for the person who reads it.
func (m Measure) Phrase() phrase.Phrase {
	if w, ok := m.around(); ok {
		return w
	}
	return span{
		low: m.Low.phrase(), high: m.High.phrase(), unit: UnitPhrase(m.Unit),
		exclusive: m.Exclusive, magnitude: m.Magnitude,
		plain: fixed(m.Low) != nil && fixed(m.High) != nil,
	}.phrase()
}

// around is a range written as a middle and a tolerance, where it is one.
func (m Measure) around() (phrase.Phrase, bool) {
	l, h := m.Low, m.High
	if l == nil || h == nil || m.Exclusive || l.Parameter+l.Measure == "" ||
		l.Parameter != h.Parameter || l.Measure != h.Measure {
		return phrase.Phrase{}, false
	}
	middle := (&Bound{Parameter: l.Parameter, Measure: l.Measure}).phrase()
	switch {
	case l.Times == nil && h.Times == nil && l.Minus != "" && l.Minus == h.Plus && l.Plus+h.Minus == "":
		return joined(phrase.Of("%s ± %s", middle, "{"+l.Minus+"}"), UnitPhrase(m.Unit), m.Magnitude), true
	case l.Times != nil && h.Times != nil && l.Plus+l.Minus+h.Plus+h.Minus == "" &&
		l.Times.Plus(*h.Times).Cmp(Whole(2)) == 0 && l.Times.Cmp(*h.Times) < 0:
		middle = joined(middle, UnitPhrase(m.Unit), false)
		return joined(phrase.Of("%s ± %s", middle, h.Times.Minus(Whole(1)).share()), phrase.Phrase{}, m.Magnitude), true
	}
	return phrase.Phrase{}, false
}

// phrase is one end: a number, a parameter in braces or the name of another
// value, with what is done to it.
func (b *Bound) phrase() phrase.Phrase {
	if b == nil {
		return phrase.Phrase{}
	}
	w := phrase.Text(b.Value.String())
	switch {
	case b.Parameter != "":
		w = phrase.Text("{" + b.Parameter + "}")
	case b.Measure != "":
		w = phrase.Of("%s", phrase.Step(b.Measure))
	}
	if b.Times != nil && b.Times.Cmp(Whole(1)) < 0 {
		w = phrase.Of("%s %% of %s", b.Times.Times(Whole(100)).String(), w)
	} else if b.Times != nil {
		w = phrase.Of("%s × %s", b.Times.String(), w)
	}
	if b.Plus != "" {
		w = phrase.Of("%s + %s", w, "{"+b.Plus+"}")
	}
	if b.Minus != "" {
		w = phrase.Of("%s − %s", w, "{"+b.Minus+"}")
	}
	return w
}

// InWords says in English what a reading must be for this child: "at most 15 s".
func (a Accepted) InWords() string { return a.Phrase().String() }

// Phrase says what a reading must be for this child, for the person who reads it. An
// end that has no short decimal is rounded inward, so that nothing shown as accepted
// is refused.
func (a Accepted) Phrase() phrase.Phrase {
	s := span{
		low: a.Low.shown(1), high: a.High.shown(-1), unit: UnitPhrase(a.Unit),
		exclusive: a.Exclusive, magnitude: a.Magnitude, plain: true,
	}
	if a.Low != nil && a.High != nil && a.Low.Cmp(*a.High) == 0 {
		s.low, s.high = phrase.Text(a.Low.String()), phrase.Text(a.High.String())
	}
	return s.phrase()
}

// shownPlaces is how many decimals of an end are worth reading.
const shownPlaces = 3

// shown rounds to a few decimals, up for side 1 and down for side -1; nil is
// nothing.
func (n *Number) shown(side int) phrase.Phrase {
	if n == nil {
		return phrase.Phrase{}
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
	return phrase.Text(Number{r.Quo(r, scale)}.String())
}

// span is a range whose ends are already words.
type span struct {
	low, high, unit      phrase.Phrase
	exclusive, magnitude bool
	plain                bool // both ends are bare numbers
}

func (s span) phrase() phrase.Phrase {
	var w phrase.Phrase
	switch low, high := s.low.String(), s.high.String(); {
	case low+high == "":
		return phrase.Of("recorded, not judged")
	case low == high && !s.exclusive:
		w = phrase.Of("exactly %s", s.low)
	case low == "" && s.exclusive:
		w = phrase.Of("below %s", s.high)
	case low == "":
		w = phrase.Of("at most %s", s.high)
	case high == "" && s.exclusive:
		w = phrase.Of("above %s", s.low)
	case high == "":
		w = phrase.Of("at least %s", s.low)
	case s.exclusive:
		w = phrase.Of("above %s and below %s", s.low, s.high)
	case s.plain:
		w = phrase.Of("%s to %s", s.low, s.high)
	default:
		w = phrase.Of("between %s and %s", s.low, s.high)
	}
	return joined(w, s.unit, s.magnitude)
}

func joined(w, unit phrase.Phrase, magnitude bool) phrase.Phrase {
	if !unit.IsZero() {
		w = phrase.Of("%s %s", w, unit)
	}
	if magnitude {
		w = phrase.Of("%s, with or without a minus sign", w)
	}
	return w
}
