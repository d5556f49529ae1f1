package written

import (
	"fmt"

	"wellshown/assessment"
)

// checklist turns what was read into the core's terms, with the defaults of what
// was left out. Faults that only the form can have are noted on the way.
func (r *reader) checklist(f listForm) assessment.Checklist {
	c := assessment.Checklist{
		Code: f.Code, Title: f.Title, Scope: assessment.Scope(f.Scope),
		ManikinOnly: f.ManikinOnly, CardNeeded: f.CardNeeded, Purpose: f.Purpose,
		Safety: f.Safety, Equipment: f.Equipment, Fitted: f.Fitted,
		Prerequisites: f.Prerequisites, Related: f.Related, Sources: f.Sources,
		Policy: f.Policy.policy(),
	}
	c.Policy.Validity.CardNeeded = f.CardNeeded
	for _, p := range f.Parameters {
		c.Parameters = append(c.Parameters, p.parameter())
	}
	for i, s := range f.Sections {
		section := assessment.Section{Title: s.Title}
		for j, step := range s.Steps {
			section.Steps = append(section.Steps, r.step(fmt.Sprintf("sections[%d].steps[%d]", i, j), step))
		}
		c.Sections = append(c.Sections, section)
		r.steps = append(r.steps, len(s.Steps))
	}
	return c
}

func (p parameterForm) parameter() assessment.Parameter {
	out := assessment.Parameter{Name: p.Name, Says: p.Says, Unit: p.Unit}
	if p.Default != nil {
		out.Default = &assessment.Quantity{Value: p.Default.number(), Unit: p.Unit}
	}
	return out
}

func (f policyForm) policy() assessment.Policy {
	a, v := f.Award, f.Validity
	p := assessment.Policy{
		Scoring: assessment.Scoring{
			Credits: assessment.DefaultCredits(), PassMark: f.PassMark.number(), CueLimit: f.CueLimit,
		},
		Award: assessment.Award{
			Count: a.Count, Days: a.Days, Observers: or(a.Observers, 1), Real: a.Real,
			SpanDays: a.SpanDays, Consecutive: or(a.Consecutive, true),
		},
		Validity: assessment.Validity{
			Months: v.Months, Anchor: assessment.Anchor(v.Anchor), RenewalDays: v.RenewalDays,
			NoticeDays: v.NoticeDays, LapseMonths: v.LapseMonths, AbsenceDays: v.AbsenceDays,
		},
	}
	if c := f.Credits; c != nil {
		p.Scoring.Credits = map[assessment.Mark]assessment.Number{
			assessment.Independent: c.Independent.number(), assessment.Cued: c.Cued.number(),
			assessment.Assisted: c.Assisted.number(), assessment.NotMet: c.NotMet.number(),
			assessment.Unsafe: c.Unsafe.number(),
		}
	}
	return p
}

func or[T any](given *T, otherwise T) T {
	if given == nil {
		return otherwise
	}
	return *given
}

func (r *reader) step(path string, f stepForm) assessment.Step {
	s := assessment.Step{
		No: f.No, Text: f.Text, Kind: assessment.Kind(f.Kind), Weight: or(f.Weight, 1),
		MayNotApply: f.MayNotApply, Note: f.Note,
	}
	if f.Critical != nil {
		s.Critical, s.Because = true, *f.Critical
		s.Least = assessment.Mark(or(f.Least, string(assessment.Independent)))
	} else if f.Least != nil {
		r.at(path+".least", r.lines[path+".least"], "least concerns critical steps only: write critical, with the reason, or leave least out")
	}
	for i, m := range f.Measures {
		s.Measures = append(s.Measures, r.measure(fmt.Sprintf("%s.measures[%d]", path, i), m))
	}
	return s
}

func (r *reader) measure(path string, f measureForm) assessment.Measure {
	ranged := f.Low != nil || f.High != nil
	switch {
	case !ranged && !f.RecordOnly:
		r.at(path, r.lines[path], "there is neither low nor high: write the range, or record_only: true where any value will do")
	case ranged && f.RecordOnly:
		r.at(path+".record_only", r.lines[path+".record_only"], "a value with a range is not for the record only")
	}
	return assessment.Measure{
		Name: f.Name, Unit: f.Unit, Low: f.Low.bound(), High: f.High.bound(),
		Exclusive: f.Exclusive, Magnitude: f.Magnitude, Either: f.Either,
	}
}

func (b *boundForm) bound() *assessment.Bound {
	if b == nil || b.unread {
		return nil
	}
	out := assessment.Bound{
		Value: b.Value.number(), Parameter: b.Parameter, Measure: b.Measure, Plus: b.Plus, Minus: b.Minus,
	}
	if b.Times != nil {
		n := b.Times.number()
		out.Times = &n
	}
	return &out
}
