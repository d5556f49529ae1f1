package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"wellshown/assessment"
)

// TestUnitTasksWithDeadlines: one visit a day is one unit of time. The instance is in
// testdata/planning/unit_tasks.json with its source: five of seven can be on time.
func TestUnitTasksWithDeadlines(t *testing.T) {
	var facts struct {
		CLRS struct {
			Deadlines []int
			Late      []string
		}
		Release []struct {
			Name     string
			Jobs     [][2]int
			Feasible bool
		} `json:"release_times"`
	}
	planningFacts(t, "unit_tasks.json", &facts)
	var jobs [][2]int
	for _, d := range facts.CLRS.Deadlines {
		jobs = append(jobs, [2]int{0, d})
	}
	if late := len(onePerDay(t, jobs).Unmet); late != len(facts.CLRS.Late) || late != 2 {
		t.Errorf("%d are late, and %v were printed", late, facts.CLRS.Late)
	}
	if len(facts.Release) != 2 {
		t.Fatalf("%d instances", len(facts.Release))
	}
	for _, c := range facts.Release {
		if plan := onePerDay(t, c.Jobs); (len(plan.Unmet) == 0) != c.Feasible {
			t.Errorf("%s: %v", c.Name, plan.Unmet)
		}
	}
}

// onePerDay plans visits to as many homes, each with one window, by one educator who makes
// one visit a day: released after day r, due by day d.
func onePerDay(t *testing.T, jobs [][2]int) assessment.VisitPlan {
	t.Helper()
	v := assessment.Visiting{From: planned, Educators: []assessment.VisitEducator{{Person: "e", PerDay: 1, Observes: always("s")}}}
	for i, j := range jobs {
		v.Windows = append(v.Windows, windowOf(fmt.Sprint("p", i), "s", fmt.Sprint("h", i), j[0]+1, j[1]))
	}
	plan := v.Plan()
	checkPlan(t, v, plan)
	return plan
}

// TestNoDeadlineIsMissedThatCouldBeMet: where the earliest deadline first, day by day,
// meets all windows, so does the plan; and where it does not, the plan meets no fewer. It
// is optimal for unit tasks (Garey, Johnson, Simons and Tarjan 1981).
func TestNoDeadlineIsMissedThatCouldBeMet(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 22))
	feasible := 0
	for n := range 1000 {
		var jobs [][2]int
		for range 1 + rng.IntN(14) {
			r := rng.IntN(9)
			jobs = append(jobs, [2]int{r, r + 1 + rng.IntN(6)})
		}
		met := earliestFirst(jobs)
		plan := onePerDay(t, jobs)
		if plan.Met < met || !plan.Proven || plan.Met > len(jobs) {
			t.Fatalf("case %d, %v: %d met, and %d by the earliest deadline; proven %t", n, jobs, plan.Met, met, plan.Proven)
		}
		if met == len(jobs) {
			feasible++
		}
	}
	if feasible < 200 || feasible > 800 {
		t.Errorf("%d of 1,000 can be met: too few of some to show anything", feasible)
	}
}

func earliestFirst(jobs [][2]int) int {
	left, met := slices.Clone(jobs), 0
	for day := 1; day <= 30; day++ {
		best := -1
		for i, j := range left {
			if j[0] < day && day <= j[1] && (best < 0 || j[1] < left[best][1]) {
				best = i
			}
		}
		if best >= 0 {
			left, met = slices.Delete(left, best, best+1), met+1
		}
	}
	return met
}
