package assessment_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"wellshown/assessment"
	"wellshown/assessment/civil"
)

var planned = civil.MustParse("2026-06-01") // day 1 of the invented plans, a Monday

func dayNo(n int) civil.Date { return planned.AddDays(n - 1) }

func windowOf(person, skill, home string, opens, through int) assessment.Window {
	return assessment.Window{Person: assessment.PersonID(person), Need: assessment.Need{Skill: skill}, Home: assessment.ClientID(home), Opens: dayNo(opens), Through: dayNo(through)}
}

func always(skills ...string) map[string][]assessment.DaySpan {
	all := map[string][]assessment.DaySpan{}
	for _, s := range skills {
		all[s] = []assessment.DaySpan{{}}
	}
	return all
}

// inventVisiting makes a small plan from a seed, crowded on purpose: up to three homes,
// two educators and five days, of which one and the other is off, has few places or may
// not observe everything.
func inventVisiting(seed uint64) assessment.Visiting {
	rng := rand.New(rand.NewPCG(seed, 21))
	homes, days, educators := 1+rng.IntN(3), 2+rng.IntN(5), 1+rng.IntN(2)
	for homes*days*educators > 19 {
		days--
	}
	v := assessment.Visiting{From: planned}
	for e := range educators {
		one := assessment.VisitEducator{Person: assessment.PersonID(fmt.Sprint("e", e)), Name: fmt.Sprint("Educator ", e), PerDay: 1 + rng.IntN(4)/3, Base: fmt.Sprint("base ", e), Observes: map[string][]assessment.DaySpan{}}
		for _, skill := range []string{"s", "t", "u"} {
			switch rng.IntN(9) {
			case 0:
			case 1:
				one.Observes[skill] = []assessment.DaySpan{{Through: dayNo(1 + rng.IntN(days))}}
			default:
				one.Observes[skill] = []assessment.DaySpan{{}}
			}
		}
		if rng.IntN(3) == 0 {
			d := dayNo(1 + rng.IntN(days))
			one.Off = []assessment.DaySpan{{From: d, Through: d}}
		}
		if rng.IntN(4) == 0 {
			one.Taken = map[civil.Date]int{dayNo(1 + rng.IntN(days)): 1}
		}
		v.Educators = append(v.Educators, one)
	}
	for i := range 1 + rng.IntN(10) {
		person := fmt.Sprint("p", i)
		if rng.IntN(10) == 0 {
			person = "e0" // an educator is somebody who must be seen, too
		}
		opens := rng.IntN(days + 1)
		v.Windows = append(v.Windows, windowOf(person, []string{"s", "t", "u"}[rng.IntN(3)], fmt.Sprint("h", rng.IntN(homes)), opens, min(opens+rng.IntN(5), days)))
	}
	for a := range homes {
		for _, b := range []string{"base 0", "base 1", "h0", "h1", "h2"} {
			v.Distances.Set(fmt.Sprint("h", a), b, rng.IntN(60))
		}
	}
	return v
}

// TestVisitsAreTheFewestForTheMost: on 1,000 small plans no set of visits meets more
// windows, none that meets as many is smaller, and none as small has less travel; and the
// plan says so.
func TestVisitsAreTheFewestForTheMost(t *testing.T) {
	unmet, split, several := 0, 0, 0
	for seed := range uint64(1000) {
		v := inventVisiting(seed)
		plan := v.Plan()
		checkPlan(t, v, plan)
		most, fewest, least := everyPlan(v)
		if plan.Met != most || len(plan.Visits) != fewest {
			t.Fatalf("seed %d: %d met by %d visits, not %d by %d\n%+v", seed, plan.Met, len(plan.Visits), most, fewest, v)
		}
		if !plan.Proven || plan.MostMet != most || plan.FewestVisits != fewest {
			t.Errorf("seed %d: proven %t, at most %d, at least %d visits", seed, plan.Proven, plan.MostMet, plan.FewestVisits)
		}
		if plan.Minutes != least || !plan.LeastTravel {
			t.Fatalf("seed %d: %d minutes and not %d; proven %t", seed, plan.Minutes, least, plan.LeastTravel)
		}
		if most < len(v.Windows) {
			unmet++
		}
		stabs := 0
		for _, h := range plan.Apart {
			stabs += len(h.Days)
		}
		if fewest > stabs {
			split++
		}
		if fewest > 2 {
			several++
		}
	}
	t.Logf("1,000 plans: %d could not meet all, %d need more visits than days that stab, %d have more than two", unmet, split, several)
	if unmet < 100 || split < 50 || several < 100 {
		t.Error("too few of some to show anything")
	}
}

func TestThePlanIsTheSameEachTime(t *testing.T) {
	for seed := range uint64(20) {
		a, b := inventVisiting(seed).Plan(), inventVisiting(seed).Plan()
		if fmt.Sprint(a) != fmt.Sprint(b) {
			t.Fatalf("seed %d: two plans", seed)
		}
	}
}

func TestWindowsBeyondThePlan(t *testing.T) {
	v := assessment.Visiting{From: planned, Until: dayNo(10), Windows: []assessment.Window{windowOf("p", "s", "h", 11, 20), windowOf("q", "s", "h", 8, 9999999)},
		Educators: []assessment.VisitEducator{{Person: "e", PerDay: 1, Observes: always("s"), DaysOff: []time.Weekday{time.Monday}}}} // day 8 is a Monday
	plan := v.Plan()
	if len(plan.Unmet) != 1 || plan.Unmet[0].Why != assessment.OpensLater || len(plan.Visits) != 1 || plan.Visits[0].On.Before(dayNo(9)) || plan.Visits[0].On.After(dayNo(10)) {
		t.Errorf("visits %v, unmet %v", plan.Visits, plan.Unmet)
	}
}
