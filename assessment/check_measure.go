package assessment

import (
	"fmt"
	"strings"
)

func (k *checker) measures(path string, no int, s Step) {
	names := map[string]Measure{}
	for i, m := range s.Measures {
		at := fmt.Sprintf("%s.measures[%d]", path, i)
		if strings.TrimSpace(m.Name) == "" {
			k.at(no, at+".name", "the value has no name")
		}
		if _, twice := names[m.Name]; twice {
			k.at(no, at+".name", "two values of the step are named %q", m.Name)
		}
		k.bound(at+".low", no, m, m.Low, names)
		k.bound(at+".high", no, m, m.High, names)
		k.order(at, no, m)
		k.oneUnit(at, no, m)
		names[m.Name] = m
	}
	k.alternatives(path, no, s)
}

// alternatives refuses a value that is an alternative to nothing: it would read
// as a choice and be none.
func (k *checker) alternatives(path string, no int, s Step) {
	count := map[string]int{}
	for _, m := range s.Measures {
		count[m.Either]++
	}
	for i, m := range s.Measures {
		if m.Either != "" && count[m.Either] == 1 {
			k.at(no, fmt.Sprintf("%s.measures[%d].either", path, i), "no other value of the step shares %q", m.Either)
		}
	}
}

// oneUnit refuses a range without a unit of its own whose parameters cannot be
// turned into one another.
func (k *checker) oneUnit(path string, no int, m Measure) {
	if m.Unit != "" {
		return
	}
	first := ""
	for _, b := range m.bounds() {
		if b.Parameter == "" {
			k.at(no, path+".unit", "the range of %s has no unit", m.Name)
			return
		}
		for _, name := range b.Uses() {
			unit := k.params[name].Unit
			if first == "" {
				first = unit
			}
			if _, err := (Quantity{Unit: unit}).Convert(first); err != nil {
				k.at(no, path, "{%s}: %v", name, err)
			}
		}
	}
}

// order refuses a fixed range that nothing can lie in.
func (k *checker) order(path string, no int, m Measure) {
	low, high := fixed(m.Low), fixed(m.High)
	if low == nil || high == nil {
		return
	}
	if c := low.Cmp(*high); c > 0 || c == 0 && m.Exclusive {
		k.at(no, path, "the range of %s is empty: %s to %s", m.Name, low, high)
	}
}

func fixed(b *Bound) *Number {
	if b == nil || b.Parameter+b.Measure+b.Plus+b.Minus != "" {
		return nil
	}
	n := b.Value
	if b.Times != nil {
		n = n.Times(*b.Times)
	}
	return &n
}

func (k *checker) bound(path string, no int, m Measure, b *Bound, earlier map[string]Measure) {
	if b == nil {
		return
	}
	if b.Parameter != "" && b.Measure != "" {
		k.at(no, path, "a bound is a parameter or another value, not both")
	}
	if n := fixed(b); n != nil && m.Magnitude && n.Sign() < 0 {
		k.at(no, path, "a bound compared without sign cannot be negative")
	}
	if b.Times != nil && b.Times.Sign() <= 0 {
		k.at(no, path, "a factor is more than 0")
	}
	for _, name := range b.Uses() {
		k.uses(path, no, m, name)
	}
	if b.Measure == "" {
		return
	}
	other, ok := earlier[b.Measure]
	if !ok || other.Either != "" {
		k.at(no, path, "the bound needs %q, which is not an earlier value of the step that is always recorded", b.Measure)
		return
	}
	if _, err := (Quantity{Unit: other.Unit}).Convert(m.Unit); err != nil {
		k.at(no, path, "%v", err)
	}
}

func (k *checker) uses(path string, no int, m Measure, name string) {
	p, ok := k.params[name]
	if !ok {
		k.at(no, path, "{%s} is no parameter of this checklist", name)
		return
	}
	if m.Unit == "" {
		return
	}
	if _, err := (Quantity{Unit: p.Unit}).Convert(m.Unit); err != nil {
		k.at(no, path, "{%s}: %v", name, err)
	}
}
