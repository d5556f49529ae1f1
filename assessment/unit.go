package assessment

import (
	"maps"
	"slices"

	"wellshown/assessment/fault"
)

// Quantity is a number with the unit in which it was read or ordered.
type Quantity struct {
	Value Number
	Unit  string
}

// String is the value and its unit: "120 mmHg".
func (q Quantity) String() string {
	if q.Unit == "" {
		return q.Value.String()
	}
	return q.Value.String() + " " + q.Unit
}

type scale struct {
	dimension string
	factor    Number
}

// Exact factors to one unit of each dimension. The pressures are those of NIST
// SP 811 appendix B.8: conventional millimetre of mercury 133.322 387 415 Pa and
// conventional centimetre of water 98.0665 Pa. Every other unit only equals itself.
var scales = map[string]scale{
	"mmHg":   {"pressure", MustNumber("133.322387415")},
	"cmH2O":  {"pressure", MustNumber("98.0665")},
	"kPa":    {"pressure", MustNumber("1000")},
	"Pa":     {"pressure", MustNumber("1")},
	"s":      {"time", MustNumber("1")},
	"min":    {"time", MustNumber("60")},
	"mm":     {"length", MustNumber("1")},
	"cm":     {"length", MustNumber("10")},
	"mL":     {"volume", MustNumber("1")},
	"L":      {"volume", MustNumber("1000")},
	"mL/min": {"flow", MustNumber("1")},
	"L/min":  {"flow", MustNumber("1000")},
}

// Convert gives q in another unit, exactly. Units of different kinds are refused.
func (q Quantity) Convert(unit string) (Quantity, error) {
	if q.Unit == unit {
		return q, nil
	}
	from, known := scales[q.Unit]
	to, wanted := scales[unit]
	if !known || !wanted || from.dimension != to.dimension {
		return Quantity{}, fault.Of(fault.Invalid, "%s cannot be turned into %s", unitName(q.Unit), unitName(unit))
	}
	return Quantity{q.Value.Times(from.factor).Over(to.factor), unit}, nil
}

// Units lists by name the units that can be turned into others.
func Units() []string { return slices.Sorted(maps.Keys(scales)) }

func unitName(u string) string {
	if u == "" {
		return "a number without unit"
	}
	return u
}
