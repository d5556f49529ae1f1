package assessment_test

import (
	"testing"

	"wellshown/assessment"
)

var num = assessment.MustNumber

// French: the outer diameter in mm is the size divided by 3 (UCSF, tracheostomy suctioning).
func TestCatheterWidths(t *testing.T) {
	for french, want := range map[string]string{"6": "2.000", "8": "2.667", "10": "3.333", "5": "1.667", "14": "4.667"} {
		if got := assessment.CatheterWidth(num(french)).Thousandths(); got != want {
			t.Errorf("%s Fr is %s mm, want %s", french, got, want)
		}
	}
}

// The UK National Tracheostomy Safety Project allows at most half; where twice the inner
// diameter is taught (Russell and Matta, p. 334), 70 % is the limit. Worked out by hand.
func TestLargestCatheters(t *testing.T) {
	for tube, want := range map[string][2]string{"2.5": {"none", "5"}, "3.0": {"none", "6"}, "3.5": {"5", "6"}, "4.0": {"6", "8"}, "4.5": {"6", "8"}, "5.0": {"6", "10"},
		"5.5": {"8", "10"}, "6.0": {"8", "12"}, "7.0": {"10", "14"}} {
		for i, limit := range []assessment.CatheterLimit{assessment.HalfAtMost, assessment.SeventyAtMost} {
			got := "none"
			if n, ok := limit.Largest(assessment.UsualCatheters, num(tube)); ok {
				got = n.String()
			}
			if got != want[i] {
				t.Errorf("tube %s mm, %s: %s, want %s", tube, limit.Phrase(), got, want[i])
			}
		}
	}
}

// AARC 2010 (Respir Care 2010;55:758-764) asks for less than half, the UK project for no
// more than half: 6 Fr in 4.0 mm is exactly half and tells them apart.
func TestAtTheLimit(t *testing.T) {
	for _, c := range []struct {
		french, tube string
		limit        assessment.CatheterLimit
		want         bool
	}{
		{"6", "4.0", assessment.HalfAtMost, true}, {"6", "4.0", assessment.UnderHalf, false}, {"6", "4.0", assessment.SeventyAtMost, true},
		{"10", "5.0", assessment.SeventyAtMost, true}, {"10", "5.0", assessment.HalfAtMost, false}, {"10", "5.0", assessment.UnderHalf, false},
		{"6", "4.1", assessment.UnderHalf, true}, {"6", "3.999999999999", assessment.HalfAtMost, false},
		{"21", "10", assessment.SeventyAtMost, true}, {"21", "9.999999999999", assessment.SeventyAtMost, false},
	} {
		if got := c.limit.Allows(num(c.french), num(c.tube)); got != c.want {
			t.Errorf("%s Fr in %s mm, %s: %t", c.french, c.tube, c.limit.Phrase(), got)
		}
	}
}

// Doubling the inner diameter always takes up two thirds of it (arithmetic).
func TestTwiceTheTube(t *testing.T) {
	for _, tube := range []string{"2.5", "3.5", "5.0", "7.0"} {
		french := assessment.TwiceTheTube(num(tube))
		if r := assessment.CatheterRatio(french, num(tube)); r.Fraction() != "2/3" || r.NearPercent() != "66.7" {
			t.Errorf("%s mm: %s, %s %%", tube, r.Fraction(), r.NearPercent())
		}
	}
	if got := assessment.TwiceTheTube(num("5.0")).String(); got != "10" {
		t.Errorf("5.0 mm asks for %s Fr", got)
	}
}

// Diameter is not area: half of the width is a quarter of the opening (arithmetic).
func TestCatheterAreas(t *testing.T) {
	for _, c := range [][3]string{{"6", "4.0", "25.0"}, {"21", "10", "49.0"}, {"10", "5.0", "44.4"}} {
		if got := assessment.CatheterArea(num(c[0]), num(c[1])).NearPercent(); got != c[2] {
			t.Errorf("%s Fr in %s mm takes up %s %% of the area, want %s", c[0], c[1], got, c[2])
		}
	}
}
