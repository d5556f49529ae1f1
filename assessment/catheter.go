package assessment

import (
	"math/big"
	"slices"

	"wellshown/assessment/phrase"
)

// A suction catheter is sized in French by its outer diameter, a tube in millimetres by
// its inner one. What one takes up of the other is an exact fraction: at a limit a
// rounded figure would say the wrong thing.

// CatheterWidth is the outer diameter of a catheter in mm: a third of its size in French
// (UCSF, tracheostomy suctioning).
func CatheterWidth(french Number) Number { return french.Over(Whole(3)) }

// CatheterRatio is the outer diameter of a catheter over the inner diameter of the tube,
// which must not be 0. It is one of diameters: of areas it is the square.
func CatheterRatio(french, tube Number) Number { return CatheterWidth(french).Over(tube) }

// CatheterArea is how much of the tube's opening the catheter takes up.
func CatheterArea(french, tube Number) Number {
	r := CatheterRatio(french, tube)
	return r.Times(r)
}

// TwiceTheTube is the size in French by the rule of thumb that doubles the inner diameter
// (Russell and Matta, Tracheostomy: a multi-professional handbook, p. 334). Its ratio is
// always two thirds: over any limit of a half, under one of 70 %.
func TwiceTheTube(tube Number) Number { return tube.Times(Whole(2)) }

// CatheterLimit is how much of a tube's inner diameter a catheter may take up, as published.
type CatheterLimit struct {
	Most  Number
	Under bool // it must be less than Most
}

// The published limits. They are not one rule: 6 French in a tube of 4.0 mm is exactly
// half, which the first lets pass and the second does not.
var (
	HalfAtMost    = CatheterLimit{Most: MustNumber("1/2")}              // UK National Tracheostomy Safety Project
	UnderHalf     = CatheterLimit{Most: MustNumber("1/2"), Under: true} // AARC 2010 (Respir Care 2010;55:758-764), children and adults
	SeventyAtMost = CatheterLimit{Most: MustNumber("7/10")}             // where twice the inner diameter is taught
)

// CatheterLimits lists them.
var CatheterLimits = []CatheterLimit{HalfAtMost, UnderHalf, SeventyAtMost}

// Phrase names the limit and who published it.
func (l CatheterLimit) Phrase() phrase.Phrase {
	switch {
	case l.Under:
		return phrase.Of("less than half (AARC, 2010)")
	case l.Most.Cmp(SeventyAtMost.Most) == 0:
		return phrase.Of("at most 70 %%, where twice the tube’s size is taught (Tracheostomy: a multi-professional handbook, p. 334)")
	}
	return phrase.Of("at most half (UK National Tracheostomy Safety Project)")
}

// Allows reports whether a catheter may be used in a tube by this limit.
func (l CatheterLimit) Allows(french, tube Number) bool {
	c := CatheterRatio(french, tube).Cmp(l.Most)
	return c < 0 || c == 0 && !l.Under
}

// UsualCatheters are sizes in French that are commonly stocked (common practice, no source).
var UsualCatheters = []Number{Whole(5), Whole(6), Whole(8), Whole(10), Whole(12), Whole(14)}

// Largest is the largest catheter of a stock that the limit allows in a tube. There may be
// none: then the team is asked, and it is never the next size up.
func (l CatheterLimit) Largest(stock []Number, tube Number) (Number, bool) {
	fit := slices.DeleteFunc(slices.Clone(stock), func(n Number) bool { return !l.Allows(n, tube) })
	if len(fit) == 0 {
		return Number{}, false
	}
	return slices.MaxFunc(fit, Number.Cmp), true
}

// Thousandths is n with three decimals, rounded to the nearest: 8/3 is "2.667".
func (n Number) Thousandths() string { return n.rat().FloatString(3) }

// NearPercent is n × 100 with one decimal, rounded to the nearest: 2/3 is "66.7". It is for
// reading beside the exact fraction, never for judging by.
func (n Number) NearPercent() string {
	return new(big.Rat).Mul(n.rat(), big.NewRat(100, 1)).FloatString(1)
}
