package assessment_test

import (
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// A deficient skill and all related skills are taught and judged again, others are untouched:
// 42 CFR 484.80(h)(3), from memory. A with related {B, C}: A, B and C; not D. That either may name the
// other is the reading that withholds, no source.
func TestSkillsRelatedToADeficientOne(t *testing.T) {
	named := map[string][]string{"a": {"b", "c"}, "b": {"d"}, "d": nil, "e": {"a", "e"}}
	for code, want := range map[string][]string{"a": {"b", "c", "e"}, "b": {"a", "d"}, "c": {"a"}, "d": {"b"}, "e": {"a"}, "f": nil} {
		if got := assessment.RelatedSkills(code, named); !slices.Equal(got, want) {
			t.Errorf("related to %s: %v, want %v", code, got, want)
		}
	}
	if !slices.Equal(named["a"], []string{"b", "c"}) {
		t.Error("what was handed in has changed")
	}
}

// No source: the fold's own rule that a negative acts from the day it was performed, and that
// what was shown before it became known was shown before anybody taught it again.
func TestInstantsAtWhichAnIncidentActs(t *testing.T) {
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	happened := time.Date(2026, 11, 28, 23, 30, 0, 0, zone)
	for _, c := range []struct {
		recorded time.Time
		want     int
	}{
		{happened.Add(20 * time.Minute), 1},
		{happened.Add(30 * time.Minute), 2}, // midnight at the agency
		{happened.Add(72 * time.Hour), 2},
	} {
		got := assessment.IncidentActs(happened, c.recorded, zone)
		if len(got) != c.want || !got[0].Equal(happened) || !got[len(got)-1].Equal(happened) && !got[len(got)-1].Equal(c.recorded) {
			t.Errorf("written down %s after: %v", c.recorded.Sub(happened), got)
		}
	}
}
