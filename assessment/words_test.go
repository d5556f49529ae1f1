package assessment_test

import (
	"slices"
	"testing"

	"wellshown/assessment"
)

func fixedAt(s string) *assessment.Bound {
	return &assessment.Bound{Value: assessment.MustNumber(s)}
}

func factor(s string) *assessment.Number {
	n := assessment.MustNumber(s)
	return &n
}

func TestARangeInWords(t *testing.T) {
	low, high := &assessment.Bound{Parameter: "suction_low"}, &assessment.Bound{Parameter: "suction_high"}
	for _, row := range []struct {
		want string
		m    assessment.Measure
	}{
		{"at most 15 s", assessment.Measure{Unit: "s", High: fixedAt("15")}},
		{"below 120 mmHg", assessment.Measure{Unit: "mmHg", High: fixedAt("120"), Exclusive: true}},
		{"at least 20 s", assessment.Measure{Unit: "s", Low: fixedAt("20")}},
		{"above 0.5 cm", assessment.Measure{Unit: "cm", Low: fixedAt("0.5"), Exclusive: true}},
		{"80 to 120 mmHg", assessment.Measure{Unit: "mmHg", Low: fixedAt("80"), High: fixedAt("120")}},
		{"above 80 and below 120 mmHg", assessment.Measure{Unit: "mmHg", Low: fixedAt("80"), High: fixedAt("120"), Exclusive: true}},
		{"between {suction_low} and {suction_high} mmHg, with or without a minus sign", assessment.Measure{Unit: "mmHg", Low: low, High: high, Magnitude: true}},
		{"between {suction_low} and {suction_high}", assessment.Measure{Low: low, High: high}},
		{"exactly 30", assessment.Measure{Low: fixedAt("30"), High: fixedAt("30")}},
		{"exactly {suction_low} mmHg", assessment.Measure{Unit: "mmHg", Low: low, High: low}},
		{"{depth} ± {tol} cm", assessment.Measure{Unit: "cm", Low: &assessment.Bound{Parameter: "depth", Minus: "tol"}, High: &assessment.Bound{Parameter: "depth", Plus: "tol"}}},
		{"between {depth} and {depth} + {tol} cm", assessment.Measure{Unit: "cm", Low: &assessment.Bound{Parameter: "depth"}, High: &assessment.Bound{Parameter: "depth", Plus: "tol"}}},
		{"between {depth} − {tol} and {depth} + {more} cm", assessment.Measure{Unit: "cm", Low: &assessment.Bound{Parameter: "depth", Minus: "tol"}, High: &assessment.Bound{Parameter: "depth", Plus: "more"}}},
		{"{battery} min ± 10 %", assessment.Measure{Unit: "min", Low: &assessment.Bound{Parameter: "battery", Times: factor("9/10")}, High: &assessment.Bound{Parameter: "battery", Times: factor("11/10")}}},
		{"between 90 % of {battery} and 1.2 × {battery} min", assessment.Measure{Unit: "min", Low: &assessment.Bound{Parameter: "battery", Times: factor("9/10")}, High: &assessment.Bound{Parameter: "battery", Times: factor("12/10")}}},
		{"at least 2 × trip min", assessment.Measure{Unit: "min", Low: &assessment.Bound{Measure: "trip", Times: factor("2")}}},
		{"34 to 41 °C", assessment.Measure{Unit: "degC", Low: fixedAt("34"), High: fixedAt("41")}},
		{"100 to 120 per minute", assessment.Measure{Unit: "1/min", Low: fixedAt("100"), High: fixedAt("120")}},
		{"at least 80 %", assessment.Measure{Unit: "%", Low: fixedAt("80")}},
		{"recorded, not judged", assessment.Measure{Unit: "%"}},
	} {
		if got := row.m.RangeInWords(); got != row.want {
			t.Errorf("got %q, want %q", got, row.want)
		}
	}
}

func TestAnAcceptedRangeInWords(t *testing.T) {
	m := assessment.Measure{Unit: "cm", Low: &assessment.Bound{Parameter: "depth", Minus: "tol"}, High: &assessment.Bound{Parameter: "depth", Plus: "tol"}}
	a, _, err := m.Accepted(assessment.Parameters{
		"depth": {Value: assessment.MustNumber("9"), Unit: "cm"}, "tol": {Value: assessment.MustNumber("5"), Unit: "mm"},
	}, nil)
	if err != nil || a.InWords() != "8.5 to 9.5 cm" {
		t.Errorf("got %q, %v", a.InWords(), err)
	}
	if got := (assessment.Accepted{}).InWords(); got != "recorded, not judged" {
		t.Errorf("got %q", got)
	}
}

// 10 to 13 kPa is 75.006… to 97.508… mmHg (NIST SP 811, appendix B.8). What is
// shown must be accepted: 75.006 would be refused, as would 97.509.
func TestShownEndsAreRoundedInward(t *testing.T) {
	m := assessment.Measure{Unit: "mmHg", Low: &assessment.Bound{Parameter: "low"}, High: &assessment.Bound{Parameter: "high"}}
	a, _, err := m.Accepted(assessment.Parameters{
		"low": {Value: assessment.MustNumber("10"), Unit: "kPa"}, "high": {Value: assessment.MustNumber("13"), Unit: "kPa"},
	}, nil)
	if err != nil || a.InWords() != "75.007 to 97.508 mmHg" {
		t.Fatalf("got %q, %v", a.InWords(), err)
	}
	for value, want := range map[string]bool{"75.006": false, "75.007": true, "97.508": true, "97.509": false} {
		in, err := a.Holds(assessment.Quantity{Value: assessment.MustNumber(value), Unit: "mmHg"})
		if err != nil || in != want {
			t.Errorf("%s mmHg lies in the range: %t, %v", value, in, err)
		}
	}
}

func TestAPolicyInWords(t *testing.T) {
	two, months := 2, 24
	p := assessment.Policy{
		Scoring: assessment.Scoring{Credits: assessment.DefaultCredits(), PassMark: assessment.MustNumber("95/100"), CueLimit: &two},
		Award:   assessment.Award{Count: 3, Days: 2, Observers: 2, Real: 1, SpanDays: 180, Consecutive: true},
		Validity: assessment.Validity{
			Months: 12, Anchor: assessment.Anniversary, RenewalDays: 60, NoticeDays: 30, LapseMonths: &months, AbsenceDays: 90, CardNeeded: true,
		},
	}
	want := []string{
		"A step marked independent earns 1 and cued earns 1/2; any other mark earns nothing.",
		"A sheet passes at a score of 95 % or more, with each critical step shown and nothing unsafe.",
		"At most 2 steps may be cued.",
		"3 competent demonstrations in a row, on at least 2 days, with at least 2 observers, at least 1 with the real client, within 180 days.",
		"Holds for 12 months, through the same day of the month.",
		"A renewal in the last 60 days keeps the day; any other counts from the day it was shown.",
		"Shown as due in the last 30 days.",
		"Over for longer than 24 months: all the demonstrations again; until then one renews.",
		"Ends after 90 days without practice.",
		"Ends with the resuscitation card, if that ends first.",
	}
	if got := p.InWords(); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
	none := 0
	p.Scoring = assessment.Scoring{PassMark: assessment.MustNumber("2/3"), CueLimit: &none}
	p.Award = assessment.Award{Count: 1, Days: 1, Observers: 1, SpanDays: 1}
	p.Validity = assessment.Validity{Months: 1, Anchor: assessment.MonthEnd}
	want = []string{
		"No mark earns credit.",
		"A sheet passes at a score of 2/3 or more, with each critical step shown and nothing unsafe.",
		"No step may be cued.",
		"1 competent demonstration, within 1 day.",
		"Holds for 1 month, through the end of that month.",
		"Each renewal counts from the day it was shown.",
		"Shown as due in the last 0 days.",
		"One competent demonstration renews, however long it has been over.",
	}
	if got := p.InWords(); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}
