package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"wellshown/assessment"
)

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
