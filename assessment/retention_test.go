package assessment_test

import (
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
	"wellshown/assessment/fault"
)

// The first case is worked out by 45 CFR 164.316(b)(2)(i): six years from the day
// when something was last in effect, not from when it was made. The second by 42 CFR
// 484.110(c), five years after discharge (from memory): the floor keeps at least as
// long. The third is a state's rule of keeping until a child of 2020 is 21. The
// others: common practice, no source.
func TestRetentionThrough(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		years             int
		last, through     string
		tooEarly, mayFrom string
	}{
		{6, "2024-06-30", "2030-06-30", "2030-06-30", "2030-07-01"},
		{6, "2026-02-28", "2032-02-28", "2031-02-28", "2032-02-29"},
		{15, "2026-07-01", "2041-07-01", "2041-07-01", "2041-07-02"},
		{6, "2024-02-29", "2030-03-01", "2030-03-01", "2030-03-02"},
		{8, "2024-02-29", "2032-02-29", "2032-02-29", "2032-03-01"},
	} {
		r, err := assessment.ReadRetention(c.years)
		if err != nil {
			t.Fatal(err)
		}
		last := civil.MustParse(c.last)
		if got := r.Through(last); got.String() != c.through {
			t.Errorf("%d years from %s: through %s, want %s", c.years, c.last, got, c.through)
		}
		if r.MayErase(last, civil.MustParse(c.tooEarly)) || !r.MayErase(last, civil.MustParse(c.mayFrom)) {
			t.Errorf("%d years from %s: not from %s on", c.years, c.last, c.mayFrom)
		}
	}
}

// Nothing is erased by default, nor where it is not known when it was last in effect.
func TestRetentionIsForEverUnlessSet(t *testing.T) {
	t.Parallel()
	var kept assessment.Retention
	if kept.MayErase(civil.MustParse("1900-01-01"), civil.Last) || !kept.Through(civil.MustParse("1900-01-01")).IsZero() {
		t.Error("without a setting something may be erased")
	}
	if (assessment.Retention{Years: 6}).MayErase(civil.Date{}, civil.Last) {
		t.Error("what has not ended may be erased")
	}
	for _, years := range []int{-1, 1, assessment.RetentionFloor - 1, assessment.RetentionCeiling + 1} {
		if _, err := assessment.ReadRetention(years); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%d years can be set: %v", years, err)
		}
	}
}
