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

// TestSkillsDaysForCrowds: on invented windows each proposal has enough people, each once,
// and days in all of their windows; and of those who are left no day has enough.
func TestSkillsDaysForCrowds(t *testing.T) {
	proposals := 0
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 3))
		var windows []assessment.Window
		for range rng.IntN(40) {
			opens := rng.IntN(30) - 5
			windows = append(windows, windowOf(fmt.Sprint("p", rng.IntN(20)), []string{"s", "t"}[rng.IntN(2)], "h", opens, opens+rng.IntN(12)-1))
		}
		least, left := 2+rng.IntN(4), slices.Clone(windows)
		asked := map[string]int{}
		for _, p := range assessment.ProposeSkillsDays(windows, planned, least) {
			proposals++
			for _, w := range p.Windows {
				if asked[string(w.Person)+w.Need.Skill]++; asked[string(w.Person)+w.Need.Skill] > 1 {
					t.Fatalf("seed %d: %s is asked to come twice for %s", seed, w.Person, w.Need.Skill)
				}
			}
			people := map[assessment.PersonID]bool{}
			for _, w := range p.Windows {
				people[w.Person] = true
				if w.Need != p.Need || !w.Holds(p.From) || !w.Holds(p.Through) || p.From.Before(planned) || p.Through.Before(p.From) {
					t.Fatalf("seed %d: %v is not in %v", seed, w, p)
				}
			}
			if len(people) != len(p.Windows) || len(people) < least {
				t.Fatalf("seed %d: %d people in %d windows, at least %d", seed, len(people), len(p.Windows), least)
			}
			left = slices.DeleteFunc(left, func(w assessment.Window) bool { return w.Need == p.Need && people[w.Person] })
		}
		for d := planned; d.Before(dayNo(60)); d = d.AddDays(1) {
			for _, skill := range []string{"s", "t"} {
				people := map[assessment.PersonID]bool{}
				for _, w := range left {
					if w.Need.Skill == skill && w.Holds(d) {
						people[w.Person] = true
					}
				}
				if len(people) >= least {
					t.Fatalf("seed %d: %d people are left for %s on %s", seed, len(people), skill, d)
				}
			}
		}
	}
	if proposals < 300 {
		t.Errorf("only %d proposals", proposals)
	}
}

// TestASkillsDayIsForTheLargestCrowd: not for whoever happens to end first.
func TestASkillsDayIsForTheLargestCrowd(t *testing.T) {
	windows := []assessment.Window{windowOf("a", "s", "1", 1, 3), windowOf("b", "s", "2", 3, 9), windowOf("c", "s", "3", 3, 9), windowOf("d", "s", "1", 4, 9), windowOf("e", "s", "5", 4, 8),
		windowOf("f", "t", "1", 4, 8), windowOf("g", "t", "2", 4, 8)}
	got := assessment.ProposeSkillsDays(windows, dayNo(1), 3)
	if len(got) != 1 || len(got[0].Windows) != 4 || got[0].From != dayNo(4) || got[0].Through != dayNo(8) {
		t.Errorf("%v", got)
	}
	if late := assessment.ProposeSkillsDays(windows, dayNo(9), 3); len(late) != 1 || len(late[0].Windows) != 3 || late[0].From != dayNo(9) {
		t.Errorf("from the ninth on: %v", late)
	}
	even := []assessment.Window{windowOf("a", "s", "1", 5, 6), windowOf("b", "s", "2", 5, 6), windowOf("c", "s", "1", 1, 9), windowOf("d", "s", "2", 1, 2)}
	if got := assessment.ProposeSkillsDays(even, planned, 3); len(got) != 1 || got[0].From != dayNo(5) {
		t.Errorf("three on the fifth: %v", got)
	}
	even = append(even, windowOf("e", "s", "2", 1, 2))
	if got := assessment.ProposeSkillsDays(even, planned, 3); len(got) != 1 || got[0].From != dayNo(1) {
		t.Errorf("of two as large the earlier: %v", got)
	}
	own := []assessment.Window{windowOf("a", "s", "1", 1, 3), windowOf("b", "s", "2", 1, 3)}
	own[0].Need.Client, own[1].Need.Client = "1", "2"
	if got := assessment.ProposeSkillsDays(own, planned, 2); len(got) > 0 {
		t.Errorf("two children's own needs are one: %v", got)
	}
}
