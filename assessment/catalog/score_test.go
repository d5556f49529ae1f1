package catalog_test

import (
	"testing"

	"wellshown/assessment"
)

func TestAllShownInRangeIsCompetent(t *testing.T) {
	for _, c := range all(t) {
		r := score(t, c, shown(t, c))
		if r.Outcome != assessment.Competent || r.Score.Cmp(assessment.Whole(1)) != 0 || len(r.Reasons) > 0 {
			t.Errorf("%s: %s at %s, reasons %v", c.Code, r.Outcome, r.Score, r.Reasons)
		}
	}
}

// A critical step below its least mark fails the attempt whatever the score.
func TestEachCriticalStepDecides(t *testing.T) {
	for _, c := range all(t) {
		for _, s := range c.Steps() {
			sheet := shown(t, c)
			sheet.Entries[s.No-1].Mark = assessment.Cued
			r := score(t, c, sheet)
			named := false
			for _, why := range r.Reasons {
				named = named || why.Rule == assessment.RuleCritical && why.Step == s.No
			}
			if named != s.Critical || s.Critical && r.Outcome != assessment.NotYetCompetent {
				t.Errorf("%s, step %d cued: %s, %v", c.Code, s.No, r.Outcome, r.Reasons)
			}
		}
	}
}

// In drills no cue is allowed on any step (no source); elsewhere two are.
func TestCuesAreLimited(t *testing.T) {
	for i, c := range all(t) {
		sheet := shown(t, c)
		cued := 0
		for _, s := range c.Steps() {
			if s.Critical || cued > content[i].cueLimit {
				continue
			}
			sheet.Entries[s.No-1].Mark = assessment.Cued
			cued++
			over := false
			for _, why := range score(t, c, sheet).Reasons {
				over = over || why.Rule == assessment.RuleCues
			}
			if over != (cued > content[i].cueLimit) {
				t.Errorf("%s with %d cued steps: over the limit %t", c.Code, cued, over)
			}
		}
	}
}

// Every end of every range refuses what lies beyond it.
func TestBeyondEachEndIsNotMet(t *testing.T) {
	tick := assessment.MustNumber("0.001")
	for _, c := range all(t) {
		for _, s := range c.Steps() {
			for _, m := range s.Measures {
				values := shown(t, c).Entries[s.No-1].Values
				a, _, err := m.Accepted(withDefaults(c), values)
				if err != nil {
					t.Fatal(err)
				}
				if a.Low != nil {
					beyond(t, c, s, m, a.Low.Minus(tick), values)
				}
				if a.High != nil {
					beyond(t, c, s, m, a.High.Plus(tick), values)
				}
			}
		}
	}
}

func withDefaults(c assessment.Checklist) assessment.Parameters {
	known := ordered()
	for _, p := range c.Parameters {
		if _, ok := known[p.Name]; !ok && p.Default != nil {
			known[p.Name] = *p.Default
		}
	}
	return known
}

func beyond(t *testing.T, c assessment.Checklist, s assessment.Step, m assessment.Measure, n assessment.Number, values map[string]assessment.Quantity) {
	t.Helper()
	with := map[string]assessment.Quantity{}
	for name, q := range values {
		with[name] = q
	}
	with[m.Name] = assessment.Quantity{Value: n, Unit: m.Unit}
	if got := at(t, c, s.No, with, ordered()); got != assessment.NotMet {
		t.Errorf("%s, step %d: %s at %s is %s", c.Code, s.No, m.Name, with[m.Name], got)
	}
}

// Where "not applicable" is not written it cannot be chosen, and never without a
// reason.
func TestNotApplicableOnlyWhereWritten(t *testing.T) {
	for _, c := range all(t) {
		for _, s := range c.Steps() {
			sheet := shown(t, c)
			sheet.Entries[s.No-1] = assessment.SheetEntry{No: s.No, NotApplicable: true, Reason: "so it is"}
			_, open, err := assessment.Score(c, ordered(), sheet)
			if err != nil || (len(open) == 0) != (s.MayNotApply != "") {
				t.Errorf("%s, step %d: %v, open %v", c.Code, s.No, err, open)
			}
			sheet.Entries[s.No-1].Reason = " "
			if _, open, err = assessment.Score(c, ordered(), sheet); err != nil || len(open) != 1 {
				t.Errorf("%s, step %d without a reason: %v, open %v", c.Code, s.No, err, open)
			}
		}
	}
}

// A child whose record lacks what a range needs cannot be shown it on.
func TestARangeNeedsItsParameters(t *testing.T) {
	for _, c := range all(t) {
		for _, s := range c.Steps() {
			for _, m := range s.Measures {
				if m.Low == nil || m.Low.Parameter == "" || c.Parameters == nil || m.Either != "" {
					continue
				}
				orders := ordered()
				delete(orders, m.Low.Parameter)
				if _, hasDefault := withDefaults(c)[m.Low.Parameter]; !hasDefault {
					continue
				}
				_, open, err := assessment.Score(c, orders, shown(t, c))
				if err != nil || len(open) == 0 || open[0].Why != assessment.WhyParameter {
					t.Errorf("%s, step %d without %s: %v, open %v", c.Code, s.No, m.Low.Parameter, err, open)
				}
			}
		}
	}
}
