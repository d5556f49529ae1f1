package assessment_test

import (
	"fmt"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// manyShown asks for three demonstrations on two days by two observers, one with
// the real client.
func manyShown() assessment.Terms {
	t := oneShown(12, assessment.Anniversary, 60)
	t.Award = assessment.Award{Count: 3, Days: 2, Observers: 2, Real: 1, SpanDays: 180, Consecutive: true}
	return t
}

func TestWhatIsNeededNext(t *testing.T) {
	simulated := shownOn("2026-01-05", "2026-01-05")
	for i := range simulated {
		simulated[i].Real = false
	}
	withdrawn := func(until assessment.Until) []assessment.Entry {
		return append(shownOn("2026-01-10"), assessment.Entry{Kind: assessment.WithdrawalEntry, ID: "w1", Until: until, At: civil.MustParse("2026-03-01").In(time.UTC)})
	}
	three := oneShown(12, assessment.Anniversary, 60)
	three.Award.Count, three.Award.Days = 3, 3
	limited := oneShown(12, assessment.Anniversary, 60)
	limited.Award.Count, limited.Validity.LapseMonths = 2, new(6)
	for _, c := range []struct {
		why     string
		terms   assessment.Terms
		on      string
		history []assessment.Entry
		want    assessment.Next
		words   string
	}{
		{"one is asked for, none shown", oneShown(12, assessment.Anniversary, 60), "2026-01-01", nil,
			assessment.Next{Demonstrations: 1}, "one competent demonstration"},
		{"three on two days by two observers, none shown", manyShown(), "2026-01-01", nil,
			assessment.Next{Demonstrations: 3, OnOtherDays: 1, ByOthers: 1, WithClient: 1},
			"3 competent demonstrations, one of them on another day, one of them seen by another observer, one of them with the child"},
		{"one shown", manyShown(), "2026-01-05", shownOn("2026-01-05"),
			assessment.Next{Demonstrations: 2, OnOtherDays: 1, ByOthers: 1},
			"2 competent demonstrations, one of them on another day, one of them seen by another observer"},
		{"two in simulation on one day by one observer", manyShown(), "2026-01-06", simulated,
			assessment.Next{Demonstrations: 1, OnOtherDays: 1, ByOthers: 1, WithClient: 1},
			"one competent demonstration, on another day, seen by another observer, with the child"},
		{"three on one day: the count is reached, the days are not", three, "2026-01-05", shownOn("2026-01-05", "2026-01-05", "2026-01-05"),
			assessment.Next{Demonstrations: 2, OnOtherDays: 2}, "2 competent demonstrations, on 2 other days"},
		{"two of three are out of the span by then", manyShown(), "2026-12-01", shownOn("2026-01-05", "2026-01-06", "2026-10-01"),
			assessment.Next{Demonstrations: 2, OnOtherDays: 1, ByOthers: 1},
			"2 competent demonstrations, one of them on another day, one of them seen by another observer"},
		{"current, far from the end: nothing", oneShown(12, assessment.Anniversary, 60), "2026-02-01", shownOn("2026-01-10"),
			assessment.Next{}, ""},
		{"due", oneShown(12, assessment.Anniversary, 60), "2026-12-11", shownOn("2026-01-10"),
			assessment.Next{Demonstrations: 1}, "one competent demonstration"},
		{"lapsed within the limit: one renews", limited, "2027-07-10", shownOn("2026-01-09", "2026-01-10"),
			assessment.Next{Demonstrations: 1}, "one competent demonstration"},
		{"lapsed beyond the limit: the whole award", limited, "2027-07-11", shownOn("2026-01-09", "2026-01-10"),
			assessment.Next{Demonstrations: 2}, "2 competent demonstrations"},
		{"withdrawn until shown again, on the day", oneShown(12, assessment.Anniversary, 60), "2026-03-01", withdrawn(assessment.Redemonstrated),
			assessment.Next{Demonstrations: 1, LaterDay: true}, "one competent demonstration, not before tomorrow"},
		{"withdrawn until shown again, later", oneShown(12, assessment.Anniversary, 60), "2026-03-02", withdrawn(assessment.Redemonstrated),
			assessment.Next{Demonstrations: 1}, "one competent demonstration"},
		{"withdrawn until reinstated, else good", oneShown(12, assessment.Anniversary, 60), "2026-03-02", withdrawn(assessment.Reinstated),
			assessment.Next{Reinstatement: true}, "reinstatement by someone entitled"},
		{"withdrawn until reinstated, and run out since", oneShown(12, assessment.Anniversary, 60), "2027-03-02", withdrawn(assessment.Reinstated),
			assessment.Next{Demonstrations: 1, Reinstatement: true}, "reinstatement by someone entitled and one competent demonstration"},
	} {
		next := mustCase(time.UTC, c.terms, c.history).On(civil.MustParse(c.on)).Next
		if next != c.want {
			t.Errorf("%s: needed %+v, not %+v", c.why, next, c.want)
		}
		if next.InWords() != c.words {
			t.Errorf("%s: %q, not %q", c.why, next.InWords(), c.words)
		}
	}
}

// TestWhatIsNeededSuffices: over random histories, on a day on which nothing was
// shown, the demonstrations said to be needed are enough, and one fewer is not.
func TestWhatIsNeededSuffices(t *testing.T) {
	t.Parallel()
	enough := 0
	for seed := range uint64(2 * histories) {
		g := invent(seed)
		from, to := g.spanOf()
		day := from.AddDays(g.IntN(to.Sub(from)))
		s := g.oneCase().On(day)
		n := s.Next
		if s.Word.Holds() || g.shownOnDay(day) || n.Reinstatement || n.LaterDay {
			continue
		}
		if n.Demonstrations < 1 {
			t.Fatalf("seed %d on %s: %s, and nothing is needed", seed, day, s.Word)
		}
		if g.passing(day, n.Demonstrations-1).Holds(day) {
			t.Fatalf("seed %d on %s: %d are said to be needed, one fewer is enough", seed, day, n.Demonstrations)
		}
		if n.OnOtherDays > 0 && g.terms.Award.Days > 1 {
			continue // they do not fit on one day
		}
		enough++
		if !g.passing(day, n.Demonstrations).Holds(day) {
			t.Fatalf("seed %d on %s: %d are said to be needed and are not enough", seed, day, n.Demonstrations)
		}
	}
	if enough < histories/10 {
		t.Errorf("only %d tried", enough)
	}
}

func (g *invented) shownOnDay(day civil.Date) bool {
	for _, e := range g.history {
		if e.Kind == assessment.DemonstrationEntry && civil.DayOf(e.At, g.zone) == day {
			return true
		}
	}
	return false
}

// passing is the case with so many more passes at the end of a day, each by a new
// observer, with the real client, on the newest revision.
func (g *invented) passing(day civil.Date, n int) *assessment.Case {
	history := g.history[:len(g.history):len(g.history)]
	end := day.AddDays(1).In(g.zone)
	for i := range n {
		at := end.Add(time.Duration(i-n) * time.Millisecond)
		history = append(history, assessment.Entry{Kind: assessment.DemonstrationEntry, ID: fmt.Sprint("next", i), At: at, Outcome: assessment.Competent,
			Observer: fmt.Sprint("new", i), Real: true, Formal: true, Revision: 3, ObserverSigned: at, LearnerSigned: at})
	}
	return mustCase(g.zone, g.terms, history)
}
