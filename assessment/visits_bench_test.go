package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"wellshown/assessment"
)

// largeVisiting is an agency of 500 caregivers in 150 homes with three renewals due in 90
// days each, and educators with so many visits a day.
func largeVisiting(educators, perDay int) assessment.Visiting {
	rng := rand.New(rand.NewPCG(500, 21))
	v := assessment.Visiting{From: planned}
	var skills []string
	for s := range 12 {
		skills = append(skills, fmt.Sprint("skill ", s))
	}
	for e := range educators {
		one := assessment.VisitEducator{Person: assessment.PersonID(fmt.Sprint("e", e)), Name: fmt.Sprint("Educator ", e), PerDay: perDay, Base: "office",
			Observes: map[string][]assessment.DaySpan{}, DaysOff: []time.Weekday{time.Saturday, time.Sunday}}
		for s, skill := range skills {
			if (s+e)%4 > 0 {
				one.Observes[skill] = []assessment.DaySpan{{Through: dayNo(60 + rng.IntN(300))}}
			}
		}
		off := 1 + rng.IntN(80)
		one.Off = []assessment.DaySpan{{From: dayNo(off), Through: dayNo(off + 9)}}
		v.Educators = append(v.Educators, one)
	}
	for p := range 500 {
		for _, s := range rng.Perm(12)[:3] {
			opens := rng.IntN(90) - 29
			v.Windows = append(v.Windows, windowOf(fmt.Sprint("p", p), skills[s], fmt.Sprint("home ", p%150), opens, max(opens, 1)+rng.IntN(45)))
		}
	}
	type spot struct{ x, y int }
	spots := []spot{{50, 50}}
	names := []string{"office"}
	for h := range 150 {
		spots, names = append(spots, spot{rng.IntN(100), rng.IntN(100)}), append(names, fmt.Sprint("home ", h))
	}
	for a := range names {
		for b := range a {
			v.Distances.Set(names[a], names[b], max(spots[a].x-spots[b].x, spots[b].x-spots[a].x)+max(spots[a].y-spots[b].y, spots[b].y-spots[a].y))
		}
	}
	return v
}

var largePlans = []struct {
	name              string
	educators, perDay int
}{{"enough educators", 8, 4}, {"barely enough", 3, 4}, {"too few", 2, 2}}

// TestLargePlans holds the plans that are measured below to what was asked; their size and
// what is proven of them is told. Where educators are enough it is proven that none is
// better; where they are far too few most of what they can do is done: a rough bound says
// how much that is at most.
func TestLargePlans(t *testing.T) {
	for _, c := range largePlans {
		v := largeVisiting(c.educators, c.perDay)
		plan := v.Plan()
		checkPlan(t, v, plan)
		if c.name == "enough educators" && !plan.Proven || plan.Met*4 < plan.MostMet*3 || len(plan.Visits)*2 > plan.FewestVisits*3 {
			t.Errorf("%s: far from what no plan can pass", c.name)
		}
		t.Logf("%s: %d of %d windows met (at most %d) by %d visits (at least %d), proven %t, %d minutes", c.name, plan.Met, len(v.Windows), plan.MostMet, len(plan.Visits), plan.FewestVisits, plan.Proven, plan.Minutes)
	}
}

// BenchmarkVisits plans 1,500 windows of 500 caregivers in 150 homes.
func BenchmarkVisits(b *testing.B) {
	for _, c := range largePlans {
		v := largeVisiting(c.educators, c.perDay)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if plan := v.Plan(); plan.Met == 0 {
					b.Fatal("nothing met")
				}
			}
		})
	}
}
