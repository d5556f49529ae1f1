package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

// spans makes windows of one home and skill, one for each person.
func spans(from [][2]int) []assessment.Window {
	var all []assessment.Window
	for i, s := range from {
		all = append(all, windowOf(fmt.Sprint("p", i), "s", "h", s[0], s[1]))
	}
	return all
}

// TestTheFewestDaysOfThePublishedCases: testdata/planning/stabbing.json names the source of
// each. The number is compared, and that every window has a day; the days are not unique.
// A plan of visits with room every day makes as many.
func TestTheFewestDaysOfThePublishedCases(t *testing.T) {
	var facts struct {
		Cases []struct {
			Name, Source string
			Intervals    [][2]int
			Minimum      int
		}
	}
	planningFacts(t, "stabbing.json", &facts)
	if len(facts.Cases) != 6 {
		t.Fatalf("%d cases", len(facts.Cases))
	}
	for _, c := range facts.Cases {
		windows := spans(c.Intervals)
		if got := stabbed(t, windows); got != c.Minimum {
			t.Errorf("%s (%s): %d days, not %d", c.Name, c.Source, got, c.Minimum)
		}
		v := assessment.Visiting{From: dayNo(0), Windows: windows, Educators: []assessment.VisitEducator{{Person: "e", PerDay: 1, Observes: always("s")}}}
		plan := v.Plan()
		checkPlan(t, v, plan)
		if len(plan.Visits) != c.Minimum || !plan.Proven || len(plan.Unmet) > 0 {
			t.Errorf("%s: a plan makes %d visits, proven %t, %v unmet", c.Name, len(plan.Visits), plan.Proven, plan.Unmet)
		}
	}
}

// stabbed counts the days, having held them to the rule: each window has one, and as many
// windows share none.
func stabbed(t *testing.T, windows []assessment.Window) int {
	t.Helper()
	days, apart := assessment.Stab(windows)
	for _, w := range windows {
		if !w.Through.Before(w.Opens) && !slices.ContainsFunc(days, w.Holds) {
			t.Fatalf("%v has none of %v", w, days)
		}
	}
	for i, a := range apart {
		for _, b := range apart[:i] {
			if a.Holds(civil.Later(a.Opens, b.Opens)) && b.Holds(civil.Later(a.Opens, b.Opens)) {
				t.Fatalf("%v and %v share a day", a, b)
			}
		}
	}
	if len(apart) != len(days) {
		t.Fatalf("%d windows prove %d days", len(apart), len(days))
	}
	return len(days)
}

// TestNoFewerDaysAreEnough: against every set of days, on 1,000 small cases.
func TestNoFewerDaysAreEnough(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 21))
	for n := range 1000 {
		var from [][2]int
		for range rng.IntN(8) {
			opens := 1 + rng.IntN(10)
			from = append(from, [2]int{opens, min(opens+rng.IntN(6)-1, 10)}) // some have no day at all
		}
		windows, fewest := spans(from), 11
		for set := range 1 << 10 {
			days, enough := 0, true
			for d := range 10 {
				days += set >> d & 1
			}
			for _, s := range from {
				hit := s[1] < s[0]
				for d := s[0]; d <= s[1]; d++ {
					hit = hit || set>>(d-1)&1 == 1
				}
				enough = enough && hit
			}
			if enough {
				fewest = min(fewest, days)
			}
		}
		if got := stabbed(t, windows); got != fewest {
			t.Fatalf("case %d, %v: %d days, not %d", n, from, got, fewest)
		}
	}
}

func TestEachHomeByItself(t *testing.T) {
	var told []string
	for _, h := range assessment.StabHomes([]assessment.Window{windowOf("p", "s", "b", 1, 5), windowOf("q", "s", "a", 4, 9), windowOf("r", "t", "b", 5, 8), windowOf("p", "t", "b", 6, 7)}) {
		told = append(told, fmt.Sprintf("%s: %s", h.Home, inWords(h.Days)))
	}
	if got := strings.Join(told, "; "); got != "a: 2026-06-09; b: 2026-06-05 2026-06-07" {
		t.Error(got)
	}
}
