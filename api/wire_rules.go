package api

import (
	"wellshown/assessment"
)

// Rules are what a checklist is scored by, for a program that must know an outcome
// where the service cannot be reached. All numbers are exact and written as text:
// decimals or fractions. The service scores again, and its answer stands.
type Rules struct {
	Credits    map[string]string `json:"credits" doc:"What each of the five marks earns, 0 to 1."`
	PassMark   string            `json:"pass_mark" doc:"The least score that passes, 0 to 1." example:"0.95"`
	CueLimit   *int              `json:"cue_limit" doc:"How many steps may be cued at most; null for no limit."`
	Parameters []RulesParameter  `json:"parameters" doc:"The values of the child that the ranges need."`
	Steps      []RulesStep       `json:"steps" doc:"In the order in which they are judged."`
}

// RulesParameter is a value of the child that a range needs.
type RulesParameter struct {
	Name    string   `json:"name"`
	Unit    string   `json:"unit" doc:"Empty for a number without unit, and for words."`
	Default *Reading `json:"default,omitempty" doc:"What holds where the child's record has none."`
}

// RulesStep is how one step is judged.
type RulesStep struct {
	No          int            `json:"no"`
	Text        string         `json:"text"`
	Kind        string         `json:"kind" enum:"done,timed,measured,said aloud"`
	Critical    bool           `json:"critical" doc:"A mark below the least fails the whole sheet."`
	Least       string         `json:"least" doc:"The least mark that a critical step accepts; empty where it is not critical."`
	Weight      int            `json:"weight"`
	MayNotApply string         `json:"may_not_apply" doc:"When it may be marked as not applicable; empty for never."`
	Measures    []RulesMeasure `json:"measures"`
}

// RulesMeasure is one value that a step asks for, with its range.
type RulesMeasure struct {
	Name      string      `json:"name"`
	Unit      string      `json:"unit" doc:"The unit of the range; empty for that of the first parameter it names."`
	Low       *RulesBound `json:"low,omitempty" doc:"The least accepted; left out for no such end."`
	High      *RulesBound `json:"high,omitempty" doc:"The most accepted; left out for no such end."`
	Exclusive bool        `json:"exclusive" doc:"The ends themselves are not accepted."`
	Magnitude bool        `json:"magnitude" doc:"Reading and range are compared without sign."`
	Either    string      `json:"either" doc:"Of the measures of a step that share this word one is enough; empty where it is always asked for."`
}

// RulesBound is one end of a range: a value, a parameter of the child, or another
// measure of the same step; times a factor; plus and minus a parameter.
type RulesBound struct {
	Value     string `json:"value,omitempty"`
	Parameter string `json:"parameter,omitempty"`
	Measure   string `json:"measure,omitempty"`
	Times     string `json:"times,omitempty"`
	Plus      string `json:"plus,omitempty" doc:"The name of a parameter."`
	Minus     string `json:"minus,omitempty" doc:"The name of a parameter."`
}

// RulesOf is all of a checklist that its scoring depends on. web/static/bedside
// scores by it, and integration/score_two_ways_test.go holds that to the core.
func RulesOf(c assessment.Checklist) Rules {
	scoring := c.Policy.Scoring
	r := Rules{Credits: map[string]string{}, PassMark: scoring.PassMark.String(), CueLimit: scoring.CueLimit,
		Parameters: each(c.Parameters, rulesParameter), Steps: each(c.Steps(), rulesStep)}
	for _, m := range assessment.Marks {
		r.Credits[string(m)] = scoring.Credits[m].String()
	}
	return r
}

func rulesParameter(p assessment.Parameter) RulesParameter {
	w := RulesParameter{Name: p.Name, Unit: p.Unit}
	if p.Default != nil {
		w.Default = &Reading{Value: p.Default.Value.String(), Unit: p.Default.Unit}
	}
	return w
}

func rulesStep(s assessment.Step) RulesStep {
	w := RulesStep{No: s.No, Text: s.Text, Kind: string(s.Kind), Critical: s.Critical, Weight: s.Weight, MayNotApply: s.MayNotApply, Measures: each(s.Measures, rulesMeasure)}
	if s.Critical {
		w.Least = string(s.Least)
	}
	return w
}

func rulesMeasure(m assessment.Measure) RulesMeasure {
	return RulesMeasure{Name: m.Name, Unit: m.Unit, Low: rulesBound(m.Low), High: rulesBound(m.High), Exclusive: m.Exclusive, Magnitude: m.Magnitude, Either: m.Either}
}

func rulesBound(b *assessment.Bound) *RulesBound {
	if b == nil {
		return nil
	}
	w := &RulesBound{Parameter: b.Parameter, Measure: b.Measure, Plus: b.Plus, Minus: b.Minus}
	if b.Parameter != "" {
		w.Measure = "" // the core asks for the parameter first
	} else if b.Measure == "" {
		w.Value = b.Value.String()
	}
	if b.Times != nil {
		w.Times = b.Times.String()
	}
	return w
}
