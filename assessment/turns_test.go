package assessment

import (
	"math/rand/v2"
	"slices"
	"testing"

	"wellshown/assessment/civil"
)

// What two timelines differ by is what they differ by on each single day, with no day
// more, none less and no run that could be longer (common practice, no source: each day is
// looked up by itself).
func TestTurnsAreTheDaysThatDiffer(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(27, 1))
	first, differed := civil.MustParse("2026-11-01"), 0
	for range 3000 {
		before, after := randomLine(r, first), randomLine(r, first)
		from := first.AddDays(r.IntN(60))
		turns := Turns(before, after, from)
		for i, x := range turns {
			if x.Before == x.After || x.From.Before(from) || !x.Through.IsZero() && x.Through.Before(x.From) || x.Through.IsZero() && i+1 < len(turns) {
				t.Fatalf("a turn that is none: %+v of %+v and %+v", x, before, after)
			}
			if i > 0 && !turns[i-1].Through.Before(x.From) || i > 0 && turns[i-1].Through.AddDays(1) == x.From && turns[i-1].Before == x.Before && turns[i-1].After == x.After {
				t.Fatalf("turns that overlap or are one: %+v", turns)
			}
		}
		for n := range 200 {
			day := from.AddDays(n)
			was, is := dayByDay(before, day), dayByDay(after, day)
			i := slices.IndexFunc(turns, func(x Turn) bool { return !x.From.After(day) && (x.Through.IsZero() || !x.Through.Before(day)) })
			if (i >= 0) != (was != is) || i >= 0 && (turns[i].Before != was || turns[i].After != is) {
				t.Fatalf("on %s: %s before, %s after, and the turns say %+v", day, was, is, turns)
			}
			if was != is {
				differed++
			}
		}
	}
	if differed < 10000 {
		t.Errorf("only %d days differed", differed)
	}
}

func randomLine(r *rand.Rand, first civil.Date) []Segment {
	words := []StandingWord{NotStarted, Learning, Current, Due, Lapsed, Withdrawn, Waived}
	var line []Segment
	for day := first.AddDays(r.IntN(30)); r.IntN(5) > 0; day = day.AddDays(1 + r.IntN(20)) {
		line = append(line, Segment{From: day, Word: words[r.IntN(len(words))]})
	}
	return line
}

// dayByDay looks a day up from the end.
func dayByDay(line []Segment, day civil.Date) StandingWord {
	for _, s := range slices.Backward(line) {
		if !s.From.After(day) {
			return s.Word
		}
	}
	return NotStarted
}
