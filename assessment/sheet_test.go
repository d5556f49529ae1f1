package assessment_test

import (
	"fmt"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/fault"
)

// one is a checklist of a single measured step, passed at full score.
func one(params []assessment.Parameter, measures ...assessment.Measure) assessment.Checklist {
	c := assessment.Checklist{Parameters: params}
	c.Sections = []assessment.Section{{Steps: []assessment.Step{{No: 1, Text: "Suction", Weight: 1, Kind: assessment.Measured, Measures: measures}}}}
	c.Policy.Scoring = assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.Whole(1)}
	return c
}

// judged scores that step as independent with some values, in words.
func judged(t *testing.T, c assessment.Checklist, known assessment.Parameters, values map[string]assessment.Quantity) string {
	t.Helper()
	sheet := assessment.Sheet{Entries: []assessment.SheetEntry{{No: 1, Mark: assessment.Independent, Values: values}}}
	r, open, err := assessment.Score(c, known, sheet)
	if err != nil {
		return "error: " + err.Error()
	}
	for _, o := range open {
		return fmt.Sprintf("open: %s %s", o.Why, o.Of)
	}
	var out []string
	for _, reason := range r.Reasons {
		if reason.Rule == assessment.RuleValue {
			out = append(out, reason.Of)
		}
	}
	return strings.TrimSpace(string(r.Outcome) + " " + strings.Join(out, " "))
}

func number(s string) *assessment.Number { return new(assessment.MustNumber(s)) }

// A bound may be a parameter of the child, times a factor, plus or minus another:
// a suction depth of the tube's length plus 5 mm, half a tube's bore.
func TestBoundsThatFollowTheChild(t *testing.T) {
	params := []assessment.Parameter{{Name: "length", Unit: "mm"}, {Name: "beyond", Unit: "cm", Default: new(quantity("1/2", "cm"))}, {Name: "set", Unit: "mL"}}
	known := assessment.Parameters{"length": quantity("40", "mm"), "set": quantity("100", "mL")}
	depth := one(params, assessment.Measure{Name: "depth", Unit: "mm", Low: &assessment.Bound{Parameter: "length", Minus: "beyond"}, High: &assessment.Bound{Parameter: "length", Plus: "beyond"}})
	for value, want := range map[string]string{"35": "competent", "45": "competent", "34.9": "not yet competent depth", "45.1": "not yet competent depth"} {
		if got := judged(t, depth, known, map[string]assessment.Quantity{"depth": quantity(value, "mm")}); got != want {
			t.Errorf("depth %s mm: %s, not %s", value, got, want)
		}
	}
	for missing, of := range map[string]string{"length": "length"} {
		if got := judged(t, depth, assessment.Parameters{}, map[string]assessment.Quantity{"depth": quantity("40", "mm")}); got != "open: parameter "+of {
			t.Errorf("without %s: %s", missing, got)
		}
	}
	depth.Parameters[1].Default = nil
	if got := judged(t, depth, known, map[string]assessment.Quantity{"depth": quantity("40", "mm")}); got != "open: parameter beyond" {
		t.Errorf("without what is added: %s", got)
	}
	volume := one(params, assessment.Measure{Name: "volume", Low: &assessment.Bound{Parameter: "set", Times: number("0.9")}, High: &assessment.Bound{Parameter: "set", Times: number("1.1")}})
	for value, want := range map[string]string{"90": "competent", "110": "competent", "89.9": "not yet competent volume", "110.1": "not yet competent volume"} {
		if got := judged(t, volume, known, map[string]assessment.Quantity{"volume": quantity(value, "mL")}); got != want {
			t.Errorf("volume %s mL: %s, not %s", value, got, want)
		}
	}
	if got := judged(t, volume, known, map[string]assessment.Quantity{"volume": quantity("0.1", "L")}); got != "competent" {
		t.Errorf("volume 0.1 L: %s", got)
	}
}

// A bound may be another value of the step: the second reading at least the first.
func TestBoundsThatFollowAnotherValue(t *testing.T) {
	c := one(nil, assessment.Measure{Name: "before", Unit: "%"}, assessment.Measure{Name: "after", Unit: "%", Low: &assessment.Bound{Measure: "before"}})
	for _, v := range []struct{ before, after, want string }{{"92", "92", "competent"}, {"92", "91.9", "not yet competent after"}, {"92", "", "open: value after"}, {"", "95", "open: value before"}} {
		values := map[string]assessment.Quantity{}
		if v.before != "" {
			values["before"] = quantity(v.before, "%")
		}
		if v.after != "" {
			values["after"] = quantity(v.after, "%")
		}
		if got := judged(t, c, nil, values); got != v.want {
			t.Errorf("%s then %s: %s, not %s", v.before, v.after, got, v.want)
		}
	}
}

// Of alternatives at least one is recorded, and each recorded one is judged.
func TestAlternatives(t *testing.T) {
	c := one(nil, assessment.Measure{Name: "gauge", Unit: "mmHg", High: &assessment.Bound{Value: assessment.Whole(120)}, Either: "pressure"},
		assessment.Measure{Name: "dial", Unit: "kPa", High: &assessment.Bound{Parameter: "limit"}, Either: "pressure"})
	known := assessment.Parameters{"limit": quantity("16", "kPa")}
	for _, v := range []struct {
		values map[string]assessment.Quantity
		known  assessment.Parameters
		want   string
	}{
		{nil, known, "open: value gauge"},
		{map[string]assessment.Quantity{"gauge": quantity("120", "mmHg")}, known, "competent"},
		{map[string]assessment.Quantity{"dial": quantity("16", "kPa")}, known, "competent"},
		{map[string]assessment.Quantity{"gauge": quantity("120", "mmHg"), "dial": quantity("17", "kPa")}, known, "not yet competent dial"},
		{map[string]assessment.Quantity{"gauge": quantity("120", "mmHg")}, nil, "competent"}, // the range not chosen is not asked for
		{map[string]assessment.Quantity{"dial": quantity("16", "kPa")}, nil, "open: parameter limit"},
	} {
		if got := judged(t, c, v.known, v.values); got != v.want {
			t.Errorf("%v: %s, not %s", v.values, got, v.want)
		}
	}
}

func TestSheetsThatDoNotFit(t *testing.T) {
	c := one(nil, assessment.Measure{Name: "time", Unit: "s", High: &assessment.Bound{Value: assessment.Whole(15)}})
	for names, entries := range map[string][]assessment.SheetEntry{
		"no step 2":            {{No: 2, Mark: assessment.Independent}},
		"step 1 is on the":     {{No: 1, Mark: assessment.Cued}, {No: 1, Mark: assessment.Independent}},
		`"fine" is not a mark`: {{No: 1, Mark: "fine"}},
		"also not applicable":  {{No: 1, Mark: assessment.Cued, NotApplicable: true}},
		"and also not":         {{No: 1, NotApplicable: true, Values: map[string]assessment.Quantity{"time": quantity("1", "s")}}},
		`no value named "x"`:   {{No: 1, Mark: assessment.Cued, Values: map[string]assessment.Quantity{"x": quantity("1", "s")}}},
		"step 1, time: the value is in mmHg and the range in s":          {{No: 1, Mark: assessment.Cued, Values: map[string]assessment.Quantity{"time": quantity("1", "mmHg")}}},
		"step 1, time: the value is in a number without unit and the ra": {{No: 1, Mark: assessment.Cued, Values: map[string]assessment.Quantity{"time": quantity("1", "")}}},
	} {
		_, _, err := assessment.Score(c, nil, assessment.Sheet{Entries: entries})
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), names) {
			t.Errorf("%v does not say %q", err, names)
		}
	}
}

func TestReasonsInWords(t *testing.T) {
	c := one(nil)
	c.Policy.Scoring.CueLimit = new(2)
	c.Policy.Scoring.PassMark = assessment.MustNumber("955/1000")
	for rule, want := range map[assessment.Rule]string{
		assessment.RuleUnsafe: "Step 1 was unsafe: Suction", assessment.RuleCritical: "Critical step 1 was not shown well enough: Suction",
		assessment.RuleValue: "Step 1: depth is outside its accepted range.", assessment.RuleCues: "More steps were cued than the 2 allowed.",
		assessment.RuleScore: "The score is below the pass mark of 95.5 %.", assessment.RuleNothing: "No step was shown in full.",
	} {
		if got := (assessment.Reason{Rule: rule, Step: 1, Of: "depth"}).InWords(c); got != want {
			t.Errorf("%s: %q, not %q", rule, got, want)
		}
	}
}

func TestWhichParametersJudge(t *testing.T) {
	c := one(nil, assessment.Measure{Name: "depth", Unit: "mm", Low: &assessment.Bound{Parameter: "length", Minus: "less"}, High: &assessment.Bound{Parameter: "length", Plus: "more"}})
	for name, want := range map[string]bool{"length": true, "more": true, "less": true, "other": false, "": false} {
		if c.Judges(name) != want {
			t.Errorf("%q judges: %v", name, !want)
		}
	}
}
