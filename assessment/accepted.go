package assessment

import (
	"wellshown/assessment/fault"
)

// Accepted is a range as it applies to one child, in one unit. A nil end is open.
type Accepted struct {
	Low, High *Number
	Unit      string
	Exclusive bool
	Magnitude bool
}

// Accepted works out a measure's range for a child: what the parameters and the
// step's other values make of its bounds. Missing names a parameter that the
// child's record lacks; the range is then unknown.
func (m Measure) Accepted(known Parameters, values map[string]Quantity) (a Accepted, missing string, err error) {
	unit := m.unitFor(known)
	a = Accepted{Unit: unit, Exclusive: m.Exclusive, Magnitude: m.Magnitude}
	a.Low, missing, err = m.Low.at(unit, known, values)
	if err != nil || missing != "" {
		return a, missing, err
	}
	a.High, missing, err = m.High.at(unit, known, values)
	if m.Magnitude {
		a.Low, a.High = a.Low.unsigned(), a.High.unsigned()
	}
	return a, missing, err
}

// unsigned: where a reading is compared without sign, so is the range. A child's
// lower limit recorded as −80 mmHg would else let every reading pass.
func (n *Number) unsigned() *Number {
	if n == nil {
		return nil
	}
	abs := n.Abs()
	return &abs
}

// unitFor is the unit of the range: the written one, else that of the first
// parameter it names.
func (m Measure) unitFor(known Parameters) string {
	if m.Unit != "" {
		return m.Unit
	}
	for _, b := range m.bounds() {
		if q, ok := known[b.Parameter]; ok {
			return q.Unit
		}
	}
	return ""
}

// at is the bound's value in unit; a nil bound is no bound.
func (b *Bound) at(unit string, known Parameters, values map[string]Quantity) (*Number, string, error) {
	if b == nil {
		return nil, "", nil
	}
	n, missing, err := b.base(unit, known, values)
	if err != nil || missing != "" {
		return nil, missing, err
	}
	if b.Times != nil {
		n = n.Times(*b.Times)
	}
	more, missing, err := known.in(b.Plus, unit)
	if err != nil || missing != "" {
		return nil, missing, err
	}
	less, missing, err := known.in(b.Minus, unit)
	if err != nil || missing != "" {
		return nil, missing, err
	}
	n = n.Plus(more).Minus(less)
	return &n, "", nil
}

// in is a parameter's value in unit, 0 for no name.
func (p Parameters) in(name, unit string) (Number, string, error) {
	if name == "" {
		return Number{}, "", nil
	}
	q, ok := p[name]
	if !ok {
		return Number{}, name, nil
	}
	converted, err := q.Convert(unit)
	return converted.Value, "", err
}

func (b *Bound) base(unit string, known Parameters, values map[string]Quantity) (Number, string, error) {
	q := Quantity{b.Value, unit}
	var ok bool
	switch {
	case b.Parameter != "":
		if q, ok = known[b.Parameter]; !ok {
			return Number{}, b.Parameter, nil
		}
	case b.Measure != "":
		if q, ok = values[b.Measure]; !ok {
			return Number{}, "", fault.Of(fault.Invalid, "the range needs the value %q of the same step", b.Measure)
		}
	}
	in, err := q.Convert(unit)
	return in.Value, "", err
}

// Holds reports whether a reading lies in the range. The range is turned into
// the unit of the reading, never the reading into the unit of the range.
func (a Accepted) Holds(read Quantity) (bool, error) {
	v := read.Value
	if a.Magnitude {
		v = v.Abs()
	}
	if a.Low == nil && a.High == nil {
		_, err := Quantity{Unit: a.Unit}.Convert(read.Unit)
		return err == nil, err
	}
	above, err := a.past(a.Low, v, read.Unit, 1)
	if err != nil || !above {
		return false, err
	}
	return a.past(a.High, v, read.Unit, -1)
}

// past reports whether v, in unit, lies on the good side of an end: above it for
// side 1, below it for side -1.
func (a Accepted) past(end *Number, v Number, unit string, side int) (bool, error) {
	if end == nil {
		return true, nil
	}
	bound, err := Quantity{*end, a.Unit}.Convert(unit)
	if err != nil {
		return false, err
	}
	c := v.Cmp(bound.Value) * side
	return c > 0 || c == 0 && !a.Exclusive, nil
}

// outOfRange names each value of an entry that lies outside its range. Every
// judged range must be known before a step can be judged at all, save those of
// an alternative that was not chosen.
func (s Step) outOfRange(e SheetEntry, known Parameters) (out []string, gaps []Open, err error) {
	for _, m := range s.Measures {
		read, given := e.Values[m.Name]
		if !given && m.Either != "" || !m.canJudge(e.Values) {
			continue
		}
		a, missing, err := m.Accepted(known, e.Values)
		if err != nil {
			return nil, nil, fault.Of(fault.Invalid, "step %d, %s: %v", s.No, m.Name, err)
		}
		if missing != "" {
			gaps = append(gaps, Open{Step: s.No, Why: WhyParameter, Of: missing})
			continue
		}
		if !given {
			continue
		}
		in, err := a.Holds(read)
		if err != nil {
			return nil, nil, fault.Of(fault.Invalid, "step %d, %s: the value is in %s and the range in %s: %v", s.No, m.Name, unitName(read.Unit), unitName(a.Unit), err)
		}
		if !in {
			out = append(out, m.Name)
		}
	}
	return out, gaps, nil
}

// canJudge reports whether the other values that a range refers to are there. A
// step marked as done has them all, or it is open.
func (m Measure) canJudge(values map[string]Quantity) bool {
	for _, b := range m.bounds() {
		if _, given := values[b.Measure]; b.Measure != "" && !given {
			return false
		}
	}
	return true
}
