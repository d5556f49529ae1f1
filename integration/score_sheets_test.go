package integration

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"

	"wellshown/api"
	"wellshown/assessment"
)

// scoreTask is one line for browser/score.mjs: a sheet as a device holds it.
type scoreTask struct {
	list       assessment.Checklist
	Rules      *api.Rules             `json:"rules,omitempty"` // left out: those of the task before
	Parameters map[string]api.Reading `json:"parameters"`
	Sheet      deviceSheet            `json:"sheet"`
}

type deviceSheet struct {
	Stopped bool           `json:"stopped"`
	Marks   []api.StepMark `json:"marks"`
}

// sheetMaker fills checklists at random. Values lie on and near the ends of their
// ranges, in any unit that fits, and now and then something is missing or wrong.
type sheetMaker struct {
	*rand.Rand
	careless int // in percent; 0 is a sheet on which all is well
}

func oneOf[T any](g *sheetMaker, from ...T) T { return from[g.IntN(len(from))] }

func (g *sheetMaker) chance(percent int) bool { return g.IntN(100) < percent }

// slip is a chance only on careless sheets.
func (g *sheetMaker) slip(percent int) bool { return g.chance(percent * g.careless / 100) }

func (g *sheetMaker) task(c assessment.Checklist) scoreTask {
	g.careless = oneOf(g, 0, 3, 15, 100)
	t := scoreTask{list: c, Parameters: g.child(c), Sheet: deviceSheet{Stopped: g.chance(8), Marks: []api.StepMark{}}}
	known := knownOf(c, t.Parameters)
	for _, s := range c.Steps() {
		if !g.slip(10) {
			t.Sheet.Marks = append(t.Sheet.Marks, api.StepMark{Step: s.No, MarkForm: g.mark(s, known)})
		}
	}
	g.Shuffle(len(t.Sheet.Marks), func(i, j int) { t.Sheet.Marks[i], t.Sheet.Marks[j] = t.Sheet.Marks[j], t.Sheet.Marks[i] })
	if g.chance(5) {
		g.spoil(&t.Sheet)
	}
	return t
}

// child gives what the checklist relies on, each in a unit that fits.
func (g *sheetMaker) child(c assessment.Checklist) map[string]api.Reading {
	known := map[string]api.Reading{}
	for _, p := range c.Parameters {
		if g.slip(8) || p.Default != nil && g.chance(50) {
			continue
		}
		n := 1 + g.IntN(20)
		switch {
		case strings.HasSuffix(p.Name, "_low"):
			n += 20
		case strings.HasSuffix(p.Name, "_high"):
			n += 50
		}
		value := oneOf(g, fmt.Sprint(n), fmt.Sprint(n), fmt.Sprint(n, ".5"), fmt.Sprintf("%d/3", 3*n+1))
		known[p.Name] = api.Reading{Value: value, Unit: p.Unit}
		if g.slip(10) {
			known[p.Name] = api.Reading{Value: oneOf(g, value, "-"+value, "0"), Unit: oneOf(g, append(fellows(p.Unit), "s", "kPa")...)}
		}
	}
	return known
}

// fellows are the units into which one can be turned, itself among them.
func fellows(unit string) []string {
	all := []string{unit}
	for _, u := range assessment.Units() {
		if _, err := (assessment.Quantity{Unit: unit}).Convert(u); err == nil && u != unit {
			all = append(all, u)
		}
	}
	return all
}

var reasonsGiven = []string{"none fitted", "n", "2", "½", "нет", "なし", "٣", "", " ", ".", "—", "\u3164", "\u115f\u1160", "\u200b", "\u00ad", "é", "\U0001f6ab", "\uffa0"}

func (g *sheetMaker) mark(s assessment.Step, known assessment.Parameters) api.MarkForm {
	if g.slip(12) || s.MayNotApply != "" && g.chance(20) {
		f := api.MarkForm{NotApplicable: true, Reason: "none fitted"}
		if g.slip(50) {
			f.Reason = oneOf(g, reasonsGiven...)
		}
		return f
	}
	f := api.MarkForm{Mark: string(assessment.Independent), Readings: map[string]api.Reading{}}
	if g.slip(30) {
		f.Mark = string(oneOf(g, append(assessment.Marks, "", assessment.Cued)...))
	}
	values, chosen := map[string]assessment.Quantity{}, map[string]bool{}
	for _, m := range s.Measures {
		if g.slip(12) || chosen[m.Either] && g.chance(70) {
			continue
		}
		chosen[m.Either] = m.Either != ""
		r := g.reading(m, known, values)
		f.Readings[m.Name] = r
		if n, err := assessment.ParseNumber(r.Value); err == nil {
			values[m.Name] = assessment.Quantity{Value: n, Unit: r.Unit}
		}
	}
	return f
}

// reading lies on an end of the measure's range, a hair to either side of it, or
// anywhere; on a sheet on which all is well, inside.
func (g *sheetMaker) reading(m assessment.Measure, known assessment.Parameters, values map[string]assessment.Quantity) api.Reading {
	a, missing, err := m.Accepted(known, values)
	if err != nil || missing != "" || a.Low == nil && a.High == nil {
		return api.Reading{Value: oneOf(g, "1", "12.5", "-3", "7/3"), Unit: a.Unit}
	}
	low, high := a.Low, a.High
	if low == nil {
		low = new(high.Minus(assessment.Whole(4)))
	}
	if high == nil {
		high = new(low.Plus(assessment.Whole(4)))
	}
	end := *oneOf(g, low, high)
	middle := low.Plus(*high).Times(assessment.MustNumber("1/2"))
	unit := oneOf(g, fellows(a.Unit)...)
	if !g.slip(60) {
		end = oneOf(g, middle, middle, middle, end)
	}
	in, err := assessment.Quantity{Value: end, Unit: a.Unit}.Convert(unit)
	if err != nil {
		return api.Reading{Value: end.String(), Unit: a.Unit}
	}
	v := in.Value
	if g.slip(50) {
		v = v.Plus(assessment.MustNumber(oneOf(g, "0.000001", "-0.000001", "1", "-1")))
	}
	if a.Magnitude && g.chance(40) {
		v = assessment.Number{}.Minus(v)
	}
	return api.Reading{Value: typed(v), Unit: unit}
}

// typed is a number as it can be typed: exact where that is short enough, else
// cut to tenths of a thousandth.
func typed(n assessment.Number) string {
	if _, err := assessment.ParseNumber(n.String()); err == nil {
		return n.String()
	}
	return n.Times(assessment.MustNumber("1/100")).Percent()
}

// spoil makes the sheet one that fits no checklist.
func (g *sheetMaker) spoil(s *deviceSheet) {
	if len(s.Marks) == 0 {
		s.Marks = []api.StepMark{{Step: oneOf(g, 0, 999), MarkForm: api.MarkForm{Mark: "cued"}}}
		return
	}
	m := &s.Marks[g.IntN(len(s.Marks))]
	names := append(slices.Sorted(maps.Keys(m.Readings)), "__proto__", "constructor", "no such value")
	m.Readings = maps.Clone(m.Readings)
	if m.Readings == nil {
		m.Readings = map[string]api.Reading{}
	}
	switch g.IntN(6) {
	case 0:
		s.Marks = append(s.Marks, *m)
	case 1:
		m.Step = oneOf(g, 0, -1, 999)
	case 2:
		m.Mark, m.NotApplicable = oneOf(g, "met", "Independent", "constructor", "cued "), false
	case 3:
		m.Mark, m.NotApplicable, m.Reason = "cued", true, "none fitted"
	case 4:
		m.Readings[names[0]] = api.Reading{Value: oneOf(g, "", " 1", "1,5", "1e3", "1/0", "１", "0x10", "1234567890123", "--1", "1\n"), Unit: "s"}
	default:
		m.Readings[names[0]] = api.Reading{Value: "1", Unit: oneOf(g, "constructor", "°C", "parsec", "mmhg")}
	}
}

// knownOf is a child as the core knows it, the defaults added; what is no number is
// left out here and refused where the sheet is scored.
func knownOf(c assessment.Checklist, given map[string]api.Reading) assessment.Parameters {
	known := assessment.Parameters{}
	for _, p := range c.Parameters {
		if p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	for name, r := range given {
		if n, err := assessment.ParseNumber(r.Value); err == nil {
			known[name] = assessment.Quantity{Value: n, Unit: r.Unit}
		}
	}
	return known
}
