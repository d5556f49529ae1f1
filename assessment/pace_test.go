package assessment_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"wellshown/assessment"
)

// marks are instants so many seconds after two in the afternoon.
func marks(seconds ...float64) []time.Time {
	var all []time.Time
	for _, s := range seconds {
		all = append(all, time.Date(2026, 2, 1, 14, 2, 0, 0, time.UTC).Add(time.Duration(math.Round(s*1000))*time.Millisecond))
	}
	return all
}

// Five marks or more, each within two seconds of the one before (common practice, no
// source).
func TestBurstsOfMarks(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		marks []time.Time
		want  []string
	}{
		"nothing":                       {nil, nil},
		"as it was watched":             {marks(0, 10, 25, 31, 40, 62), nil},
		"four at once":                  {marks(0, 1, 2, 3), nil},
		"five, on the limit":            {marks(0, 2, 4, 6, 8), []string{"5 steps were marked within 8 seconds, at 14:02."}},
		"five, one too late":            {marks(0, 2, 4, 6, 8.001), nil},
		"all in one instant":            {marks(3, 3, 3, 3, 3), []string{"5 steps were marked within 1 second, at 14:02."}},
		"nine at the end":               {marks(0, 20, 100, 100.5, 101, 102, 102.8, 103, 104, 105, 105.2), []string{"9 steps were marked within 6 seconds, at 14:03."}},
		"in any order":                  {marks(8, 0, 4, 2, 6), []string{"5 steps were marked within 8 seconds, at 14:02."}},
		"two runs, and one in between":  {marks(0, 1, 2, 3, 4, 30, 60, 61, 62, 63, 64, 65), []string{"5 steps were marked within 4 seconds, at 14:02.", "6 steps were marked within 5 seconds, at 14:03."}},
		"a long run, told as one":       {marks(0, 1.9, 3.8, 5.7, 7.6, 9.5, 11.4), []string{"7 steps were marked within 12 seconds, at 14:02."}},
		"four, a pause, and four again": {marks(0, 1, 2, 3, 5.5, 6.5, 7.5, 8.5), nil},
	} {
		given := slices.Clone(c.marks)
		var got []string
		for _, b := range assessment.Bursts(c.marks) {
			got = append(got, b.Words(time.UTC))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
		if !slices.Equal(c.marks, given) {
			t.Errorf("%s: the marks were put in another order", name)
		}
	}
}
