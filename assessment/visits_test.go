package assessment_test

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"slices"
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

// everyPlan goes through every set of visits there is: each home, educator and day, or
// not. It answers the most windows met, the fewest visits for that, and the least travel
// for those.
func everyPlan(v assessment.Visiting) (int, int, int) {
	days := 0
	for _, w := range v.Windows {
		days = max(days, w.Through.Sub(planned)+1)
	}
	type point struct {
		home assessment.ClientID
		e, d int
	}
	var points []point
	for _, home := range []assessment.ClientID{"h0", "h1", "h2"} {
		for e := range v.Educators {
			for d := range days {
				if slices.ContainsFunc(v.Windows, func(w assessment.Window) bool { return w.Home == home }) {
					points = append(points, point{home, e, d + 1})
				}
			}
		}
	}
	meets := make([]uint32, len(v.Windows))
	for i, w := range v.Windows {
		for j, p := range points {
			e, on := v.Educators[p.e], dayNo(p.d)
			may := slices.ContainsFunc(e.Observes[w.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(on) })
			if w.Home == p.home && w.Holds(on) && may && w.Person != e.Person {
				meets[i] |= 1 << j
			}
		}
	}
	room, of := map[[2]int]int{}, map[[2]int]uint32{}
	for j, p := range points {
		e, key := v.Educators[p.e], [2]int{p.e, p.d}
		of[key] |= 1 << j
		room[key] = e.PerDay - e.Taken[dayNo(p.d)]
		if slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(dayNo(p.d)) }) {
			room[key] = 0
		}
	}
	var dayPoints []uint32
	var dayRoom []int
	for key, mask := range of {
		dayPoints, dayRoom = append(dayPoints, mask), append(dayRoom, room[key])
	}
	most, fewest, least := 0, 0, 0
	for set := range uint32(1) << len(points) {
		met, visits := 0, bits.OnesCount32(set)
		for _, m := range meets {
			if m&set != 0 {
				met++
			}
		}
		if met < most || met == most && visits > fewest {
			continue
		}
		fits := true
		for i, mask := range dayPoints {
			fits = fits && bits.OnesCount32(mask&set) <= dayRoom[i]
		}
		if !fits {
			continue
		}
		ways := map[[2]int][]string{}
		for j, p := range points {
			if set>>j&1 == 1 {
				ways[[2]int{p.e, p.d}] = append(ways[[2]int{p.e, p.d}], string(p.home))
			}
		}
		minutes := 0
		for day, homes := range ways {
			minutes += everyOrder(v.Distances, v.Educators[day[0]].Base, v.Educators[day[0]].Base, homes)
		}
		if met > most || visits < fewest || minutes < least {
			least = minutes
		}
		most, fewest = met, visits
	}
	return most, fewest, least
}

// everyOrder is the least travel from a place through some homes, in any order, to another.
func everyOrder(d assessment.Distances, from, to string, homes []string) int {
	if len(homes) == 0 {
		return d.Between(from, to)
	}
	least := 1 << 30
	for i, h := range homes {
		others := append(slices.Clone(homes[:i]), homes[i+1:]...)
		least = min(least, d.Between(from, h)+everyOrder(d, h, to, others))
	}
	return least
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

// checkPlan holds a plan to what was asked, whether it is the best or not.
func checkPlan(t *testing.T, v assessment.Visiting, plan assessment.VisitPlan) {
	t.Helper()
	educators, made, left := map[assessment.PersonID]assessment.VisitEducator{}, map[string]int{}, map[assessment.Window]int{}
	for _, e := range v.Educators {
		educators[e.Person] = e
	}
	for _, w := range v.Windows {
		left[w]++
	}
	met, twice := 0, map[string]bool{}
	for _, visit := range plan.Visits {
		e := educators[visit.Educator]
		if there := string(visit.Home+"/") + string(e.Person) + visit.On.String(); twice[there] {
			t.Fatalf("twice on one day: %v", visit)
		} else {
			twice[there] = true
		}
		key := string(e.Person) + visit.On.String()
		made[key]++
		if len(visit.Windows) == 0 || visit.On.Before(v.From) || made[key] > e.PerDay-e.Taken[visit.On] {
			t.Fatalf("too much, too early or for nothing: %v", visit)
		}
		if slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(visit.On) }) || slices.Contains(e.DaysOff, visit.On.Weekday()) {
			t.Fatalf("%s is off: %v", e.Name, visit)
		}
		for _, w := range visit.Windows {
			left[w]--
			met++
			if w.Home != visit.Home || !w.Holds(visit.On) || w.Person == e.Person || !slices.ContainsFunc(e.Observes[w.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(visit.On) }) {
				t.Fatalf("%v is not met by %v", w, visit)
			}
		}
	}
	for _, u := range plan.Unmet {
		left[u.Window]--
		checkUnmet(t, v, u, made)
	}
	for w, n := range left {
		if n != 0 {
			t.Fatalf("%v is met or told of %d times too few", w, n)
		}
	}
	if met != plan.Met || met > plan.MostMet || len(plan.Visits) < plan.FewestVisits {
		t.Fatalf("%d met by %d visits; said: %d, at most %d, at least %d", met, len(plan.Visits), plan.Met, plan.MostMet, plan.FewestVisits)
	}
	minutes := 0
	for _, d := range plan.Days {
		minutes += d.Minutes
		sum, at := 0, educators[d.Educator].Base
		for _, h := range d.Homes {
			sum, at = sum+v.Distances.Between(at, string(h)), string(h)
		}
		if sum += v.Distances.Between(at, educators[d.Educator].Base); sum != d.Minutes || len(d.Homes) != made[string(d.Educator)+d.On.String()] {
			t.Fatalf("%d minutes, not %d: %v", sum, d.Minutes, d)
		}
	}
	if minutes != plan.Minutes {
		t.Fatalf("%d minutes in all, not %d", minutes, plan.Minutes)
	}
}

// checkUnmet holds the reason to what is so: every educator on every day of the window.
func checkUnmet(t *testing.T, v assessment.Visiting, u assessment.Unmet, made map[string]int) {
	t.Helper()
	want, named := assessment.NobodyObserves, map[string]bool{}
	for _, f := range u.Educators {
		for _, d := range f.Off {
			named[string(f.Person)+d.String()+"off"] = true
		}
		for _, d := range f.Full {
			named[string(f.Person)+d.String()+"full"] = true
		}
	}
	from := civil.Later(u.Window.Opens, v.From)
	for d := from; !d.After(u.Window.Through); d = d.AddDays(1) {
		for _, e := range v.Educators {
			if e.Person == u.Window.Person || !slices.ContainsFunc(e.Observes[u.Window.Need.Skill], func(s assessment.DaySpan) bool { return s.Holds(d) }) {
				continue
			}
			want = assessment.OffOrFull
			key := string(e.Person) + d.String()
			off := slices.ContainsFunc(e.Off, func(s assessment.DaySpan) bool { return s.Holds(d) }) || slices.Contains(e.DaysOff, d.Weekday())
			if full := made[key]+e.Taken[d] >= e.PerDay; !off && !full || off && !named[key+"off"] || !off && !named[key+"full"] {
				t.Fatalf("%s on %s: off %t, full %t; said: %v", e.Name, d, off, full, u)
			}
			delete(named, key+"off")
			delete(named, key+"full")
		}
	}
	if u.Window.Through.Before(from) {
		want = assessment.WindowOver
	}
	if u.Why != want || len(named) > 0 {
		t.Fatalf("%s, and not %s: %v; %v too many", want, u.Why, u, named)
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
