package written

import "wellshown/assessment"

// formOf is a checklist as it is written. What cannot count is left out: the
// least mark and the reason of a step that is not critical, the value of an end
// that a parameter or another value decides.
func formOf(c assessment.Checklist) listForm {
	f := listForm{
		Code: c.Code, Title: c.Title, Scope: string(c.Scope),
		ManikinOnly: c.ManikinOnly, CardNeeded: c.CardNeeded, Purpose: c.Purpose,
		Safety: c.Safety, Equipment: c.Equipment, Fitted: c.Fitted,
		Prerequisites: c.Prerequisites, Related: c.Related, Sources: c.Sources,
		Policy: policyOut(c.Policy),
	}
	for _, p := range c.Parameters {
		f.Parameters = append(f.Parameters, parameterOut(p))
	}
	for _, s := range c.Sections {
		section := sectionForm{Title: s.Title}
		for _, step := range s.Steps {
			section.Steps = append(section.Steps, stepOut(step))
		}
		f.Sections = append(f.Sections, section)
	}
	return f
}

func numberOut(n assessment.Number) numberForm { return numberForm(n.String()) }

func parameterOut(p assessment.Parameter) parameterForm {
	f := parameterForm{Name: p.Name, Says: p.Says, Unit: p.Unit}
	if p.Default != nil {
		n := numberOut(p.Default.Value)
		f.Default = &n
	}
	return f
}

func policyOut(p assessment.Policy) policyForm {
	s, a, v := p.Scoring, p.Award, p.Validity
	return policyForm{
		Credits: &creditsForm{
			Independent: numberOut(s.Credits[assessment.Independent]), Cued: numberOut(s.Credits[assessment.Cued]),
			Assisted: numberOut(s.Credits[assessment.Assisted]), NotMet: numberOut(s.Credits[assessment.NotMet]),
			Unsafe: numberOut(s.Credits[assessment.Unsafe]),
		},
		PassMark: numberOut(s.PassMark), CueLimit: s.CueLimit,
		Award: awardForm{
			Count: a.Count, Days: a.Days, Observers: &a.Observers, Real: a.Real,
			SpanDays: a.SpanDays, Consecutive: &a.Consecutive,
		},
		Validity: validityForm{
			Months: v.Months, Anchor: string(v.Anchor), RenewalDays: v.RenewalDays,
			NoticeDays: v.NoticeDays, LapseMonths: v.LapseMonths, AbsenceDays: v.AbsenceDays,
		},
	}
}

func stepOut(s assessment.Step) stepForm {
	f := stepForm{
		No: s.No, Text: s.Text, Kind: string(s.Kind), MayNotApply: s.MayNotApply, Note: s.Note,
	}
	if s.Weight != 1 {
		f.Weight = &s.Weight
	}
	if s.Critical {
		f.Critical = &s.Because
		if s.Least != assessment.Independent {
			least := string(s.Least)
			f.Least = &least
		}
	}
	for _, m := range s.Measures {
		f.Measures = append(f.Measures, measureForm{
			Name: m.Name, Unit: m.Unit, Low: boundOut(m.Low), High: boundOut(m.High),
			RecordOnly: !m.Judged(), Exclusive: m.Exclusive, Magnitude: m.Magnitude, Either: m.Either,
		})
	}
	return f
}

func boundOut(b *assessment.Bound) *boundForm {
	if b == nil {
		return nil
	}
	f := boundForm{Parameter: b.Parameter, Measure: b.Measure, Plus: b.Plus, Minus: b.Minus}
	if b.Parameter+b.Measure == "" {
		f.Value = numberOut(b.Value)
	}
	if b.Times != nil {
		n := numberOut(*b.Times)
		f.Times = &n
	}
	return &f
}
