package assessment_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"wellshown/assessment"
)

// This file is a second implementation of scoring, written from the rules alone
// over math/big and plain words. It knows fixed and parameter bounds, which is
// what a case file holds.

type refResult struct {
	outcome string
	score   *big.Rat
	reasons []string // "rule" or "rule step"
	open    []string // "step why"
}

// text is the result in one line, to compare by.
func (r refResult) text() string {
	if len(r.open) > 0 {
		return "open: " + strings.Join(r.open, ", ")
	}
	score := "none"
	if r.score != nil {
		score = r.score.RatString()
	}
	return fmt.Sprintf("%s %s: %s", r.outcome, score, strings.Join(r.reasons, ", "))
}

// refText is a wanted answer in the same words.
func refText(t *testing.T, want []byte) string {
	t.Helper()
	var w struct {
		Outcome string
		Score   *string
		Reasons []struct {
			Rule string
			Step int
		}
		Open []struct {
			Step int
			Why  string
		}
	}
	if err := json.Unmarshal(want, &w); err != nil {
		t.Fatal(err)
	}
	r := refResult{outcome: w.Outcome}
	if w.Score != nil {
		r.score, _ = new(big.Rat).SetString(*w.Score)
	}
	for _, x := range w.Reasons {
		r.reasons = append(r.reasons, refReason(x.Rule, x.Step))
	}
	for _, x := range w.Open {
		r.open = append(r.open, fmt.Sprint(x.Step, " ", x.Why))
	}
	return r.text()
}

func refReason(rule string, step int) string {
	if step == 0 {
		return rule
	}
	return fmt.Sprint(rule, " ", step)
}

var refBest = map[assessment.Mark]int{"independent": 5, "cued": 4, "assisted": 3, "not met": 2, "unsafe": 1}

// refUnits are numerators over 10⁹ of each unit's base.
var refUnits = map[string][2]any{
	"mmHg": {"Pa", "133322387415/1000000000"}, "cmH2O": {"Pa", "980665/10000"}, "kPa": {"Pa", "1000/1"}, "Pa": {"Pa", "1"},
	"s": {"s", "1"}, "min": {"s", "60"}, "mm": {"mm", "1"}, "cm": {"mm", "10"},
	"mL": {"mL", "1"}, "L": {"mL", "1000"}, "mL/min": {"mL/min", "1"}, "L/min": {"mL/min", "1000"},
}

func refRat(n fmt.Stringer) *big.Rat {
	r, ok := new(big.Rat).SetString(n.String())
	if !ok {
		panic(n.String())
	}
	return r
}

// refIn turns a value into another unit.
func refIn(v *big.Rat, from, to string) *big.Rat {
	if from == to {
		return v
	}
	f, t := refUnits[from], refUnits[to]
	if f[0] == nil || f[0] != t[0] {
		panic(from + " into " + to)
	}
	num, _ := new(big.Rat).SetString(f[1].(string))
	den, _ := new(big.Rat).SetString(t[1].(string))
	return new(big.Rat).Quo(new(big.Rat).Mul(v, num), den)
}

func refScore(c assessment.Checklist, params assessment.Parameters, sheet assessment.Sheet) refResult {
	entries := map[int]assessment.SheetEntry{}
	for _, e := range sheet.Entries {
		entries[e.No] = e
	}
	var r refResult
	earned, total, cues := new(big.Rat), new(big.Rat), 0
	for _, s := range c.Steps() {
		e := entries[s.No]
		if why := refOpen(s, e, params); why != "" {
			r.open = append(r.open, fmt.Sprint(s.No, " ", why))
			continue
		}
		if e.NotApplicable {
			continue
		}
		out := refOut(s, e, params)
		mark := e.Mark
		if out > 0 && refBest[mark] > refBest["not met"] {
			mark = "not met"
		}
		if e.Mark == "cued" {
			cues++
		}
		weight := big.NewRat(int64(s.Weight), 1)
		total.Add(total, weight)
		earned.Add(earned, new(big.Rat).Mul(weight, refRat(c.Policy.Scoring.Credits[mark])))
		if mark == "unsafe" {
			r.reasons = append(r.reasons, refReason("unsafe", s.No))
		}
		if s.Critical && refBest[mark] < refBest[s.Least] {
			r.reasons = append(r.reasons, refReason("critical", s.No))
		}
		for range out {
			r.reasons = append(r.reasons, refReason("value", s.No))
		}
	}
	if len(r.open) > 0 && !sheet.Stopped {
		return refResult{open: r.open}
	}
	r.open = nil
	return r.close(c.Policy.Scoring, earned, total, cues, sheet.Stopped)
}

func (r refResult) close(p assessment.Scoring, earned, total *big.Rat, cues int, stopped bool) refResult {
	if p.CueLimit != nil && cues > *p.CueLimit {
		r.reasons = append(r.reasons, "cues")
	}
	if total.Sign() == 0 {
		r.reasons = append(r.reasons, "nothing shown")
	} else if r.score = new(big.Rat).Quo(earned, total); r.score.Cmp(refRat(p.PassMark)) < 0 {
		r.reasons = append(r.reasons, "score")
	}
	r.outcome = "competent"
	for _, reason := range r.reasons {
		if !strings.HasPrefix(reason, "value") {
			r.outcome = "not yet competent"
		}
	}
	if stopped {
		r.outcome = "stopped for safety"
	}
	return r
}

func refOpen(s assessment.Step, e assessment.SheetEntry, params assessment.Parameters) string {
	if e.NotApplicable {
		if s.MayNotApply == "" {
			return "not allowed"
		}
		if strings.TrimSpace(e.Reason) == "" {
			return "reason"
		}
		return ""
	}
	if e.Mark == "" {
		return "mark"
	}
	for _, m := range s.Measures {
		if _, given := e.Values[m.Name]; !given && refBest[e.Mark] >= refBest["assisted"] {
			return "value"
		}
	}
	for _, m := range s.Measures {
		for _, b := range []*assessment.Bound{m.Low, m.High} {
			if b != nil && b.Parameter != "" {
				if _, known := params[b.Parameter]; !known {
					return "parameter"
				}
			}
		}
	}
	return ""
}

// refOut counts the values outside their ranges.
func refOut(s assessment.Step, e assessment.SheetEntry, params assessment.Parameters) int {
	out := 0
	for _, m := range s.Measures {
		read, given := e.Values[m.Name]
		if !given {
			continue
		}
		v := refRat(read.Value)
		if m.Magnitude {
			v.Abs(v)
		}
		inside := refInside(m, m.Low, v, read.Unit, params, 1) && refInside(m, m.High, v, read.Unit, params, -1)
		if !inside {
			out++
		}
	}
	return out
}

func refInside(m assessment.Measure, b *assessment.Bound, v *big.Rat, unit string, params assessment.Parameters, side int) bool {
	if b == nil {
		return true
	}
	bound := refIn(refRat(b.Value), m.Unit, unit)
	if b.Parameter != "" {
		q := params[b.Parameter]
		bound = refIn(refRat(q.Value), q.Unit, unit)
	}
	if m.Magnitude {
		bound = new(big.Rat).Abs(bound)
	}
	c := v.Cmp(bound) * side
	return c > 0 || c == 0 && !m.Exclusive
}
